// The TextMate grammar in the engine that Visual Studio Code runs it in.

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { test } from "node:test";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";
import { begin, examples } from "./server.mjs";

const require = createRequire(import.meta.url);
await oniguruma.loadWASM(readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm")));
const registry = new textmate.Registry({
  onigLib: Promise.resolve({
    createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text) => new oniguruma.OnigString(text),
  }),
  loadGrammar: async () =>
    textmate.parseRawGrammar(
      readFileSync(new URL("../syntaxes/quillet.tmLanguage.json", import.meta.url), "utf8"),
      "quillet.json",
    ),
});
const grammar = await registry.loadGrammar("source.quillet");

/** Every word of a text that has a scope of its own, with where it stands. */
function words(text) {
  let state = textmate.INITIAL;
  return text.split(/\r?\n/).flatMap((line, number) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    return tokens
      .filter(({ scopes }) => scopes.length > 1)
      .map(({ startIndex, endIndex, scopes }) => ({
        line: number,
        column: startIndex,
        text: line.slice(startIndex, endIndex),
        scope: scopes.at(-1).replace(/\.quillet$/, ""),
      }));
  });
}

function scopes(line) {
  return words(line).map(({ text, scope }) => `${text} ${scope}`);
}

for (const [line, expected] of [
  ["-- a note", ["-- a note comment.line.double-dash"]],
  [
    'use "saltings.quillet" -- the bench',
    [
      "use keyword.control",
      '"saltings.quillet" string.quoted.double',
      "-- the bench comment.line.double-dash",
    ],
  ],
  [
    "thread closing = M13x0.8-6g starts 3",
    [
      "thread keyword.control",
      "closing entity.name.type",
      "= keyword.operator",
      "M13x0.8-6g constant.other.thread",
      "starts keyword.other",
      "3 constant.numeric",
    ],
  ],
  [
    "part ring from point to step {",
    [
      "part keyword.control",
      "ring entity.name.type",
      "from keyword.other",
      "point variable.other",
      "to keyword.other",
      "step variable.other",
    ],
  ],
  [
    "    at 6 from crown dia grip smooth as shoulder",
    [
      "at keyword.control",
      "6 constant.numeric",
      "from keyword.other",
      "crown variable.other",
      "dia keyword.other",
      "grip variable.other",
      "smooth storage.modifier",
      "as keyword.other",
      "shoulder entity.name.label",
    ],
  ],
  [
    "drill letter F to 1-5/8in",
    [
      "drill keyword.control",
      "letter keyword.other",
      "F constant.numeric.drill",
      "to keyword.other",
      "1-5/8 constant.numeric",
      "in keyword.other.unit",
    ],
  ],
  [
    "  screw nib-unit.heel into section.tip",
    [
      "screw keyword.control",
      "nib-unit variable.other",
      ". punctuation.accessor",
      "heel variable.other.member",
      "into keyword.other",
      "section variable.other",
      ". punctuation.accessor",
      "tip variable.other.member",
    ],
  ],
  [
    "want length(capped) <= 145mm",
    [
      "want keyword.control",
      "length support.function",
      "capped constant.language",
      "<= keyword.operator",
      "145 constant.numeric",
      "mm keyword.other.unit",
    ],
  ],
  [
    "slip a.b into c.d fit H7/g6",
    [
      "slip keyword.control",
      "a variable.other",
      ". punctuation.accessor",
      "b variable.other.member",
      "into keyword.other",
      "c variable.other",
      ". punctuation.accessor",
      "d variable.other.member",
      "fit keyword.other",
      "H7/g6 constant.other.fit",
    ],
  ],
  [
    "drills #1..#60, letter A..Z step 0.1",
    [
      "drills keyword.control",
      "#1 constant.numeric.drill",
      ".. keyword.operator",
      "#60 constant.numeric.drill",
      "letter keyword.other",
      "A constant.numeric.drill",
      ".. keyword.operator",
      "Z constant.numeric.drill",
      "step keyword.other",
      "0.1 constant.numeric",
    ],
  ],
  [
    "accept thin-wall because \"it is lined\"",
    [
      "accept keyword.control",
      "thin-wall entity.other.attribute-name",
      "because keyword.other",
      '"it is lined" string.quoted.double',
    ],
  ],
  ["thread 7/16-28UNEF outside for 6", [
    "thread keyword.control",
    "7/16-28UNEF constant.other.thread",
    "outside keyword.other",
    "for keyword.other",
    "6 constant.numeric",
  ]],
]) {
  test(`scopes of: ${line.trim()}`, () => assert.deepEqual(scopes(line), expected));
}

/** What each of the server's kinds of word may be to the grammar, which knows no names. */
const AGREES = {
  comment: /^comment/,
  keyword: /^(keyword\.(control|other)|storage)/,
  number: /^(constant\.numeric|keyword\.other\.unit)/,
  string: /^string/,
  operator: /^keyword\.operator/,
  enumMember: /^constant\.other\.(thread|fit)/,
  method: /^(support\.function|constant\.language)/,
  decorator: /^entity\.other\.attribute-name/,
  property: /^(variable|entity\.name\.label)/,
};
const NAME = /^(variable|entity\.name\.type)/;

test("every word of the examples is to the grammar what it is to the server", async (t) => {
  const session = await begin(t);
  const { legend } = session.initialized.capabilities.semanticTokensProvider;
  let compared = 0;
  for (const name of readdirSync(examples).filter((name) => name.endsWith(".quillet"))) {
    const { uri, text } = await session.open(name);
    const shown = words(text);
    const told = await session.connection.sendRequest("textDocument/semanticTokens/full", {
      textDocument: { uri },
    });
    for (const { line, column, type } of served(told.data, legend.tokenTypes)) {
      const word = shown.find(
        (word) =>
          word.line === line && word.column <= column && column < word.column + word.text.length,
      );
      assert.match(
        word?.scope ?? "nothing",
        AGREES[type] ?? NAME,
        `${name}:${line + 1}:${column + 1} ${word?.text} is ${type} to the server`,
      );
      compared += 1;
    }
  }
  assert.equal(await session.end(), 0);
  assert.ok(compared > 500, `${compared} words compared`);
});

/** Semantic tokens, each with its place told outright. */
function* served(data, types) {
  let [line, column] = [0, 0];
  for (let at = 0; at < data.length; at += 5) {
    const [down, right, , type] = data.slice(at, at + 5);
    column = down === 0 ? column + right : right;
    line += down;
    yield { line, column, type: types[type] };
  }
}
