// The sheet for the lathe: written by the program, opened in the browser.

import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import * as vscode from "vscode";
import { asked, savedPen } from "./run";
import type { Server } from "./server";

export async function makeSheet(server: Server): Promise<void> {
  const editor = await savedPen(server);
  if (editor === undefined) {
    return;
  }
  const { document } = editor;
  const name = basename(document.uri.fsPath, ".quillet");
  const out = join(await mkdtemp(join(tmpdir(), "quillet-")), `${name}.html`);
  const pen = penAt(document, editor.selection.active);
  const given = ["sheet", document.uri.fsPath, "-o", out, ...(pen === undefined ? [] : ["--pen", pen])];
  if ((await asked(server, document, "No sheet was made", given)) !== undefined) {
    await vscode.env.openExternal(vscode.Uri.file(out));
  }
}

/** The pen that begins at or above a place, else the first: a sheet is of one pen. */
function penAt(document: vscode.TextDocument, place: vscode.Position): string | undefined {
  const pens = [...document.getText().matchAll(/^[ \t]*pen[ \t]+([a-z][A-Za-z0-9-]*)/gm)];
  const above = pens.filter((pen) => document.positionAt(pen.index).line <= place.line);
  return (above.at(-1) ?? pens[0])?.[1];
}
