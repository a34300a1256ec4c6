// The language server's process: found, started, started afresh, and explained when missing.

import * as vscode from "vscode";
import {
  LanguageClient,
  RevealOutputChannelOn,
  State,
  type LanguageClientOptions,
  type ServerOptions,
} from "vscode-languageclient/node";
import { findProgram, type Found } from "./program";

/** The ways to a program. */
const GET =
  "Take the extension made for your system, which carries the program; or put the program of a release on your " +
  'PATH; or build it with "cargo install --path crates/cli" in Quillet\'s folder.';

export class Server implements vscode.Disposable {
  readonly log = vscode.window.createOutputChannel("Quillet", { log: true });
  private client: LanguageClient | undefined;
  private program: Found | undefined;
  private readonly status = vscode.languages.createLanguageStatusItem("quillet.server", {
    language: "quillet",
  });
  private readonly settings: vscode.Disposable;
  private readonly stopped = new vscode.EventEmitter<void>();
  private readonly started = new vscode.EventEmitter<LanguageClient>();
  /** Told when a lens asks for the picture of a pen or part. */
  onPreview: (uri: vscode.Uri, name: string) => void = () => {};
  /** Fired with the client whenever the server has come up. */
  readonly onStart = this.started.event;
  /** Fired when it is known that there is no server. */
  readonly onAbsent = this.stopped.event;

  constructor(private readonly context: vscode.ExtensionContext) {
    this.status.name = "Quillet";
    this.status.command = { command: "quillet.restart", title: "Start afresh" };
    this.settings = vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration("quillet.server.path")) {
        void this.restart();
      }
    });
  }

  /** The client, while the server runs. */
  get running(): LanguageClient | undefined {
    return this.client?.state === State.Running ? this.client : undefined;
  }

  /** Why there is no server, in words; nothing while there is one. */
  private absence: string | undefined;
  get absent(): string | undefined {
    return this.running === undefined ? this.absence : undefined;
  }

  /** The program that serves, once it has been found. */
  get path(): string | undefined {
    return this.program?.path;
  }

  async start(): Promise<void> {
    const wanted = vscode.workspace.getConfiguration("quillet").get("server.path", "");
    this.program = findProgram({
      wanted,
      folder: vscode.workspace.workspaceFolders?.[0]?.uri.fsPath,
      bundled: this.context.asAbsolutePath("server"),
    });
    if (this.program.path === undefined) {
      this.missing(this.program.why);
      return;
    }
    const run = { command: this.program.path, args: ["lsp"] };
    const server: ServerOptions = { run, debug: run };
    const options: LanguageClientOptions = {
      documentSelector: [
        { scheme: "file", language: "quillet" },
        { scheme: "untitled", language: "quillet" },
      ],
      outputChannel: this.log,
      revealOutputChannelOn: RevealOutputChannelOn.Never,
      middleware: {
        // The server would show a page in the browser; here is a panel for it.
        executeCommand: (command, given, next) => {
          const [uri, name] = given as unknown[];
          if (command === "quillet.open.preview" && typeof uri === "string") {
            return this.onPreview(vscode.Uri.parse(uri, true), String(name));
          }
          return next(command, given);
        },
      },
    };
    const client = new LanguageClient("quillet", "Quillet", server, options);
    this.client = client;
    try {
      await client.start();
    } catch (error) {
      this.missing(`${this.program.path} did not start: ${String(error)}`);
      return;
    }
    const version = client.initializeResult?.serverInfo?.version ?? "";
    this.status.severity = vscode.LanguageStatusSeverity.Information;
    this.status.text = `Quillet ${version}`.trim();
    this.status.detail = this.program.path;
    this.started.fire(client);
  }

  async restart(): Promise<void> {
    await this.stop();
    await this.start();
  }

  dispose(): Thenable<void> {
    this.settings.dispose();
    this.status.dispose();
    this.started.dispose();
    this.stopped.dispose();
    return this.stop().finally(() => this.log.dispose());
  }

  private async stop(): Promise<void> {
    const client = this.client;
    this.client = undefined;
    // A server that never came up has nothing to be told.
    if (client?.state === State.Running) {
      await client.stop();
    }
    await client?.dispose();
  }

  /** Says what is missing and offers the two ways out. */
  private missing(why: string): void {
    this.status.severity = vscode.LanguageStatusSeverity.Error;
    this.status.text = "Quillet is not checking";
    this.status.detail = why;
    this.absence = why;
    this.stopped.fire();
    this.log.error(why);
    const choose = "Choose the program…";
    const settings = "Open the setting";
    void vscode.window
      .showErrorMessage(
        `Quillet cannot check your pens: ${why} ${GET}`,
        choose,
        settings,
      )
      .then(async (answer) => {
        if (answer === settings) {
          await vscode.commands.executeCommand(
            "workbench.action.openSettings",
            "quillet.server.path",
          );
        } else if (answer === choose) {
          await chooseProgram();
        }
      });
  }
}

async function chooseProgram(): Promise<void> {
  const chosen = await vscode.window.showOpenDialog({
    title: "The quillet program",
    openLabel: "Use this program",
  });
  if (chosen?.[0]) {
    await vscode.workspace
      .getConfiguration("quillet")
      .update("server.path", chosen[0].fsPath, vscode.ConfigurationTarget.Global);
  }
}
