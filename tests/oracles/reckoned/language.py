"""Reads as much of the language as the parts of a design need: items, parts, sums, units."""

import csv
import re
from dataclasses import dataclass, field
from pathlib import Path

REFERENCE = Path(__file__).resolve().parent.parent.parent / "reference"
INCH = 25.4


class NotRead(Exception):
    """A statement that this reader does not know."""


@dataclass
class Statement:
    """The words of a statement and the statements of its block, none where it has no block."""

    words: list
    block: list = None


@dataclass
class Part:
    name: str
    ends: tuple
    bought: bool
    lines: list
    file: "File"
    lets: dict = field(default_factory=dict)


class File:
    """The items that a file and those it uses define."""

    def __init__(self, path, known=None):
        self.lets, self.threads, self.parts, self.blanks, self.benches = {}, {}, {}, {}, {}
        self.pens, self.materials = [], {}
        self.inches = False
        known = {} if known is None else known
        known[path.resolve()] = self
        for it in statements(path.read_text(encoding="utf-8")):
            self.item(it, path, known)

    def item(self, it, path, known):
        word, rest = it.words[0], it.words[1:]
        if word == "dimensions":
            self.inches = rest[-1] == "inches"
        elif word == "use":
            other = (path.parent / rest[0].strip('"')).resolve()
            if other not in known:
                File(other, known)
            for mine, theirs in zip(self.named(), known[other].named()):
                mine.update(theirs)
        elif word == "let":
            self.lets[rest[0]] = rest[2:]
        elif word == "thread":
            self.threads[rest[0]] = rest[2:]
        elif word == "blank":
            self.blanks[rest[0]] = rest[1:]
        elif word in ("part", "bought"):
            self.part(word == "bought", rest, it.block or [])
        elif word == "bench":
            self.benches[rest[0]] = it.block or []
        elif word == "material":
            self.materials[rest[0]] = {line.words[0]: line.words[1:] for line in it.block or []}
        elif word == "pen":
            self.pens.append(it)

    def named(self):
        return self.lets, self.threads, self.parts, self.blanks, self.benches, self.materials

    def part(self, bought, head, block):
        name = head[0]
        lines = [line for line in block if line.words[0] not in ("let", "limit", "want", "accept")]
        lets = {line.words[1]: line.words[3:] for line in block if line.words[0] == "let"}
        ends = None
        if "from" in head:
            at = head.index("from")
            ends = (head[at + 1], head[at + 3])
        if "like" in head:
            like = self.parts[head[head.index("like") + 1]]
            said = {kind(line) for line in lines}
            lines = [line for line in like.lines if kind(line) not in said] + lines
            lets = {**like.lets, **lets}
            ends = ends or like.ends
        self.parts[name] = Part(name, ends, bought, lines, self, lets)


def kind(line):
    """What a part's line is of, for a part like another: blocks by their end."""
    return tuple(line.words[:2]) if line.words[0] == "from" else line.words[0]


def statements(text):
    """The statements of a text, with their blocks."""
    lines = []
    for line in text.splitlines():
        code = re.match(r'(?:"[^"]*"|(?!--).)*', line).group()
        lines.append(code)
    tokens = re.findall(r'"[^"]*"|[{}();,\n]|[^\s{}();,"]+', "\n".join(lines))
    stack, words = [[]], []

    def end():
        if words:
            stack[-1].append(Statement(list(words)))
            words.clear()

    depth = 0
    for token in tokens:
        if token == "(":
            depth += 1
        if token == ")":
            depth -= 1
        if token == "{":
            opened = Statement(list(words), [])
            words.clear()
            stack[-1].append(opened)
            stack.append(opened.block)
        elif token == "}":
            end()
            stack.pop()
        elif token in ("\n", ";") and depth == 0:
            end()
        elif token != "\n":
            words.append(token)
    end()
    return stack[0]


class Sums:
    """Works out the sums of a part, in millimetres, degrees or bare numbers."""

    def __init__(self, part):
        self.lets = {**part.file.lets, **part.lets}
        self.inches = part.file.inches

    def length(self, words):
        """A length in mm; a drill may be called by its number or letter."""
        if words[0].startswith("#"):
            return drill(words[0])
        if words[0] == "letter":
            return drill(words[1])
        return self.value(words) * (INCH if self.inches else 1.0)

    def value(self, words):
        """A sum, lengths in the file's own unit."""
        self.left = list(words)
        found = self.added()
        if self.left:
            raise NotRead(f"what follows in {' '.join(words)}")
        return found

    def added(self):
        total = self.multiplied()
        while self.left and self.left[0] in "+-":
            sign = 1 if self.left.pop(0) == "+" else -1
            total += sign * self.multiplied()
        return total

    def multiplied(self):
        total = self.single()
        while self.left and self.left[0] in "*/":
            by = self.left.pop(0)
            one = self.single()
            total = total * one if by == "*" else total / one
        return total

    def single(self):
        word = self.left.pop(0)
        if word == "-":
            return -self.single()
        if word == "(":
            found = self.added()
            self.left.pop(0)
            return found
        if word in ("min", "max") and self.left[:1] == ["("]:
            values = []
            while self.left.pop(0) != ")":
                values.append(self.added())
            return min(values) if word == "min" else max(values)
        number = re.fullmatch(r"(-?)(?:(\d+)-)?(\d*\.?\d+)(?:/(\d+))?(mm|in|deg|g|ml)?", word)
        if number:
            sign, whole, top, bottom, unit = number.groups()
            size = int(whole or 0) + float(top) / int(bottom or 1)
            # A mixed number without a unit is in inches where the file's lengths are.
            factor = {"mm": 1 / INCH if self.inches else 1, "in": 1 if self.inches else INCH}
            return (-1 if sign else 1) * size * factor.get(unit, 1)
        if word in self.lets:
            left, self.left = self.left, []
            found = self.value(self.lets[word])
            self.left = left
            return found
        raise NotRead(f"the sum at {word}")


def drill(name):
    """The diameter of a number or letter drill, mm."""
    for row in rows("drills_inch.csv"):
        if row["name"] == name:
            return float(row["inch"]) * INCH
    raise NotRead(f"drill {name}")


def rows(table):
    """The rows of a reference table."""
    lines = (REFERENCE / table).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))
