// The words of a text in the checker's own colours, and its hints between them.

import { RangeSetBuilder, StateEffect, StateField, type Extension } from "@codemirror/state";
import { Decoration, EditorView, WidgetType, type DecorationSet } from "@codemirror/view";
import type { Inlay, Token } from "./answers";

export const setTokens = StateEffect.define<Token[]>();
export const setInlays = StateEffect.define<Inlay[]>();

const marks = new Map<string, Decoration>();

function mark(token: Token): Decoration {
  const name = `tok-${token.kind}${token.defines ? " tok-defines" : ""}`;
  let known = marks.get(name);
  if (known === undefined) {
    known = Decoration.mark({ class: name });
    marks.set(name, known);
  }
  return known;
}

class Hint extends WidgetType {
  constructor(private readonly inlay: Inlay) {
    super();
  }

  override eq(other: Hint): boolean {
    return other.inlay.text === this.inlay.text;
  }

  toDOM(): HTMLElement {
    const hint = document.createElement("span");
    hint.className = "hint";
    hint.textContent = ` ${this.inlay.text}`;
    hint.title = this.inlay.about;
    hint.setAttribute("aria-hidden", "true");
    return hint;
  }
}

/** What an answer of the checker draws over the text, moved along with edits until the next comes. */
function drawn<T>(effect: ReturnType<typeof StateEffect.define<T[]>>, build: (all: T[], end: number) => DecorationSet): Extension {
  return StateField.define<DecorationSet>({
    create: () => Decoration.none,
    update(shown, change) {
      let now = shown.map(change.changes);
      for (const it of change.effects) {
        if (it.is(effect)) {
          now = build(it.value, change.state.doc.length);
        }
      }
      return now;
    },
    provide: (field) => EditorView.decorations.from(field),
  });
}

export const coloured: Extension = [
  drawn<Token>(setTokens, (tokens, end) => {
    const builder = new RangeSetBuilder<Decoration>();
    for (const it of tokens) {
      if (it.from < it.to && it.to <= end) {
        builder.add(it.from, it.to, mark(it));
      }
    }
    return builder.finish();
  }),
  drawn<Inlay>(setInlays, (inlays, end) => {
    const builder = new RangeSetBuilder<Decoration>();
    for (const it of inlays) {
      if (it.at <= end) {
        builder.add(it.at, it.at, Decoration.widget({ widget: new Hint(it), side: 1 }));
      }
    }
    return builder.finish();
  }),
];
