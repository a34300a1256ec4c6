"""Reads Quillet's files by its published grammar, with a parser generator written by others.

    grammar.py QUILLET [--venv FOLDER]

QUILLET is the program to compare with. crates/syntax/grammar.ebnf (ISO/IEC 14977) is turned into rules for
`lark`, an LALR(1) parser generator, which also fails where a rule is ambiguous. What it is tried on:
  read      every shipped example, the pens of the tests, the examples of the manual
  as told   the examples of the rules' pages, and all these texts with one token taken out, doubled, or one
            of another place put in or before it: read where the program finds no error of syntax,
            refused where it finds one
With --venv the pinned package of grammar-requirements.txt is installed into that environment first.
Ends 0 when both agree on every text, 1 when they do not, 0 with a line that begins `skipped` where the
package cannot be had.
"""

import json
import random
import re
import subprocess
import sys
import tempfile
from pathlib import Path

from packages import begin, wanted

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
MANUAL = ROOT / "crates/cli/manual/language.md"
RULES = ROOT / "crates/check/src/rules"
GRAMMAR = ROOT / "crates/syntax/grammar.ebnf"
PINS = HERE / "grammar-requirements.txt"
SLIPS = 600
WITHIN = {
    "": "{}\n",
    "heron": None,
    "part": "part sleeve from mouth to crown {{\n{}\n}}\n",
    "cut": "part sleeve from mouth to crown {{\n  from mouth {{\n{}\n  }}\n}}\n",
    "side": "part sleeve from mouth to crown {{\n  side {{\n{}\n  }}\n}}\n",
    "pen": "pen dunlin {{\n{}\n}}\n",
}


def main(given):
    lark = wanted("lark")
    if lark is None:
        return 0
    reads = reader(lark, GRAMMAR.read_text(encoding="utf-8"))
    manual, *pages = [examples(page) for page in [MANUAL, *sorted(RULES.glob("*.md"))]]
    good = files() + manual
    shown = [it for page in pages for it in page]
    wrong = [f"{name} is not read: {why}" for name, text in good if (why := reads(text))]
    compared = len(good)
    for name, text, sound in judged(given, [*shown, *slips(good + shown)]):
        compared += 1
        why = reads(text)
        if sound != (why is None):
            wrong.append(f"{name}: the program {'reads' if sound else 'refuses'} it, the grammar does not agree: {why}")
    print(f"grammar: {compared} texts compared, {len(wrong)} differ")
    for line in wrong[:40]:
        print(f"  {line}")
    return 1 if wrong else 0


def reader(lark, ebnf):
    """A function that says why a text is not read; none where it is."""
    parser = lark.Lark(as_lark(ebnf), start="file", parser="lalr")

    def reads(text):
        try:
            parser.parse(text)
        except lark.exceptions.UnexpectedInput as unexpected:
            return f"line {unexpected.line}: {str(unexpected).splitlines()[0]}"
        return None

    return reads


def as_lark(ebnf):
    """ISO 14977 as lark writes it: rules stay rules, what stands between question marks is a token."""
    ebnf = re.sub(r"\(\*.*?\*\)", "", ebnf, flags=re.S)
    tokens, rules = {}, {}
    for name, body in re.findall(r"^(\w+) = (.*) ;$", ebnf, flags=re.M):
        special = re.fullmatch(r"\? (.*) \?", body)
        (tokens if special else rules)[name] = special[1] if special else body
    lines = []
    for name, body in rules.items():
        pieces = re.findall(r'"[^"]*"|\w+|[\[\]{}()|]', body)
        assert re.sub(r'"[^"]*"|[\w\[\]{}()|,\s]', "", body) == "", body
        lines.append(f"{name}: " + " ".join(lark_piece(piece, tokens) for piece in pieces))
    for name, pattern in tokens.items():
        pattern = pattern.replace("/", r"\/")
        # Two letters that touch are one word, and a number that runs into letters is none.
        guard = r"(?![A-Za-z0-9_])" if name in ("quantity", "capital", "gauge", "name", "designation", "fit") else ""
        lines.append(f"{name.upper()}: /({pattern}){guard}/")
    return "\n".join([*lines, "%ignore IGNORED"])


def lark_piece(piece, tokens):
    if piece in tokens:
        return piece.upper()
    return {"{": "(", "}": ")*", "[": "(", "]": ")?"}.get(piece, piece)


def files():
    """The name and text of every file that is sound."""
    paths = sorted([*ROOT.glob("examples/**/*.quillet"), *ROOT.glob("crates/fixture/*pens/*.quillet")])
    return [(str(path.relative_to(ROOT)), path.read_text(encoding="utf-8")) for path in paths]


def examples(page):
    """The examples of a page, each as a whole file."""
    text = page.read_text(encoding="utf-8")
    fences = re.findall(r"^```quillet ?(\w*)[^\n]*\n(.*?)\n```$", text, flags=re.M | re.S)
    return [
        (f"example {number} of {page.name}", frame.format(text))
        for number, (within, text) in enumerate(fences, 1)
        if (frame := WITHIN.get(within, "{}\n"))
    ]


def slips(good):
    """Texts with one slip each, the same every time."""
    chance = random.Random(20)
    token = re.compile(r"--[^\n]*|\"[^\"\n]*\"|[\w#./-]*\w|[^\s\w]")
    for number in range(SLIPS):
        name, text = chance.choice(good)
        found = [it for it in token.finditer(text) if not it[0].startswith("--")]
        one, other = chance.choice(found), chance.choice(found)
        put = chance.choice(["", f"{one[0]} {one[0]}", other[0], f"{other[0]} {one[0]}"])
        yield f"slip {number + 1} in {name}, {one[0]!r} to {put!r}", text[: one.start()] + put + text[one.end() :]


def judged(program, found):
    """Each text with whether the program reads it without an error of syntax."""
    found = list(found)
    with tempfile.TemporaryDirectory() as folder:
        paths = [Path(folder, f"slip-{number}.quillet") for number in range(len(found))]
        for path, (_, text) in zip(paths, found):
            path.write_text(text, encoding="utf-8")
        run = subprocess.run([program, "check", "--format", "json", *paths], capture_output=True, text=True)
        findings = json.loads(run.stdout)["findings"]
        wrong = {Path(it["file"]).name for it in findings if it["rule"] in ("syntax", "unfinished-merge")}
        assert wrong, "the program finds nothing amiss"
        for path, (name, text) in zip(paths, found):
            yield name, text, path.name not in wrong


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS))
