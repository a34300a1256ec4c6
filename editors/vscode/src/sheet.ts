// The sheet for the lathe: written by the program, opened in the browser.

import { execFile } from "node:child_process";
import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import * as vscode from "vscode";
import type { Server } from "./server";

export async function makeSheet(server: Server): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  const document = editor?.document;
  if (editor === undefined || document?.languageId !== "quillet") {
    void vscode.window.showInformationMessage("Open a pen first: a file that ends in .quillet.");
    return;
  }
  if (server.path === undefined) {
    await server.restart();
    return;
  }
  // The program reads the disk, not the editor.
  if ((document.isUntitled || document.isDirty) && !(await document.save())) {
    return;
  }
  const name = basename(document.uri.fsPath, ".quillet");
  const out = join(await mkdtemp(join(tmpdir(), "quillet-")), `${name}.html`);
  const pen = penAt(document, editor.selection.active);
  const asked = ["sheet", document.uri.fsPath, "-o", out, ...(pen === undefined ? [] : ["--pen", pen])];
  const { failed, said } = await run(server.path, asked, dirname(document.uri.fsPath));
  if (said !== "") {
    server.log.info(said);
  }
  if (failed) {
    const look = "Show What the Checker Says";
    const answer = await vscode.window.showWarningMessage(
      `No sheet was made of ${name}: ${said.split("\n", 1)[0] ?? ""}`,
      look,
    );
    if (answer === look) {
      server.log.show();
    }
    return;
  }
  await vscode.env.openExternal(vscode.Uri.file(out));
}

/** The pen that begins at or above a place, else the first: a sheet is of one pen. */
function penAt(document: vscode.TextDocument, place: vscode.Position): string | undefined {
  const pens = [...document.getText().matchAll(/^[ \t]*pen[ \t]+([a-z][A-Za-z0-9-]*)/gm)];
  const above = pens.filter((pen) => document.positionAt(pen.index).line <= place.line);
  return (above.at(-1) ?? pens[0])?.[1];
}

function run(
  program: string,
  asked: string[],
  cwd: string,
): Promise<{ failed: boolean; said: string }> {
  return new Promise((answer) => {
    execFile(program, asked, { cwd, timeout: 60_000 }, (error, _, said) => {
      answer({ failed: error !== null, said: said.trim() || (error?.message ?? "") });
    });
  });
}
