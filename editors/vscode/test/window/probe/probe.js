// Does in a real window what a maker does, and waits at each place where the browser looks.
//
// Active only in a folder that holds `.probe/begin`. Tells what it found in `.probe/<n>.json`,
// and goes on when the browser has written `.probe/<n>.seen`.

const { existsSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } = require("node:fs");
const { tmpdir } = require("node:os");
const { dirname, join } = require("node:path");
const vscode = require("vscode");

exports.activate = async () => {
  const folder = vscode.workspace.workspaceFolders[0].uri.fsPath;
  let number = 0;
  /** Tells what there is to be seen, and waits until it has been. */
  const tell = async (told) => {
    const place = join(folder, ".probe", String(number++));
    writeFileSync(`${place}.part`, JSON.stringify(told));
    renameSync(`${place}.part`, `${place}.json`);
    await until(`${told.what} seen`, () => existsSync(`${place}.seen`));
  };
  try {
    await act(folder, tell);
    await tell({ what: "end" });
  } catch (error) {
    await tell({ what: "failed", why: String(error && error.stack) });
  }
};

async function until(what, holds) {
  const end = Date.now() + 40_000;
  for (;;) {
    const seen = await holds();
    if (seen) {
      return seen;
    }
    if (Date.now() > end) {
      throw new Error(`waited in vain: ${what}`);
    }
    await new Promise((again) => setTimeout(again, 50));
  }
}

function assert(what, holds, seen) {
  if (!holds) {
    throw new Error(`${what}: ${JSON.stringify(seen)}`);
  }
}

async function act(folder, tell) {
  const run = vscode.commands.executeCommand;
  const uri = vscode.Uri.file(join(folder, "heron.quillet"));
  const document = await vscode.workspace.openTextDocument(uri);
  const editor = await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
  const clean = document.getText();
  const rules = (of = uri) => vscode.languages.getDiagnostics(of).map((it) => it.code?.value ?? it.code);
  const at = (text, within = text) => {
    const offset = document.getText().indexOf(text);
    assert("the text is there", offset >= 0, text);
    return document.positionAt(offset + text.indexOf(within) + 1);
  };
  const look = (position) => {
    editor.selection = new vscode.Selection(position, position);
    editor.revealRange(editor.selection, vscode.TextEditorRevealType.InCenter);
  };
  assert("a pen is known by its name", document.languageId === "quillet", document.languageId);

  const hover = await until("hover", async () => {
    const all = await run("vscode.executeHoverProvider", uri, at("thread closing inside", "closing"));
    return all[0]?.contents.map((it) => it.value ?? it).join("\n");
  });
  assert("hover tells of the thread", hover.includes("M13"), hover);
  look(at("thread closing inside", "closing"));
  await run("editor.action.showHover");
  await tell({ what: "hover" });
  await run("editor.action.hideHover");
  look(at("part cap", "cap"));
  await run("editor.action.showHover");
  await tell({ what: "picture" });
  await run("editor.action.hideHover");

  const bad = '\npen tern "Tërn ⌀ 🐦" {\n  close cap.mouth onto barel.mouth\n}\n';
  await editor.edit((edit) => edit.insert(document.lineAt(document.lineCount - 1).range.end, bad));
  await until("a finding", () => rules().includes("unknown-name"));
  look(at("barel"));
  await tell({ what: "squiggle" });

  const range = vscode.languages.getDiagnostics(uri).find((it) => (it.code?.value ?? it.code) === "unknown-name").range;
  assert("it lies under the wrong name", document.getText(range) === "barel", document.getText(range));
  const actions = await run("vscode.executeCodeActionProvider", uri, range, "quickfix");
  assert("a fix is offered", actions.some((it) => it.edit), actions);
  await vscode.workspace.applyEdit(actions.find((it) => it.edit).edit);
  assert("the fix is applied", document.getText() === clean + bad.replace("barel", "barrel"), document.getText());
  await until("the finding gone", () => !rules().includes("unknown-name"));
  await editor.edit((edit) => {
    edit.delete(new vscode.Range(document.positionAt(clean.length), document.lineAt(document.lineCount - 1).range.end));
  });

  await editor.edit((edit) => edit.replace(document.lineAt(at("drill 12.2").line).range, "    dr"));
  const offered = await run("vscode.executeCompletionItemProvider", uri, document.lineAt(at("    dr\n").line).range.end);
  assert("completion offers drill", offered.items.some((it) => String(it.label.label ?? it.label).startsWith("drill")), offered.items.length);
  await run("undo");

  await editor.edit((edit) => edit.replace(document.lineAt(at("  length 64").line).range, "length       64"));
  const edits = await run("vscode.executeFormatDocumentProvider", uri, { tabSize: 2, insertSpaces: true });
  const tidy = new vscode.WorkspaceEdit();
  tidy.set(uri, edits);
  await vscode.workspace.applyEdit(tidy);
  assert("formatting brings it into form", document.getText() === clean, document.getText());

  const lenses = await run("vscode.executeCodeLensProvider", uri, 50);
  assert("a lens weighs a part", lenses.some((it) => / g\b/.test(it.command?.title ?? "")), lenses.map((it) => it.command?.title));
  const hints = await run("vscode.executeInlayHintProvider", uri, new vscode.Range(0, 0, document.lineCount, 0));
  assert("hints stand between the words", hints.length > 0, hints.length);

  const tab = () =>
    vscode.window.tabGroups.all
      .flatMap((group) => group.tabs)
      .find((it) => it.input instanceof vscode.TabInputWebview && it.input.viewType.includes("quillet.preview"));
  look(at("part section", "section"));
  await run("quillet.watchBeside");
  await until("the panel", () => /section/i.test(tab()?.label ?? ""));
  await tell({ what: "preview", title: tab().label });
  look(at('pen heron "Heron"', "heron"));
  await until("the panel follows", () => /heron/i.test(tab()?.label ?? ""));
  await tell({ what: "preview", title: tab().label });

  // The view of the parts: what each comes to, and what is found in it, under it.
  await run("quillet.parts.focus");
  await tell({ what: "parts" });
  const wide = document.lineAt(at("drill 12.2").line).range;
  const bored = document.getText(wide);
  await editor.edit((edit) => edit.replace(wide, bored.replace("12.2", "13.7")));
  await until("the wall is found thin", () => rules().includes("thin-wall"));
  await tell({ what: "thin" });
  assert("a finding's row goes to its place", editor.selection.active.line === wide.start.line, editor.selection.active);
  await editor.edit((edit) => edit.replace(wide, bored));
  await until("the finding gone", () => !rules().includes("thin-wall"));

  // How far a number may move; what is chosen is gone to.
  await document.save();
  look(at("length 64", "64"));
  void run("quillet.room");
  await tell({ what: "room" });
  look(at("pen heron-ida"));
  await run("workbench.action.acceptSelectedQuickOpenItem");
  await until("the number", () => vscode.window.activeTextEditor.document.getText(vscode.window.activeTextEditor.selection) === "64");

  // What is made is written where nothing of the maker's lies; the window then asks whether to open it.
  const made = (name) => {
    const folders = readdirSync(tmpdir()).filter((it) => it.startsWith("quillet-") && !before.has(it));
    const pages = folders.map((it) => join(tmpdir(), it, name));
    return pages.find((it) => existsSync(it) && readFileSync(it, "utf8").includes("</html>"));
  };
  const before = new Set(readdirSync(tmpdir()));
  look(at('pen heron-ida', "heron-ida"));
  void run("quillet.sheet");
  const sheet = await until("the sheet", () => made("heron.html"));
  assert("it is of the pen at the cursor", readFileSync(sheet, "utf8").includes("Heron for Ida"), sheet);
  await tell({ what: "sheet" });
  rmSync(dirname(sheet), { recursive: true });

  // Drilled 3 mm less deep since the commit, not yet saved.
  const drill = document.lineAt(at("drill 12.2").line).range;
  const deep = document.getText(drill);
  await editor.edit((edit) => edit.replace(drill, deep.replace("54", "51")));
  void run("quillet.compareWith");
  await tell({ what: "compare" });
  await run("quickInput.accept");
  const compared = await until("what has changed", () => made("heron-compared.html"));
  const page = readFileSync(compared, "utf8");
  assert("it says what has changed", /54(\.00)?[^]{0,80}51/.test(page) && page.includes("nib-strikes-cap"), page.slice(0, 2000));
  rmSync(dirname(compared), { recursive: true });
  await run("undo");
  await tell({ what: "compared" });

  const settings = vscode.workspace.getConfiguration("quillet");
  const program = settings.get("server.path");
  await settings.update("server.path", "/no/such/program", vscode.ConfigurationTarget.Global);
  await until("no findings without a server", () => rules(vscode.Uri.file(join(folder, "knot.quillet"))).length === 0);
  await tell({ what: "missing" });
  await settings.update("server.path", program, vscode.ConfigurationTarget.Global);
  const knot = vscode.Uri.file(join(folder, "knot.quillet"));
  await vscode.window.showTextDocument(knot, vscode.ViewColumn.One);
  await until("Knot's findings", () => new Set(rules(knot)).size >= 8);
  await run("notifications.clearAll");
  await tell({ what: "knot", rules: rules(knot) });

  await run("workbench.action.closeAllEditors");
  await run("workbench.action.openWalkthrough", "quillet.quillet#firstPen");
  await tell({ what: "walkthrough" });
  await run("quillet.beginPen");
  const first = vscode.window.activeTextEditor.document;
  assert("a pen is begun", first.languageId === "quillet", first.languageId);
  await until("the server knows it", async () => (await run("vscode.executeDocumentSymbolProvider", first.uri))?.length > 0);
  assert("and it is clean", rules(first.uri).length === 0, rules(first.uri));
}
