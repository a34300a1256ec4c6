// The panel beside the text: the part or pen under the cursor, in section, with its measures.

import { randomBytes } from "node:crypto";
import * as vscode from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";
import { page, type Shown } from "./page";
import type { Server } from "./server";

/** What is shown: a pen or part by its name, or the one at a position. */
type Place = { uri: vscode.Uri; name?: string; position?: vscode.Position };

/** Typing and moving are followed after this pause. */
const PAUSE_MS = 60;

export class Preview implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  /** The place last looked at; the panel keeps to it while other files are read. */
  private place: Place | undefined;
  private timer: NodeJS.Timeout | undefined;
  /** Numbers the questions, so that a late answer to an old one is not shown. */
  private asked = 0;
  private readonly follows: vscode.Disposable[];

  constructor(
    private readonly server: Server,
    private readonly icon: vscode.Uri,
  ) {
    this.follows = [
      vscode.window.onDidChangeTextEditorSelection((change) => this.look(change.textEditor)),
      vscode.window.onDidChangeActiveTextEditor((editor) => this.look(editor)),
      server.onAbsent(() => this.soon()),
      server.onStart((client) => {
        client.onNotification("quillet/previewChanged", () => this.soon());
        this.soon();
      }),
    ];
  }

  /** Opens the panel; with a document and a name it shows that pen or part until the cursor moves. */
  show(uri?: vscode.Uri, name?: string): void {
    if (this.panel === undefined) {
      this.panel = vscode.window.createWebviewPanel(
        "quillet.preview",
        "Quillet",
        { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
        { enableScripts: false, enableFindWidget: true, localResourceRoots: [] },
      );
      this.panel.iconPath = this.icon;
      this.panel.onDidDispose(() => {
        this.panel = undefined;
      });
    } else {
      this.panel.reveal(undefined, true);
    }
    if (uri !== undefined && name !== undefined) {
      this.place = { uri, name };
    } else {
      this.look(vscode.window.activeTextEditor);
    }
    this.soon();
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.panel?.dispose();
    for (const follow of this.follows) {
      follow.dispose();
    }
  }

  private look(editor: vscode.TextEditor | undefined): void {
    if (editor?.document.languageId !== "quillet") {
      return;
    }
    this.place = { uri: editor.document.uri, position: editor.selection.active };
    this.soon();
  }

  private soon(): void {
    if (this.panel === undefined) {
      return;
    }
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.draw(), PAUSE_MS);
  }

  private async draw(): Promise<void> {
    const client = this.server.running;
    const place = this.place;
    const number = ++this.asked;
    const shown = client && place && (await ask(client, place));
    if (this.panel === undefined || number !== this.asked) {
      return;
    }
    this.panel.title = shown?.title ?? "Quillet";
    this.panel.webview.html = page(shown, randomBytes(16).toString("hex"), this.server.absent);
  }
}

async function ask(
  client: LanguageClient,
  place: Place,
): Promise<Shown | undefined> {
  const code = client.code2ProtocolConverter;
  try {
    const answer = await client.sendRequest<Shown | null>("quillet/preview", {
      textDocument: { uri: code.asUri(place.uri) },
      position: place.position && code.asPosition(place.position),
      name: place.name,
    });
    return answer ?? undefined;
  } catch (error) {
    client.outputChannel.appendLine(`no preview: ${String(error)}`);
    return undefined;
  }
}
