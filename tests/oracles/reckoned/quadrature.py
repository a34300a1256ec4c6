"""Sums over a stretch, halved wherever the halves do not agree with the whole."""

import math

# Eight points of Gauss and Legendre on -1..1.
POINTS = (
    (0.9602898564975363, 0.10122853629037626),
    (0.7966664774136267, 0.22238103445337448),
    (0.5255324099163290, 0.31370664587788729),
    (0.1834346424956498, 0.36268378337836198),
)

SOWN = (0.0, 0.097, 0.212, 0.349, 0.463, 0.591, 0.702, 0.857)


def gauss(of, low, high):
    half, middle = (high - low) / 2, (high + low) / 2
    total = [0.0, 0.0]
    for node, weight in POINTS:
        for at in (middle - half * node, middle + half * node):
            value = of(at) * weight * half
            total[0] += value
            total[1] += value * at
    return total


def integral(of, stations, within=1e-11):
    """The integral of a function and of its moment, between the first station and the last, each piece
    `within` so much of the whole."""
    stations = sorted(set(stations))
    # Sown unevenly, so that no corner of a profile lies where halves and whole happen to agree.
    stations = [a + (b - a) * part for a, b in zip(stations, stations[1:]) for part in SOWN] + stations[-1:]
    whole = [gauss(of, a, b) for a, b in zip(stations, stations[1:])]
    scale = sum(abs(part[0]) for part in whole) or 1.0
    total = [0.0, 0.0]
    waiting = list(zip(stations, stations[1:], whole))
    while waiting:
        low, high, known = waiting.pop()
        middle = (low + high) / 2
        left, right = gauss(of, low, middle), gauss(of, middle, high)
        off = abs(left[0] + right[0] - known[0])
        if off > within * scale and high - low > 1e-7:
            waiting += [(low, middle, left), (middle, high, right)]
        else:
            total[0] += left[0] + right[0]
            total[1] += left[1] + right[1]
    return total


def volume(square, stations, within=1e-11):
    """A solid of revolution by its square of the radius: volume in mm3 and centroid in mm."""
    area, moment = integral(square, stations, within)
    return math.pi * area, moment / area if area else 0.0
