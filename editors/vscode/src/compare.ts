// What has changed since a revision of git: asked of the server, opened as a page.

import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import * as vscode from "vscode";
import type { Server } from "./server";

interface Compared {
  html: string;
  markdown: string;
  json: string;
}

export async function compareWith(server: Server): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId !== "quillet" || document.isUntitled) {
    void vscode.window.showInformationMessage("Open a pen first: a file that ends in .quillet.");
    return;
  }
  const usual = vscode.workspace.getConfiguration("quillet").get("compareWith", "HEAD") || "HEAD";
  const revision = await vscode.window.showInputBox({
    title: "Compare with",
    prompt: "A revision of git: HEAD, main~2, the name of a branch or a tag.",
    value: usual,
  });
  if (revision === undefined) {
    return;
  }
  try {
    const uri = document.uri.toString();
    const client = server.running;
    if (client === undefined) {
      throw new Error("the checker is not running");
    }
    const asked = { textDocument: { uri }, revision };
    const told = await client.sendRequest<Compared>("quillet/compare", asked);
    const folder = await mkdtemp(join(tmpdir(), "quillet-"));
    const out = join(folder, `${basename(document.uri.fsPath, ".quillet")}-compared.html`);
    await writeFile(out, told.html);
    await vscode.env.openExternal(vscode.Uri.file(out));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void vscode.window.showWarningMessage(`Not compared: ${why}`);
  }
}
