// The program asked about a pen that lies on the disk: saved, run where the pen lies, and what failed told.

import { execFile } from "node:child_process";
import { basename, dirname } from "node:path";
import * as vscode from "vscode";
import type { Server } from "./server";

/** The pen in the active editor, saved, since the program reads the disk; none where there is none. */
export async function savedPen(server: Server): Promise<vscode.TextEditor | undefined> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== "quillet") {
    void vscode.window.showInformationMessage("Open a pen first: a file that ends in .quillet.");
    return undefined;
  }
  if (server.path === undefined) {
    await server.restart();
    return undefined;
  }
  const { document } = editor;
  const unsaved = document.isUntitled || document.isDirty;
  return unsaved && !(await document.save()) ? undefined : editor;
}

/** What the program writes to standard output; none where it failed or was called off, once that was told. */
export async function asked(
  server: Server,
  document: vscode.TextDocument,
  what: string,
  given: string[],
  token?: vscode.CancellationToken,
): Promise<string | undefined> {
  const program = server.path;
  if (program === undefined) {
    return undefined;
  }
  const { failed, out, said } = await run(program, given, dirname(document.uri.fsPath), token);
  if (said !== "") {
    server.log.info(said);
  }
  if (!failed) {
    return out;
  }
  if (token?.isCancellationRequested !== true) {
    void told(server, `${what} of ${basename(document.uri.fsPath)}: ${said.split("\n", 1)[0] ?? ""}`);
  }
  return undefined;
}

async function told(server: Server, why: string): Promise<void> {
  const look = "Show What the Checker Says";
  if ((await vscode.window.showWarningMessage(why, look)) === look) {
    server.log.show();
  }
}

function run(
  program: string,
  given: string[],
  cwd: string,
  token: vscode.CancellationToken | undefined,
): Promise<{ failed: boolean; out: string; said: string }> {
  return new Promise((answer) => {
    const options = { cwd, timeout: 120_000, maxBuffer: 32 << 20 };
    const child = execFile(program, given, options, (error, out, said) => {
      answer({ failed: error !== null, out, said: said.trim() || (error?.message ?? "") });
    });
    token?.onCancellationRequested(() => child.kill());
  });
}
