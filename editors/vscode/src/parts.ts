// The view of the pen that was last looked at: its parts and pens with what they come to, and under each
// what is found in it.

import * as vscode from "vscode";
import type { Server } from "./server";

/** A part or a pen with its findings; one without a symbol is the rest of the file. */
interface Item {
  symbol: vscode.DocumentSymbol | undefined;
  /** Weight and least wall, or length and balance. */
  comesTo: string;
  findings: Finding[];
}

/** A row of its own for each finding, as a tree wants. */
interface Finding {
  diagnostic: vscode.Diagnostic;
}

type Row = Item | Finding;

/** Findings come one after another; the view waits until they rest. */
const PAUSE_MS = 150;

export class Parts implements vscode.TreeDataProvider<Row>, vscode.Disposable {
  private readonly changed = new vscode.EventEmitter<void>();
  readonly onDidChangeTreeData = this.changed.event;
  private readonly view: vscode.TreeView<Row>;
  private readonly follows: vscode.Disposable[];
  private document: vscode.TextDocument | undefined;
  private timer: NodeJS.Timeout | undefined;

  constructor(private readonly server: Server) {
    this.view = vscode.window.createTreeView("quillet.parts", { treeDataProvider: this });
    this.follows = [
      vscode.window.onDidChangeActiveTextEditor((editor) => this.look(editor)),
      vscode.languages.onDidChangeDiagnostics(({ uris }) => {
        const own = this.document?.uri.toString();
        if (uris.some((uri) => uri.toString() === own)) {
          this.soon();
        }
      }),
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document === this.document) {
          this.soon();
        }
      }),
      vscode.workspace.onDidCloseTextDocument((document) => {
        if (document === this.document) {
          this.document = undefined;
          this.soon();
        }
      }),
      server.onStart(() => this.soon()),
      server.onAbsent(() => this.soon()),
    ];
    this.look(vscode.window.activeTextEditor);
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.view.dispose();
    this.changed.dispose();
    for (const follow of this.follows) {
      follow.dispose();
    }
  }

  async getChildren(row?: Row): Promise<Row[]> {
    if (row !== undefined) {
      return "findings" in row ? row.findings : [];
    }
    const document = this.document;
    if (document === undefined || this.server.running === undefined) {
      this.headed(document, 0, this.server.absent && `Quillet is not checking: ${this.server.absent}`);
      return [];
    }
    const items = await itemsOf(document);
    const found = items.flatMap((item) => item.findings);
    const counted = found.filter(counts).length;
    this.headed(document, counted, found.length === 0 ? "Nothing found." : undefined);
    return items;
  }

  getTreeItem(row: Row): vscode.TreeItem {
    return "findings" in row ? this.itemRow(row) : this.findingRow(row);
  }

  /** The file and the name of a row, for what is asked of it; nothing of what is no row. */
  named(row: unknown): [uri?: vscode.Uri, name?: string] {
    const name = (row as Partial<Item> | undefined)?.symbol?.name;
    return this.document === undefined || name === undefined ? [] : [this.document.uri, name];
  }

  private look(editor: vscode.TextEditor | undefined): void {
    if (editor?.document.languageId === "quillet" && editor.document !== this.document) {
      this.document = editor.document;
      // The view is not shown before there was a pen.
      void vscode.commands.executeCommand("setContext", "quillet.used", true);
      this.soon();
    }
  }

  private soon(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.changed.fire(), PAUSE_MS);
  }

  private headed(document: vscode.TextDocument | undefined, found: number, message: string | undefined): void {
    this.view.description = document && vscode.workspace.asRelativePath(document.uri);
    const tooltip = found === 1 ? "1 found" : `${found} found`;
    this.view.badge = found === 0 ? undefined : { value: found, tooltip };
    this.view.message = message;
  }

  private itemRow({ symbol, comesTo, findings }: Item): vscode.TreeItem {
    const open = findings.length > 0 ? vscode.TreeItemCollapsibleState.Expanded : vscode.TreeItemCollapsibleState.None;
    const row = new vscode.TreeItem(symbol?.name ?? "In no part", open);
    // A row that gains its first finding opens, which it does only as another row.
    row.id = `${this.document?.uri.toString()}#${symbol?.name ?? ""}#${open}`;
    row.description = comesTo;
    const pen = symbol?.kind === vscode.SymbolKind.Function;
    row.contextValue = symbol === undefined ? "file" : pen ? "pen" : "part";
    const worst = findings.reduce((least, { diagnostic }) => Math.min(least, diagnostic.severity), 9);
    row.iconPath = icon(worst, pen ? "edit" : symbol === undefined ? "file" : "circle-outline");
    if (symbol !== undefined) {
      row.command = this.jump(symbol.selectionRange);
    }
    return row;
  }

  private findingRow({ diagnostic }: Finding): vscode.TreeItem {
    const [says = ""] = diagnostic.message.split("\n", 1);
    const row = new vscode.TreeItem(says);
    row.description = `line ${diagnostic.range.start.line + 1}`;
    row.tooltip = `${diagnostic.message}\n${rule(diagnostic)}`;
    row.iconPath = icon(diagnostic.severity, "info");
    row.contextValue = "finding";
    row.command = this.jump(diagnostic.range);
    return row;
  }

  private jump(selection: vscode.Range): vscode.Command {
    return { command: "vscode.open", title: "Go there", arguments: [this.document?.uri, { selection }] };
  }
}

/** The parts, what is bought and the pens of a file in the order of its text, then what is found elsewhere in it. */
async function itemsOf(document: vscode.TextDocument): Promise<Item[]> {
  const run = vscode.commands.executeCommand;
  const [symbols, lenses] = await Promise.all([
    run<vscode.DocumentSymbol[] | undefined>("vscode.executeDocumentSymbolProvider", document.uri),
    run<vscode.CodeLens[] | undefined>("vscode.executeCodeLensProvider", document.uri, 1000),
  ]);
  const { Class, Interface, Function } = vscode.SymbolKind;
  const shown = (symbols ?? []).filter(({ kind }) => [Class, Interface, Function].includes(kind));
  const left = new Set(vscode.languages.getDiagnostics(document.uri));
  const items: Item[] = shown.map((symbol) => ({
    symbol,
    comesTo: comesTo(symbol, lenses ?? []),
    findings: taken(left, ({ range }) => symbol.range.contains(range.start)),
  }));
  const elsewhere = taken(left, () => true);
  return elsewhere.length === 0 ? items : [...items, { symbol: undefined, comesTo: "", findings: elsewhere }];
}

/** What the line above an item says of it first. */
function comesTo(symbol: vscode.DocumentSymbol, lenses: vscode.CodeLens[]): string {
  const { line } = symbol.selectionRange.start;
  const own = lenses.find(
    ({ range, command }) => range.start.line === line && command?.command === "quillet.open.preview",
  );
  return own?.command?.title ?? symbol.detail;
}

/** Takes out of `left` what holds, the gravest first and then in the order of the text. */
function taken(left: Set<vscode.Diagnostic>, holds: (it: vscode.Diagnostic) => boolean): Finding[] {
  const found = [...left].filter(holds);
  for (const it of found) {
    left.delete(it);
  }
  found.sort((a, b) => a.severity - b.severity || a.range.start.compareTo(b.range.start));
  return found.map((diagnostic) => ({ diagnostic }));
}

function counts({ diagnostic }: Finding): boolean {
  return diagnostic.severity <= vscode.DiagnosticSeverity.Warning;
}

function rule({ code }: vscode.Diagnostic): string {
  return String(typeof code === "object" ? code.value : (code ?? ""));
}

function icon(severity: number, otherwise: string): vscode.ThemeIcon {
  switch (severity) {
    case vscode.DiagnosticSeverity.Error:
      return new vscode.ThemeIcon("error", new vscode.ThemeColor("list.errorForeground"));
    case vscode.DiagnosticSeverity.Warning:
      return new vscode.ThemeIcon("warning", new vscode.ThemeColor("list.warningForeground"));
    default:
      return new vscode.ThemeIcon(otherwise);
  }
}
