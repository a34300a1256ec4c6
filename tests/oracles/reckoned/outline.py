"""Outsides from their stations, and corners broken at an end."""

import math

from .language import NotRead


class Surface:
    """A radius over a stretch of the axis."""

    def __init__(self, start, end, radius):
        self.start, self.end, self.radius = start, end, radius

    def covers(self, z):
        return self.start <= z <= self.end


def level(start, end, dia):
    return Surface(start, end, lambda z: dia / 2)


def cone(start, end, first, last):
    """Between two diameters, straight."""
    return Surface(start, end, lambda z: (first + (last - first) * (z - start) / (end - start)) / 2)


def dome(start, end, first, last):
    """A quarter of an ellipse, level at the larger diameter and square to the axis at the smaller."""
    long, low, tall = end - start, min(first, last) / 2, abs(last - first) / 2
    wide = start if first > last else end
    return Surface(start, end, lambda z: low + tall * math.sqrt(max(0.0, 1 - ((z - wide) / long) ** 2)))


def arc(start, end, first, last, radius, out):
    """An arc of a circle; the centre lies on the side that `out` leaves hollow."""
    a, b = first / 2, last / 2
    chord = math.hypot(end - start, b - a)
    rise = math.sqrt(radius**2 - chord**2 / 4)
    side = -1 if out else 1
    cz = (start + end) / 2 - side * rise * (b - a) / chord
    cr = (a + b) / 2 + side * rise * (end - start) / chord
    return Surface(start, end, lambda z: cr - side * math.sqrt(max(0.0, radius**2 - (z - cz) ** 2)))


def hermite(start, end, first, last, m0, m1):
    """A cubic by its radii and slopes at both ends."""

    def radius(z):
        h = end - start
        t = (z - start) / h
        a, b = first / 2, last / 2
        return (
            a * (1 + 2 * t) * (1 - t) ** 2 + b * t * t * (3 - 2 * t)
            + h * m0 * t * (1 - t) ** 2 - h * m1 * t * t * (1 - t)
        )

    return Surface(start, end, radius)


def slopes(zs, rs, first, last):
    """Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980): three-point differences, none at a turn,
    the parabola's at free ends, then both slopes of a stretch within a circle of three secants."""
    n = len(zs)
    step = [zs[i + 1] - zs[i] for i in range(n - 1)]
    secant = [(rs[i + 1] - rs[i]) / step[i] for i in range(n - 1)]
    m = [0.0] * n
    for i in range(1, n - 1):
        if secant[i - 1] * secant[i] > 0:
            m[i] = (step[i] * secant[i - 1] + step[i - 1] * secant[i]) / (step[i - 1] + step[i])
    if n == 2:
        free0 = secant[0] if last is None else 2 * secant[0] - last
        free1 = secant[0] if first is None else 2 * secant[0] - first
    else:
        free0 = secant[0] + (secant[0] - secant[1]) * step[0] / (step[0] + step[1])
        free1 = secant[-1] + (secant[-1] - secant[-2]) * step[-1] / (step[-1] + step[-2])
    m[0] = free0 if first is None else first
    m[-1] = free1 if last is None else last
    for i in range(n - 1):
        if secant[i] == 0:
            m[i] = m[i + 1] = 0.0
            continue
        m[i], m[i + 1] = (0.0 if s * secant[i] <= 0 else s for s in (m[i], m[i + 1]))
        size = math.hypot(m[i] / secant[i], m[i + 1] / secant[i])
        if size > 3:
            m[i], m[i + 1] = m[i] * 3 / size, m[i + 1] * 3 / size
    return m


def through(stations):
    """The surfaces through stations (z, arriving, leaving, shape, size), in their order."""
    spans = [None] * (len(stations) - 1)
    for i in range(len(spans)):
        (z0, _, d0, _, _), (z1, d1, _, shape, size) = stations[i], stations[i + 1]
        if shape is None:
            spans[i] = (cone(z0, z1, d0, d1), (d1 - d0) / 2 / (z1 - z0), (d1 - d0) / 2 / (z1 - z0))
        elif shape == "dome":
            flat = (0.0, None) if d0 > d1 else (None, 0.0)
            spans[i] = (dome(z0, z1, d0, d1), *flat) if d0 != d1 else (cone(z0, z1, d0, d1), 0.0, 0.0)
        elif shape in ("bead", "cove"):
            made = arc(z0, z1, d0, d1, size, shape == "bead")
            ends = ((z0, 1e-6), (z1, -1e-6))
            spans[i] = (made, *((made.radius(z + h) - made.radius(z)) / h for z, h in ends))
        elif shape != "smooth":
            raise NotRead(f"shape {shape}")
    i = 0
    while i < len(spans):
        if spans[i] is not None:
            i += 1
            continue
        j = i + 1
        while j < len(spans) and spans[j] is None and stations[j][1] == stations[j][2]:
            j += 1
        stepped = lambda k: stations[k][1] != stations[k][2]
        first = spans[i - 1][2] if i > 0 and not stepped(i) else None
        last = spans[j][1] if j < len(spans) and spans[j] is not None and not stepped(j) else None
        zs = [stations[k][0] for k in range(i, j + 1)]
        ds = [stations[i][2]] + [stations[k][1] for k in range(i + 1, j + 1)]
        m = slopes(zs, [d / 2 for d in ds], first, last)
        for k in range(i, j):
            at = k - i
            made = hermite(zs[at], zs[at + 1], ds[at], ds[at + 1], m[at], m[at + 1])
            spans[k] = (made, m[at], m[at + 1])
        i = j
    return [span[0] for span in spans]


def broken(radius, size, round_):
    """How a corner at 0 between a face and a radius that runs inward is broken: how far that
    reaches, and the radius within."""
    corner = radius(0.0)
    if not round_:
        # Both legs are straight distances from the corner.
        reach = root(lambda s: math.hypot(s, radius(s) - corner) - size, 0.0, size)
        foot, head = corner - size, radius(reach)
        return reach, lambda y: foot + (head - foot) * y / reach

    def centre(s):
        h = 1e-6
        slope = (radius(s + h) - radius(max(0.0, s - h))) / (s + h - max(0.0, s - h))
        long = math.hypot(1.0, slope)
        return s + size * slope / long, radius(s) - size / long

    reach = root(lambda s: centre(s)[0] - size, 0.0, 2 * size)
    cz, cr = centre(reach)
    return reach, lambda y: cr + math.sqrt(max(0.0, size**2 - (y - cz) ** 2))


def corner(z, before, after, size, round_):
    """The surfaces that a broken corner at a station leaves: of a step or an end, the corner that
    stands out against the face; else of the two surfaces that meet there."""
    low = before.radius(z) if before else -1.0
    high = after.radius(z) if after else -1.0
    if abs(low - high) > 1e-9:
        side, on = (1, after) if high > low else (-1, before)
        reach, radius = broken(lambda y: on.radius(z + side * y), size, round_)
        ends = sorted((z, z + side * reach))
        # A round begins square to its face: finer there.
        return [Surface(a, b, lambda at: radius(abs(at - z))) for a, b in sown(*ends)]
    if round_:
        raise NotRead("a round between two surfaces")
    far = lambda on, side: root(lambda y: math.hypot(y, on.radius(z + side * y) - low) - size, 0.0, size)
    start, end = z - far(before, -1), z + far(after, 1)
    # In a valley the straight cut lies above both, as a fillet does.
    before.end, after.start = start, end
    return [cone(start, end, 2 * before.radius(start), 2 * after.radius(end))]


def sown(start, end):
    """A stretch in parts that grow from its ends."""
    places = [start + (end - start) * part for part in (0.0, 0.02, 0.1, 0.3, 0.7, 0.9, 0.98, 1.0)]
    return list(zip(places, places[1:]))


def root(of, low, high):
    """Where a growing function is nothing."""
    for _ in range(200):
        middle = (low + high) / 2
        if of(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2
