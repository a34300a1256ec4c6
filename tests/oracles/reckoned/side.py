"""What is cut from the side, and beside the axis: how much of each section it takes, by quadrature."""

import math
import re

from .language import NotRead
from .quadrature import gauss

KEYS = ("across", "deep", "sharp", "to", "through", "share", "at", "indexed", "clock", "takes", "as", "on")
# Stretches over which each sum is taken.
STRIPS = 2
# So many rays are looked along where cuts run into each other: enough, as what they share is little.
RAYS = 500


class Side:
    """The cuts of a part's `side` blocks, in mm from its first end."""

    def __init__(self, solid):
        self.solid, self.flats, self.patterns, self.openings, self.circles = solid, [], [], [], []
        self.jumps = []

    def line(self, words):
        if words[0] in ("accept", "limit"):
            return
        said = keyed(words[1:])
        low, high = self.stretch(said["at"])
        self.jumps += [low, high]
        count = round(self.number(said, "indexed", 1.0))
        clock = math.radians(self.number(said, "clock", 0.0))
        length = self.solid.sums.length
        if words[0] == "flat":
            self.flats.append((low, high, self.apothem(said, low, high, count), count, clock))
        elif words[0] == "pattern":
            share = self.number(said, "share", 0.5)
            self.patterns.append((low, high, length(said["deep"]), share))
        elif words[0] in ("drill", "slot"):
            size = length(said[None])
            if words[0] == "drill":
                low, high = low - size / 2, low + size / 2
            deep = length(said["to"]) if "to" in said else None
            hole = words[0] == "drill"
            self.opening(low, high, size, deep, "through" in said, (count, clock, hole))
        else:
            raise NotRead(f"the cut {words[0]} from the side")

    def opening(self, low, high, size, deep, through, around):
        round_ = min(size, high - low) / 2
        open_ = low < 1e-9, high > self.solid.length - 1e-9
        self.openings.append((low, high, size, round_, open_, deep, through, *around))
        for end, way in ((low, 1), (high, -1)):
            # An end begins square to the axis: finer there.
            self.jumps += [end + way * round_ * (nth / 8) ** 2 for nth in range(9)]

    def circle(self, end, at, to, dia, point, said):
        """Holes on a pitch circle, their cones beyond `to` where they are drilled."""
        count = round(self.number(said, "indexed", 1.0))
        tip = dia / 2 / math.tan(math.radians(point / 2)) if point else 0.0
        self.circles.append((end, at, to, dia, tip, count))
        self.jumps += [self.solid.along(end, z) for z in (at, to, to + tip)]

    def number(self, said, key, other):
        return self.solid.sums.value(said[key]) if key in said else other

    def stretch(self, words):
        ends = [self.place(it.split()) for it in " ".join(words).split("..")]
        return min(ends), max(ends)

    def place(self, words):
        if words[0] in self.solid.part.ends:
            return 0.0 if words[0] == self.solid.part.ends[0] else self.solid.length
        end = self.solid.part.ends[0]
        if "from" in words:
            end, words = words[-1], words[: words.index("from")]
        return self.solid.along(end, self.solid.sums.length(words))

    def apothem(self, said, low, high, count):
        """From the axis to a flat at a station, by the radius there."""
        length = self.solid.sums.length
        if "across" in said:
            first = length(said["across"]) / 2
            last = length(said["to"]) / 2 if "to" in said else first
            return lambda z, r: first + (last - first) * (z - low) / (high - low)
        if "deep" in said:
            deep = length(said["deep"])
            return lambda z, r: r - deep
        return lambda z, r: r * math.cos(math.pi / count)

    def taken(self, z, outer, inner):
        """The area that all of them take of the section at a station, radii `outer` and `inner`."""
        area = 0.0
        here = [it for it in self.flats if it[0] <= z <= it[1]]
        if len(here) > 1:
            raise NotRead("several sets of flats on one stretch")
        for _, _, apothem, count, _ in here:
            a = apothem(z, outer)
            if 0.0 < a < outer:
                # In polar coordinates, from the middle of a flat to where it ends.
                turn = min(math.acos(a / outer), math.pi / count)
                area += count * summed(lambda t: outer**2 - (a / math.cos(t)) ** 2, 0.0, turn)
        for low, high, deep, share in self.patterns:
            if low <= z <= high:
                area += share * math.pi * (outer**2 - (outer - deep) ** 2)
        for it in self.openings:
            if it[0] < z < it[1]:
                area += self.opened(z, outer, inner, here, it)
        area -= self.twice(z, outer, inner, here)
        for end, at, to, dia, tip, count in self.circles:
            inward = z if end == self.solid.part.ends[0] else self.solid.length - z
            if at <= inward <= to:
                area += count * math.pi * dia**2 / 4
            elif to < inward < to + tip:
                area += count * math.pi * (dia / 2 * (1 - (inward - to) / tip)) ** 2
        return area

    def opened(self, z, outer, inner, flats, opening):
        """What one line's holes or slots take, strip by strip across each."""
        wide, floor, ways = self.shape(z, opening)
        wide = min(wide, outer)
        # Where a strip comes down on the floor, and beside the bore.
        on_floor = math.sqrt(max(inner**2 - floor**2, 0.0))
        turns = sorted({0.0, min(on_floor, wide), min(inner, wide), wide})
        places = [-it for it in turns[:0:-1]] + turns
        edges = self.edges(z, outer, flats)
        if not edges:
            return len(ways) * self.strips(places, outer, inner, floor, [])
        seen = lambda way: [(a, at - way) for a, at in edges if math.cos(at - way) > 1e-9]
        return sum(self.strips(places, outer, inner, floor, seen(way)) for way in ways)

    def shape(self, z, opening):
        """Half its width at a station, its floor, and where each of a line's faces."""
        low, high, size, round_, open_, deep, through, count, clock, hole = opening
        wide = size / 2
        for near, is_open in ((z - low, open_[0]), (high - z, open_[1])):
            if not is_open and near < round_:
                wide = min(wide, size / 2 - round_ + math.sqrt(near * (2 * round_ - near)))
        floor = 0.0 if deep is None else max(self.highest(low, high, hole) - deep, 0.0)
        ways = [clock + 2 * math.pi * nth / count for nth in range(count)]
        if through:
            # Two that come through from either side are one.
            ways += [it + math.pi for it in ways]
            ways = list({round(it % (2 * math.pi), 9) % round(2 * math.pi, 9): it for it in ways}.values())
        return wide, floor, ways

    def twice(self, z, outer, inner, flats):
        """What several holes and slots take of one place, but for the first of them: along rays from the axis."""
        shapes = [self.shape(z, it) for it in self.openings if it[0] < z < it[1]]
        each = [(wide, floor, way) for wide, floor, ways in shapes for way in ways if wide > 0.0]
        apart = lambda a, b: abs((a - b + math.pi) % (2 * math.pi) - math.pi)
        half = lambda wide, floor: min(math.atan2(wide, floor), math.asin(wide / inner) if wide < inner else 2.0)
        if not any(
            apart(one[2], two[2]) < half(*one[:2]) + half(*two[:2]) - 1e-9
            for nth, one in enumerate(each) for two in each[:nth]
        ):
            return 0.0
        edges, over = self.edges(z, outer, flats), 0.0
        for nth in range(RAYS):
            ray = 2 * math.pi * (nth + 0.5) / RAYS
            tops = [a / math.cos(at - ray) for a, at in edges if math.cos(at - ray) > 1e-9]
            top, spans = min([outer, *tops]), []
            for wide, floor, way in each:
                along, aside = math.cos(ray - way), abs(math.sin(ray - way))
                if along > 0.0:
                    low, high = max(floor / along, inner), min(wide / max(aside, 1e-12), top)
                    spans += [(low**2, high**2)] if high > low else []
            reached = 0.0
            for low, high in sorted(spans):
                over += max(min(reached, high) - low, 0.0)
                reached = max(reached, high)
        return over * math.pi / RAYS

    def edges(self, z, outer, flats):
        """How far off each flat of a section is, and where it faces."""
        each = [(apothem(z, outer), clock, count) for _, _, apothem, count, clock in flats]
        return [(a, clock + 2 * math.pi * nth / count) for a, clock, count in each for nth in range(count)]

    def strips(self, places, outer, inner, floor, edges):
        """What lies between the outside and the floor or the bore, over places beside the middle."""
        def height(y):
            top = math.sqrt(max(outer**2 - y**2, 0.0))
            for a, off in edges:
                top = min(top, (a - y * math.sin(off)) / math.cos(off))
            return max(top - max(math.sqrt(max(inner**2 - y**2, 0.0)), floor), 0.0)

        total = 0.0
        for low, high in zip(places, places[1:]):
            middle, half = (low + high) / 2, (high - low) / 2
            # A circle ends square to its strip: finer there.
            strip = lambda t: height(middle + half * math.sin(t)) * half * math.cos(t)
            total += summed(strip, -math.pi / 2, math.pi / 2)
        return total

    def highest(self, low, high, hole):
        """The greatest radius over a stretch, round the turn; of a hole over its middle alone."""
        places = [(low + high) / 2] if hole else [low + (high - low) * nth / 64 for nth in range(65)]
        return max(map(self.over, places))

    def over(self, z):
        radius = self.solid.crest(z)
        for low, high, apothem, count, _ in self.flats:
            if low <= z <= high and count > 2:
                radius = min(radius, apothem(z, radius) / math.cos(math.pi / count))
        return radius


def keyed(words):
    """The words before the first key word, and those behind each."""
    found, key = {None: []}, None
    for word in words:
        if word in KEYS:
            key = word
            found[key] = []
        elif not re.match('"', word):
            found[key].append(word)
    return found


def summed(of, low, high):
    step = (high - low) / STRIPS
    return sum(gauss(of, low + nth * step, low + (nth + 1) * step)[0] for nth in range(STRIPS))
