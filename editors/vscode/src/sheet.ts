// The sheet for the lathe: written by the program, opened in the browser.

import { execFile } from "node:child_process";
import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import * as vscode from "vscode";
import type { Server } from "./server";

export async function makeSheet(server: Server): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId !== "quillet") {
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
  const asked = ["sheet", document.uri.fsPath, "-o", out];
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
