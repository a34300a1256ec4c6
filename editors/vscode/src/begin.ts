// A starting pen in a new editor, with notes that teach.

import * as vscode from "vscode";
import firstPen from "./first.quillet";

export async function beginPen(): Promise<void> {
  const document = await vscode.workspace.openTextDocument({
    language: "quillet",
    content: firstPen,
  });
  await vscode.window.showTextDocument(document);
}
