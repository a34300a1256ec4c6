"""Every limit that a sheet asks for, and every size of its caliper tables, against the drawing.

The sheet says what is measured after which cut; here that cut is read from the text once more, and its
limits are what its hand keeps of it, whatever that is: over the size alone of a drill, the limits of its
class under a die, as much either way else. So the midpoint of every pair is held, and how wide it is.
"""

import json
import math
import re
import subprocess
import tempfile
from pathlib import Path

from kept import examples, of_other_kinds
from reckoned.hand import Hand, both
from reckoned.language import INCH, NotRead
from reckoned.pens import pens_of
from reckoned.solid import Solid, phrases

# Sizes are told to hundredths of a millimetre, or thousandths of an inch.
TOLD, TOLD_INCH = 0.0051, 0.0127
# Left for sanding and after roughing, on diameter (common practice, no published source).
SANDED, ROUGHED = 0.1, 1.0
WORDS = {"drill": "drill", "bore": "bore", "ream": "ream", "countersink": "countersink", "taper": "taper",
         "recess": "recess"}
INSIDE = re.compile(r"Ø of the hole at the (\S+), ")
OUTSIDE = re.compile(r"Ø at (\S+) from the (\S+), ")
DEPTH = re.compile(r"depth (at the point )?from the (\S+), ")


def limits(kept):
    """Of every sheet of every example with a pen."""
    for path, design in [*examples(), *of_other_kinds()]:
        for pen in pens_of(design):
            sheet = sheet_of(kept, path, pen.name)
            for found in sheet["parts"] if sheet else []:
                what = f"{path.name}: {pen.name}'s {found['name']}"
                try:
                    # What a pen only rests in is none of its joints to this reader.
                    part = pen.parts.get(found["name"]) or design.parts[found["name"]]
                    one = Drawn(part, Hand(pen.bench, pen.file))
                    hold(kept, what, one, found)
                except NotRead as reason:
                    kept.wrong.append(f"{what} was not read: {reason}")


def sheet_of(kept, path, pen):
    """What the sheet of a pen says; none of one with errors."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "sheet.json"
        words = [kept.program, "sheet", str(path), "--pen", pen, "-o", str(out)]
        done = subprocess.run(words, capture_output=True, text=True)
        return json.loads(out.read_text(encoding="utf-8"))["sheet"] if done.returncode == 0 else None


def hold(kept, what, drawn, found):
    unit, told = (INCH, TOLD_INCH) if drawn.part.file.inches else (1.0, TOLD)
    near = told / 1e-6
    for line in found["route"]:
        for check in line["checks"]:
            low, high = (float(it) * unit for it in re.split(" to | … ", check["limits"]))
            wanted = drawn.limits(line["what"], check["what"], unit)
            if not wanted:
                kept.wrong.append(f"{what}: nothing drawn is measured by {check['what']}: {line['what']}")
                continue
            least, most = min(wanted, key=lambda it: abs(it[0] - low) + abs(it[1] - high))
            kept.hold(f"{what}: midpoint of {check['what']}", (low + high) / 2, (least + most) / 2, near)
            kept.hold(f"{what}: how wide is {check['what']}", high - low, most - least, 2 * near)
    for row in found["calipers"]["rows"]:
        if re.match(r"[\d.]+$", row[0]):
            table_row(kept, f"{what}'s calipers at {row[0]}", drawn, row, (unit, near))


def table_row(kept, what, drawn, row, told):
    (unit, near), at = told, float(row[0]) * told[0]
    sizes = [float(it) * unit for it in row[1].split(" / ")]
    # What is not done before is coated when it is.
    coat = drawn.coat if row[2] else 0.0
    both_sides = [dia - coat for dia in drawn.sides(at)]
    kept.hold(f"{what}, before", sizes[0], both_sides[0], near)
    kept.hold(f"{what}, after", sizes[-1], both_sides[-1], near)
    if row[2]:
        kept.hold(f"{what}, before sanding", float(row[2]) * unit, max(both_sides) + SANDED, near)
        # Roughing is told to a tenth of a millimetre.
        tenth = near if unit == INCH else 10.2 * near
        kept.hold(f"{what}, roughed", float(row[3]) * unit, max(both_sides) + ROUGHED, tenth)


class Drawn:
    """A part as its text has it, and how closely a hand keeps each size."""

    def __init__(self, part, hand):
        self.part, self.hand, self.solid = part, hand, Solid(part)
        self.ranges = hand.ranges(self.solid)
        finish = next((it.words for it in part.lines if it.words[0] == "finish" and "coat" in it.words), None)
        self.coat = 2 * self.solid.sums.length([finish[finish.index("coat") + 1]]) if finish else 0.0
        blocks = [it for it in part.lines if it.words[0] == "from"]
        self.cuts = [
            self.cut(block.words[1], line.words, (number, nth))
            for number, block in enumerate(blocks)
            for nth, line in enumerate(block.block)
            if line.words[0] in {*WORDS, "tenon", "relief", "groove", "recess"}
        ]

    def cut(self, end, words, key):
        """Its end, word, key, from where to where from that end, and where its point lies."""
        word, said, sums = words[0], phrases(words[1:]), self.solid.sums
        at = sums.length(said["at"]) if "at" in said else 0.0
        to = self.solid.drawn
        if said.get("for") and said["for"] != ["because"]:
            to = at + sums.length(said["for"])
        elif "to" in said and word != "taper":
            to = sums.length(said["to"])
        point = None
        if word == "drill" and "through" not in said:
            angle = sums.value(said["point"]) if "point" in said else 118.0
            dia = sums.length(said[None])
            point = to + dia / 2 / math.tan(math.radians(angle / 2))
        return end, word, key, at, to, point

    def limits(self, doing, what, unit):
        """The limits of all that may be meant."""
        if what.startswith("length"):
            return [self.kept("length", self.solid.drawn)]
        word = self.word(doing)
        if hole := INSIDE.match(what):
            return [it for cut in self.at(word, hole[1]) for it in self.dias(cut)]
        if deep := DEPTH.match(what):
            cuts = self.at(word, deep[2])
            kind = "shoulder" if word in ("tenon", "relief", "groove") else "depth"
            if deep[1]:
                return [self.kept(kind, cut[5]) for cut in cuts if cut[5]]
            return [self.kept(kind, cut[4]) for cut in cuts]
        outside = OUTSIDE.match(what)
        at = float(outside[1]) * unit
        if word in ("tenon", "relief", "groove"):
            middle = [it for it in self.at(word, outside[2]) if abs((it[3] + it[4]) / 2 - at) < 0.006]
            return [it for cut in middle for it in self.dias(cut)]
        inward = at if outside[2] == self.part.ends[0] else self.solid.drawn - at
        if ": file " in doing:
            return [self.kept("dia", dia - self.coat) for dia in self.flats(inward)]
        if doing.startswith(("sand", "turn")):
            return [self.kept("dia", dia - self.coat) for dia in self.sides(inward)]
        return []

    def flats(self, z):
        """Across each set of flats at a place: over two of them, or, where none lies opposite, from one to the
        round or the corner there."""
        z = min(max(z, 1e-9), self.solid.drawn - 1e-9)
        for low, high, apothem, count, _ in self.solid.side.flats:
            if low - 1e-6 <= z <= high + 1e-6:
                deep = apothem(z, self.radius(z))
                yield 2 * deep if count % 2 == 0 else deep + self.radius(z)

    def word(self, doing):
        words = doing.split()
        return words[2] if words[:2] == ["turn", "the"] else WORDS.get(words[0])

    def at(self, word, end):
        return [it for it in self.cuts if it[0] == end and it[1] == word]

    def dias(self, cut):
        """The limits of a cut's diameters; of a tenon that says none, those of its thread's class."""
        own = ("dia", cut[2]), ("dia", (*cut[2], "far"))
        for key in own:
            if key in self.solid.sizes:
                written = self.solid.sizes[key][0]
                low, high = self.ranges.get(key, (0.0, 0.0))
                yield written + low, written + high

    def kept(self, kind, size):
        low, high = both(self.hand.keeps(kind, size))
        return size + low, size + high

    def sides(self, at):
        """The diameters outside a little before and a little after a place from the first end, its corners
        broken."""
        return [2 * self.radius(min(max(at + off, 1e-9), self.solid.drawn - 1e-9)) for off in (-1e-7, 1e-7)]

    def radius(self, z):
        found = self.solid.crest(z)
        for first, reach, radius in self.solid.broken:
            inward = z if first else self.solid.drawn - z
            if inward < reach:
                found = min(found, radius(inward))
        return found
