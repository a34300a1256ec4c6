// Quillet in Visual Studio Code: starts the language server and shows the pen beside the text.

import * as vscode from "vscode";
import { beginPen } from "./begin";
import { compareWith } from "./compare";
import { Preview } from "./preview";
import { Server } from "./server";
import { makeSheet } from "./sheet";

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const server = new Server(context);
  const preview = new Preview(server, vscode.Uri.joinPath(context.extensionUri, "images/file.svg"));
  server.onPreview = (uri, name) => preview.show(uri, name);
  const say = (name: string, run: (...given: unknown[]) => unknown) =>
    vscode.commands.registerCommand(`quillet.${name}`, run);
  context.subscriptions.push(
    server,
    preview,
    say("beginPen", beginPen),
    say("watchBeside", () => preview.show()),
    say("sheet", () => makeSheet(server)),
    say("compareWith", () => compareWith(server)),
    say("restart", () => server.restart()),
    say("log", () => server.log.show()),
  );
  await server.start();
}
