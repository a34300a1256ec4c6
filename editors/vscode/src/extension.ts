// Quillet in Visual Studio Code: starts the language server and shows the pen beside the text.

import * as vscode from "vscode";
import { beginPen } from "./begin";
import { compareWith } from "./compare";
import { Parts } from "./parts";
import { Preview } from "./preview";
import { room } from "./room";
import { Server } from "./server";
import { makeSheet } from "./sheet";

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const server = new Server(context);
  const preview = new Preview(server, vscode.Uri.joinPath(context.extensionUri, "images/file.svg"));
  const parts = new Parts(server);
  server.onPreview = (uri, name) => preview.show(uri, name);
  const say = (name: string, run: (...given: unknown[]) => unknown) =>
    vscode.commands.registerCommand(`quillet.${name}`, run);
  context.subscriptions.push(
    server,
    preview,
    parts,
    say("beginPen", beginPen),
    say("watchBeside", (row) => preview.show(...parts.named(row))),
    say("sheet", () => makeSheet(server)),
    say("compareWith", () => compareWith(server)),
    say("room", () => room(server)),
    say("restart", () => server.restart()),
    say("log", () => server.log.show()),
  );
  await server.start();
}
