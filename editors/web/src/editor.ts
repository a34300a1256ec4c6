// The text: CodeMirror, with what the checker says of it.

import { autocompletion, completionKeymap, snippet, type Completion as Offer, type CompletionContext } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap, indentLess, indentMore } from "@codemirror/commands";
import { bracketMatching, foldGutter, foldKeymap, foldService, indentUnit } from "@codemirror/language";
import { forceLinting, linter, lintGutter, nextDiagnostic, type Diagnostic } from "@codemirror/lint";
import { search, searchKeymap } from "@codemirror/search";
import { Compartment, EditorState } from "@codemirror/state";
import { drawSelection, EditorView, highlightActiveLine, hoverTooltip, keymap, lineNumbers } from "@codemirror/view";
import type { Change, Choice, Completion, Finding, Hover } from "./answers";
import { coloured } from "./colours";
import { rendered } from "./markdown";
import { stops } from "./snippets";

/** What the text asks of the page. */
export interface Around {
  ask<T>(ask: string, more?: Record<string, unknown>): Promise<T | undefined>;
  findings(): Promise<Finding[]>;
  file(): string;
  typed(text: string): void;
  moved(at: number): void;
  act: { rename(): void; format(): void; actions(): void; hover(): void };
  nonce: string;
}

const SEVERITY = { error: "error", warning: "warning", note: "info" } as const;

/** Blocks by their braces: the checker's own folds come too late for a gutter. */
const folds = foldService.of((state, from, to) => {
  if (!state.doc.sliceString(from, to).trimEnd().endsWith("{")) {
    return null;
  }
  let depth = 0;
  for (const brace of state.doc.sliceString(from).matchAll(/[{}]/g)) {
    depth += brace[0] === "{" ? 1 : -1;
    if (depth === 0) {
      return { from: to, to: state.doc.lineAt(from + brace.index).from - 1 };
    }
  }
  return null;
});

function offer(around: Around, it: Choice): Offer {
  return {
    label: it.label,
    detail: it.detail,
    type: it.kind,
    apply: it.snippet === null ? it.label : snippet(stops(it.snippet)),
    info: async () => {
      const text = await around.ask<string>("about", { about: it.about });
      return typeof text === "string" ? rendered(text) : null;
    },
  };
}

async function offers(around: Around, context: CompletionContext) {
  const before = context.matchBefore(/[A-Za-z0-9.#/-]+$/);
  const line = context.state.doc.lineAt(context.pos);
  const blank = line.text.slice(0, context.pos - line.from).trim() === "";
  if (!context.explicit && before === null && blank) {
    return null;
  }
  const found = await around.ask<Completion>("complete", { at: context.pos });
  if (!found || found.choices.length === 0) {
    return null;
  }
  return { from: found.from, to: found.to, options: found.choices.map((it) => offer(around, it)), filter: true };
}

function diagnostic(it: Finding, end: number): Diagnostic {
  const from = Math.min(it.from, end);
  return {
    from,
    to: Math.min(Math.max(it.to, from), end),
    severity: SEVERITY[it.severity],
    source: it.rule,
    message: it.hint === null ? it.message : `${it.message}\n${it.hint}`,
  };
}

export class Editor {
  readonly view: EditorView;
  private readonly writable = new Compartment();

  constructor(parent: HTMLElement, private readonly around: Around) {
    this.view = new EditorView({ parent, state: this.state("", true) });
  }

  private state(doc: string, writable: boolean): EditorState {
    const { around } = this;
    const act = (run: () => void) => () => {
      run();
      return true;
    };
    return EditorState.create({
      doc,
      extensions: [
        EditorView.cspNonce.of(around.nonce),
        EditorView.contentAttributes.of({ tabindex: "0", "aria-label": "The pen as text", spellcheck: "false" }),
        lineNumbers(),
        foldGutter(),
        folds,
        history(),
        drawSelection(),
        bracketMatching(),
        highlightActiveLine(),
        search({ top: true }),
        indentUnit.of("  "),
        EditorState.allowMultipleSelections.of(true),
        coloured,
        lintGutter(),
        linter(
          async (view) => {
            const own = (await around.findings()).filter((it) => it.file === around.file());
            return own.map((it) => diagnostic(it, view.state.doc.length));
          },
          { delay: 150 },
        ),
        autocompletion({ override: [(context) => offers(around, context)] }),
        hoverTooltip(async (_, at) => {
          const found = await around.ask<Hover>("hover", { at });
          return found ? { pos: found.from, end: found.to, create: () => ({ dom: rendered(found.text) }) } : null;
        }),
        // Tab moves on; a text is indented by the brackets.
        keymap.of([
          { key: "F8", run: nextDiagnostic },
          { key: "Mod-.", run: act(around.act.actions) },
          { key: "F2", run: act(around.act.rename) },
          { key: "Shift-Alt-f", run: act(around.act.format) },
          { key: "Mod-k Mod-i", run: act(around.act.hover) },
          { key: "Mod-]", run: indentMore },
          { key: "Mod-[", run: indentLess },
          ...completionKeymap,
          ...searchKeymap,
          ...historyKeymap,
          ...foldKeymap,
          ...defaultKeymap,
        ]),
        EditorView.updateListener.of((update) => {
          if (update.docChanged) {
            around.typed(update.state.doc.toString());
          }
          if (update.docChanged || update.selectionSet) {
            around.moved(update.state.selection.main.head);
          }
        }),
        this.writable.of(EditorState.readOnly.of(!writable)),
      ],
    });
  }

  /** Another file. */
  show(text: string, writable: boolean): void {
    this.view.setState(this.state(text, writable));
  }

  get text(): string {
    return this.view.state.doc.toString();
  }

  get at(): number {
    return this.view.state.selection.main.head;
  }

  get selected(): { from: number; to: number } {
    return this.view.state.selection.main;
  }

  /** Puts the cursor there, in sight. */
  go(at: number, to = at): void {
    const end = this.view.state.doc.length;
    this.view.dispatch({ selection: { anchor: Math.min(at, end), head: Math.min(to, end) }, scrollIntoView: true });
    this.view.focus();
  }

  /** Makes edits, together. */
  edit(changes: Change[]): void {
    this.view.dispatch({ changes: changes.map((it) => ({ from: it.from, to: it.to, insert: it.text })) });
  }

  /** Asks anew what is found. */
  check(): void {
    forceLinting(this.view);
  }
}
