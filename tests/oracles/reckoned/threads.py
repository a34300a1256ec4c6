"""Threads by ISO 68-1: the metal of a profile cut off at a radius, ring by ring."""

import math
import re

from .language import INCH, NotRead, rows


class Thread:
    """A 60 degree thread; starts and hand change nothing of its metal."""

    def __init__(self, words):
        text = words[0]
        self.designation = " ".join(words)
        metric = re.match(r"M([\d.]+)x(?:Ph[\d.]+P)?([\d.]+)", text)
        inch = re.match(r"(#\d+|[\d/-]+?)-(\d+)UN", text)
        if metric:
            self.major, self.pitch = float(metric[1]), float(metric[2])
        elif inch:
            self.major, self.pitch = inches(inch[1]) * INCH, INCH / int(inch[2])
        else:
            raise NotRead(f"thread {text}")
        self.metric = bool(metric)
        said = re.search(r"-(\d+)([a-h])(?=$|[-/])", text)
        self.grade, self.position = (int(said[1]), said[2]) if said else (6, "g")
        self.height = math.sqrt(3) / 2 * self.pitch
        self.crest = self.major / 2
        self.root = self.crest - 5 / 8 * self.height

    def same(self, other):
        return (self.major, self.pitch) == (other.major, other.pitch)

    def share(self, r):
        """The share of a pitch on which the basic profile stands at least this far out: a crest
        flat of P/8, flanks of 30 degrees, a root flat of P/4."""
        if r > self.crest:
            return 0.0
        if r <= self.root:
            return 1.0
        return 1 / 8 + 2 * (self.crest - r) / math.sqrt(3) / self.pitch

    def rings(self, low, high):
        """The integral of 2 r share(r) dr over the profile, by three points of Gauss, which are
        exact for what is a square of r."""
        if high <= low:
            return 0.0
        half, middle = (high - low) / 2, (high + low) / 2
        points = ((-math.sqrt(0.6), 5 / 9), (0.0, 8 / 9), (math.sqrt(0.6), 5 / 9))
        return sum(w * half * 2 * (middle + half * x) * self.share(middle + half * x) for x, w in points)

    def deepest(self):
        """The root of an outside thread with its greatest rounding off, 17/24 H deep (ISO 68-1)."""
        return self.crest - 17 / 24 * self.height

    def ridges(self, crest):
        """The mean of r squared of an outside thread whose crests end at this radius."""
        crest = min(crest, self.crest)
        solid = min(crest, self.root)
        return solid * solid + self.rings(solid, crest)

    def grooves(self, crest):
        """The mean of r squared of a hole whose thread's crests end at this radius."""
        crest = max(crest, self.root)
        if crest >= self.crest:
            return crest * crest
        return crest * crest + self.rings(crest, self.crest)

    def told(self, size):
        """A size as the limits of its standard are told: to the micrometre (ISO 965-1), or to 0.0001
        in (ASME B1.1)."""
        return round(size, 3) if self.metric else round(size / INCH, 4) * INCH

    def limits(self):
        """The limits of the major diameter, mm (ISO 965-1, ASME B1.1)."""
        if not self.metric:
            return self.unified()
        pick = lambda symbol, grade: next(
            (float(row["value_um"]) for row in rows("iso965_1_tolerances.csv")
             if row["symbol"] == symbol and row["grade_or_position"] == str(grade)
             and float(row["pitch_mm"]) == self.pitch),
            None,
        )
        es, td = pick("es", self.position), pick("Td", self.grade)
        if es is None or td is None:
            raise NotRead(f"limits of a pitch of {self.pitch}")
        return self.major + es / 1000 - td / 1000, self.major + es / 1000

    def unified(self):
        """Those of class 2A, by the formulas of ASME B1.1 (from memory), each sum rounded to 0.0001 in:
        over the diameter of the coarse and the fine series, over nine pitches of any other."""
        d, p = self.major / INCH, self.pitch / INCH
        over = d if re.search(r"UN[CF]", self.designation) else 9 * p
        pitch = 0.0015 * d ** (1 / 3) + 0.0015 * over**0.5 + 0.015 * p ** (2 / 3)
        most = round(d, 4) - round(0.3 * pitch, 4)
        return (most - round(0.06 * p ** (2 / 3), 4)) * INCH, most * INCH

    def tenon(self):
        """The middle of the limits of the major diameter, mm to the nanometre."""
        return round(sum(self.limits()) / 2, 6)


def inches(text):
    """A size of an inch thread: 7/16, 1-1/8 or a number."""
    if text.startswith("#"):
        return 0.06 + 0.013 * int(text[1:])
    whole, _, part = text.rpartition("-")
    top, _, bottom = part.partition("/")
    return int(whole or 0) + int(top) / int(bottom or 1)
