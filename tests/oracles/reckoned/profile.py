"""What of a part's surface looks along the axis, piece by piece, each known by what made it."""

import math

from .outline import Surface, level

SAMPLES = 24
SAME = 1e-9


class Piece:
    """A stretch whose radius only grows or only falls, or a flat ring; `up`: it looks to larger z."""

    def __init__(self, maker, low, high, radius, up, inside):
        self.maker, self.low, self.high, self.radius = maker, low, high, radius
        self.up, self.inside = up, inside
        # A ring gives its two radii instead of a function.
        self.flat = not callable(radius)
        ends = radius if self.flat else (radius(low), radius(high))
        self.least, self.most = min(ends), max(ends)

    def at(self, r):
        """Where it has a radius."""
        if self.flat:
            return self.low
        low, high = self.low, self.high
        grows = self.radius(high) > self.radius(low)
        for _ in range(80):
            middle = (low + high) / 2
            if (self.radius(middle) < r) == grows:
                low = middle
            else:
                high = middle
        return (low + high) / 2


def envelopes(solid, cored=(), roots=None):
    """The outside and the inside of a solid in stretches, its threads at their crests, but those
    given at their roots; `roots`: by how much those lie off, on the radius."""
    outer, inner = list(solid.outer), list(solid.inner)
    for end, at, to, thread, inside in solid.threads:
        low, high = sorted((solid.along(end, at), solid.along(end, to)))
        if thread.maker in cored:
            radius = thread.crest if inside else thread.deepest()
            radius += (roots or {}).get(thread.maker, 0.0)
        else:
            radius = thread.root if inside else thread.crest
        made = level(low, high, 2 * radius)
        made.maker = ("cut", *thread.maker)
        (inner if inside else outer).append(made)
    for first, reach, radius in solid.broken:
        low, high = (0.0, reach) if first else (solid.length - reach, solid.length)
        made = Surface(low, high, radius if first else lambda z, radius=radius: radius(solid.length - z))
        made.maker = ("broken", first)
        outer.append(made)
    outside = envelope(outer, solid.length, min, None)
    bores = envelope(inner, solid.length, max, 0.0)
    return outside, bores


def pieces(solid, cored=()):
    """What of that surface looks along the axis."""
    outside, bores = envelopes(solid, cored)
    found = list(surface(outside, False)) + list(surface(bores, True))
    hole = lambda at, side: next((f(at) for a, b, f, _ in bores if abs((a, b)[side] - at) < SAME), 0.0)
    for at, way, stretch in ((0.0, False, outside[0]), (solid.length, True, outside[-1])):
        ends = hole(at, way), stretch[2](at)
        found.append(Piece(("face", way), at, at, ends, way, False))
    return [it for it in found if it.most - it.least > SAME]


def envelope(made, length, pick, empty):
    """The least or greatest of many surfaces: stretches (low, high, radius, maker)."""
    places = {0.0, length}
    for it in made:
        places.update(min(max(z, 0.0), length) for z in (it.start, it.end))
    places = sorted(places)
    found = []
    for low, high in zip(places, places[1:]):
        if high - low < SAME:
            continue
        here = [it for it in made if it.start <= low + SAME and it.end >= high - SAME]
        if not here:
            found.append((low, high, lambda z: empty, None))
            continue
        best = lambda z: pick(here, key=lambda it: it.radius(z))
        at = [low + (high - low) * nth / SAMPLES for nth in range(SAMPLES + 1)]
        # Ends belong to what lies within.
        at[0], at[-1] = low + (high - low) * 1e-9, high - (high - low) * 1e-9
        start, now = low, best(at[0])
        for a, b in zip(at, at[1:]):
            after = best(b)
            if after is not now:
                z = crossing(now, after, a, b)
                found.append((start, z, now.radius, now.maker))
                start, now = z, after
        found.append((start, high, now.radius, now.maker))
    return [it for it in found if it[1] - it[0] > SAME]


def crossing(one, other, low, high):
    sign = one.radius(low) < other.radius(low)
    for _ in range(80):
        middle = (low + high) / 2
        if (one.radius(middle) < other.radius(middle)) == sign:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def surface(stretches, inside):
    """The pieces of an unbroken run of stretches; a step belongs to the side that has metal."""
    before = None
    for low, high, radius, maker in stretches:
        if before is not None:
            was, is_ = before[0], radius(low)
            metal_after = (is_ > was) != inside
            owner = maker if metal_after else before[1]
            yield Piece(owner or maker or before[1], low, low, (was, is_), not metal_after, inside)
        for a, b in monotone(low, high, radius):
            falls = radius(b) < radius(a)
            if maker is not None and abs(radius(b) - radius(a)) > SAME:
                yield Piece(maker, a, b, radius, falls != inside, inside)
        before = (radius(high), maker)


def monotone(low, high, radius):
    """A stretch cut where its radius turns."""
    at = [low + (high - low) * nth / SAMPLES for nth in range(SAMPLES + 1)]
    turns = [low]
    for a, b, c in zip(at, at[1:], at[2:]):
        rise, fall = radius(b) - radius(a), radius(c) - radius(b)
        if rise * fall < 0 and min(abs(rise), abs(fall)) > SAME:
            turns.append(extremum(a, c, radius, rise > 0))
    turns.append(high)
    return list(zip(turns, turns[1:]))


def extremum(low, high, radius, top):
    worth = radius if top else lambda z: -radius(z)
    golden = (math.sqrt(5) - 1) / 2
    while high - low > 1e-12:
        a, b = high - golden * (high - low), low + golden * (high - low)
        if worth(a) < worth(b):
            low = a
        else:
            high = b
    return (low + high) / 2


class Placed:
    """A part on another axis: z there is offset + way * z."""

    def __init__(self, offset, way):
        self.offset, self.way = offset, way

    def of(self, z):
        return self.offset + self.way * z

    def station(self, z):
        return (z - self.offset) * self.way

    def then(self, other):
        return Placed(other.offset + other.way * self.offset, self.way * other.way)

    def inverse(self):
        return Placed(-self.way * self.offset, self.way)

    def moved(self, by):
        return Placed(self.offset + by, self.way)


class Gap:
    """How much further one surface may go until it meets another."""

    def __init__(self, travel, width, male, female):
        self.travel, self.width, self.male, self.female = travel, width, male, female


def gap(males, male_at, females, female_at):
    """The least travel of the pieces of one surface to those of another; none where they pass."""
    least = None
    for one in males:
        if one.up != (male_at.way > 0):
            continue
        for other in females:
            if other.up == (female_at.way > 0):
                continue
            low, high = max(one.least, other.least), min(one.most, other.most)
            if high - low <= 1e-6:
                continue
            apart = lambda r: female_at.of(other.at(r)) - male_at.of(one.at(r))
            travel = least_of(apart, low, high, one.flat and other.flat)
            width = high - low if one.flat and other.flat else 0.0
            if least is None or travel < least.travel:
                least = Gap(travel, width, one, other)
    return least


def least_of(of, low, high, flat):
    """The least of a function; where it is flat, at its end."""
    if flat:
        return of(low)
    at = [low + (high - low) * nth / 8 for nth in range(9)]
    values = [of(r) for r in at]
    best = min(range(9), key=lambda nth: values[nth])
    if best in (0, 8):
        return values[best]
    a, b = at[best - 1], at[best + 1]
    golden = (math.sqrt(5) - 1) / 2
    while b - a > 1e-9:
        c, d = b - golden * (b - a), a + golden * (b - a)
        if of(c) > of(d):
            a = c
        else:
            b = d
    return min(of((a + b) / 2), values[best])


def makers(found):
    """Pieces by what made them, so that a surface is met once."""
    by = {}
    for it in found:
        by.setdefault(it.maker, []).append(it)
    return by
