"""Walls at worst: what is left between an outside and a bore, threads at their roots, with every
size of the part as far off as a hand may miss it."""

import math

from .profile import envelopes
from .solid import Solid

# Small, so that a place which moves from one surface on to the next counts as neither's slope.
STEP = 2e-6
SAME = 1e-6
SAMPLES = 24
# A thread's rounded root lies so many pitches under its pitch diameter, an inside one's crest over
# it (ISO 68-1, ISO 965-1: reference figures).
ROUND_ROOT, CREST = 0.616025, 0.793857


class Walls:
    """The walls of a part: each pair of surfaces that lie over each other, and what each blind
    bottom leaves to the outside beyond it; as drawn and at worst."""

    def __init__(self, part, hand, limits):
        """`limits`: of a thread's pitch diameter, by its designation and side."""
        self.part = part
        solid = Solid(part)
        self.makers = [thread.maker for *_, thread, _ in solid.threads]
        self.ranges = dict(hand.ranges(solid))
        for *_, thread, inside in solid.threads:
            low, high = limits(thread, inside)
            drawn = 2 * (thread.crest if inside else thread.deepest())
            root = high + CREST * thread.pitch if inside else low - ROUND_ROOT * thread.pitch
            off = thread.told(root) - drawn
            self.ranges["root", thread.maker] = min(off, 0.0), max(off, 0.0)
        self.drawn = Shape(solid, self.makers, {})

    def off(self, sizes):
        roots = {key[1]: by / 2 for key, by in sizes.items() if key[0] == "root"}
        others = {key: by for key, by in sizes.items() if key[0] != "root"}
        return Shape(Solid(self.part, others), self.makers, roots)

    def found(self):
        return pairs(self.drawn)

    def worst(self, wall):
        """Every size takes by how far it moves the two; across an outside that slopes or curves,
        the part is cut anew with all of them at their worst."""
        drawn, taking = wall.least, []
        for key, (low, high) in self.ranges.items():
            more, less = (self.off({key: by}).again(wall) for by in (STEP, -STEP))
            slope = (more - less) / (2 * STEP)
            if abs(slope) > 1e-7:
                taking.append((max(-slope * low, -slope * high, 0.0), key, low if slope > 0 else high, low + high))
        least = drawn - sum(it[0] for it in taking)
        if wall.outer[0] != "outside":
            return least
        ends = {key: end for _, key, end, _ in taking}
        best = self.off(ends).again(wall)
        for _, key, _, both in sorted(taking, key=lambda it: -it[0]):
            other = {**ends, key: both - ends[key]}
            found = self.off(other).again(wall)
            if found < best:
                best, ends = found, other
        return min(least, best)


class Wall:
    """Two surfaces by their makers; of a bottom, the place it is measured from."""

    def __init__(self, outer, inner, place, least, ends):
        self.outer, self.inner, self.place, self.least, self.ends = outer, inner, place, least, ends


class Shape:
    """A solid's outside and bores, threads at their roots."""

    def __init__(self, solid, cored, roots):
        self.length = solid.length
        outside, bores = envelopes(solid, cored, roots)
        self.outer, self.inner, self.bottoms, self.steps = {}, {}, [], {}
        for low, high, radius, maker in outside:
            self.outer.setdefault(maker, []).append((low, high, radius))
        for (_, z, before, one), (_, _, after, other) in zip(outside, outside[1:]):
            radii = sorted((before(z), after(z)))
            if radii[1] - radii[0] > SAME:
                # The face of a step is of the surface that stands out there.
                maker = other if after(z) > before(z) else one
                self.steps.setdefault(maker, []).append((z, *radii))
        stretches = [it for it in bores if it[3] is not None]
        for low, high, radius, maker in stretches:
            self.inner.setdefault(maker, []).append((low, high, radius))
        covered = lambda z: any(low - SAME < z < high + SAME for low, high, *_ in stretches)
        for low, high, radius, maker in stretches:
            for end, way in ((low, -1), (high, 1)):
                if 1e-4 < end < self.length - 1e-4 and not covered(end + way * 1e-4):
                    self.bottoms.append((maker, way, end, radius(end)))

    def again(self, wall):
        """The same wall of this shape; endless where other cuts have left nothing of it."""
        if wall.place is None:
            over, under = self.outer.get(wall.outer), self.inner.get(wall.inner)
            return apart(over, under)[0] if over and under else math.inf
        which, way = wall.place
        at = [it for it in self.bottoms if it[0] == wall.inner and it[1] == way]
        outers = {"face": [wall.outer], "step": [("step", it) for it in self.steps]}
        if not at or wall.outer not in outers.get(wall.outer[0], self.outer):
            return math.inf
        _, _, z, r = at[0]
        return self.beyond(wall.outer, (z, r if which == "corner" else 0.0))[0]

    def beyond(self, outer, at):
        if outer[0] == "face":
            return abs(at[0] - (self.length if outer[1] else 0.0)), self.length if outer[1] else 0.0
        if outer[0] == "step":
            far = lambda z, low, high: math.hypot(z - at[0], min(max(at[1], low), high) - at[1])
            return min((far(*it), it[0]) for it in self.steps[outer[1]])
        return min(nearest(stretch, at) for stretch in self.outer[outer])


def pairs(shape):
    for outer, over in shape.outer.items():
        for inner, under in shape.inner.items():
            spans = [
                (max(a, c), min(b, d)) for a, b, _ in over for c, d, _ in under if min(b, d) - max(a, c) > SAME
            ]
            least, z, to = apart(over, under)
            ends = (min(a for a, _ in spans), max(b for _, b in spans)) if spans else sorted((z, to))
            yield Wall(outer, inner, None, least, ends)
    for inner, way, z, r in shape.bottoms:
        faces = [("face", True)] if way > 0 else [("face", False)]
        for which, at in (("tip", (z, 0.0)), ("corner", (z, r))):
            for outer in [*shape.outer, *(("step", it) for it in shape.steps), *faces]:
                least, to = shape.beyond(outer, at)
                if (to - z) * way > SAME:
                    yield Wall(outer, inner, (which, way), least, (min(z, to), max(z, to)))


def apart(over, under):
    """The least distance of two surfaces, and its places."""
    best = (math.inf, 0.0, 0.0)
    for outer in over:
        for inner in under:
            low, high, radius = inner
            at = lambda z: (*nearest(outer, (z, radius(z))), z)
            places = [low + (high - low) * nth / SAMPLES for nth in range(SAMPLES + 1)]
            values = [at(z) for z in places]
            nth = min(range(len(values)), key=lambda n: values[n][0])
            # The nearest place may lie a hair from an end.
            z = golden(lambda z: at(z)[0], places[max(nth - 1, 0)], places[min(nth + 1, SAMPLES)])
            best = min(best, values[nth], at(z))
    return best


def nearest(stretch, at):
    """The least distance of a place to a stretch of a surface, and where."""
    low, high, radius = stretch
    far = lambda z: math.hypot(z - at[0], radius(z) - at[1])
    places = sorted({low + (high - low) * nth / SAMPLES for nth in range(SAMPLES + 1)} | {min(max(at[0], low), high)})
    nth = min(range(len(places)), key=lambda n: far(places[n]))
    # Two of the places may be one, but for its last digit.
    z = golden(far, places[max(nth - 2, 0)], places[min(nth + 2, len(places) - 1)])
    return min((far(it), it) for it in (z, low, high, places[nth]))


def golden(of, low, high):
    ratio = (math.sqrt(5) - 1) / 2
    a, b = high - ratio * (high - low), low + ratio * (high - low)
    at_a, at_b = of(a), of(b)
    while high - low > 1e-8:
        if at_a < at_b:
            high, b, at_b = b, a, at_a
            a = high - ratio * (high - low)
            at_a = of(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + ratio * (high - low)
            at_b = of(b)
    return (low + high) / 2
