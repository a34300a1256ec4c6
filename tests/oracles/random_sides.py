"""Checks random parts with flats, slots, side holes and holes on a pitch circle: what is left of them, and their
least wall.

    random_sides.py QUILLET [--venv FOLDER]

QUILLET is the program to check. With --venv the pinned package of assembly-requirements.txt, beside this
file, is installed into that environment first, for the arrays that come with it. Ends 0 when all figures
agree, 1 when one does not, 0 with a line that begins `skipped` where the package cannot be had.

What `quillet measure` tells of each part is held against
  a mesh    of steps of the angle and of the station, twice as fine until two agree: 1e-6 of the volume
  samples   of every surface, each as far from the nearest bore as it is: the least within 2e-5 mm
"""

import json
import math
import random
import subprocess
import sys
import tempfile
from pathlib import Path

from packages import begin, lacking
from sides import PINS, Case, apothems, drill, edges, flat, highest, refined, slot, under_flats, ways

PARTS = 24
# Stations and angles of the samples; a flat is out by this share of a step's square.
ALONG, AROUND = 240, 3600
WITHIN_MM = 2e-5
# Between stations near a floor.
NEAR_MM = 0.005


class Part(Case):
    """A part with holes on a pitch circle as well: (diameter, depth, circle, count, clock)."""

    def __init__(self, outside, bore, flats, openings, circle):
        super().__init__(outside, bore, flats, openings)
        self.circle = circle

    def text(self):
        written = super().text()
        if self.circle is None:
            return written
        dia, deep, on, count, clock = self.circle
        line = f"    bore {dia:g} to {deep:g} on {on:g} indexed {count} clock {clock:g}\n"
        head, _, tail = written.rpartition("  }\n}\n")
        return f"{head}{line}  }}\n}}\n{tail}"


def made_up(chance):
    """A rod or a cone of 60, bored, with holes at its front, flats behind them, then slots or side holes, then
    flats again."""
    some = lambda low, high: round(chance.uniform(low, high), 2)
    outside = [(0, some(7.2, 8.5)), (60, some(7.2, 8.5))]
    bored = some(2.5, 4)
    bore = chance.choice([[(bored, 60, True)], [(bored, 52, False)]])
    def set_of_flats(low, high):
        across, count = some(12.4, 14), chance.randint(1, 10)
        return flat((low, high), across, count, some(0, 359), chance.choice([None, some(12.4, 14)]))
    flats = [set_of_flats(some(8, 10), some(14, 20)), set_of_flats(some(42, 44), some(47, 50))]
    if chance.random() < 0.3:
        flats.append(flat((some(11, 12), some(12.5, 13.5)), some(12.4, 13.5), chance.randint(2, 5), some(0, 359)))
    deep = lambda: chance.choice([None, some(0.4, 1.4)])
    openings = [chance.choice([
        slot(some(0.8, 2.5), (some(23, 25), some(28, 31)), chance.randint(1, 4), deep(), some(0, 359)),
        drill(some(0.8, 2.5), some(25, 29), chance.randint(1, 4), deep(), some(0, 359)),
    ]), drill(some(0.8, 2), some(35, 38), chance.randint(1, 5), deep(), some(0, 359))]
    circle = None
    if chance.random() < 0.6:
        circle = (some(0.8, 1.6), some(2, 6), some(10.4, 11.4), chance.randint(1, 7), some(0, 359))
    return Part(outside, bore, flats, openings, circle)


def volume(part):
    """The mesh's, less what the circle takes: whole cylinders, clear of all else."""
    left = refined(part)
    if part.circle is not None:
        dia, deep, _, count, _ = part.circle
        left -= count * math.pi / 4 * dia * dia * deep
    return left


def least_wall(part):
    """The least distance of any sampled place of the outside or of a floor to a bore or a hole."""
    import numpy

    length, (bored, depth_mm, through) = part.outside[-1][0], part.bore[0]
    angle = 2 * math.pi * numpy.arange(AROUND) / AROUND
    found = [] if through else [length - depth_mm]

    def to_bore(r, z):
        beyond = 0.0 if through else max(z - depth_mm, 0.0)
        return numpy.hypot(numpy.maximum(r - bored, 0.0), beyond)

    holes = hole_axes(part)
    for z in stations(part, length):
        r = outline(part, z, angle)
        kept = r < math.inf
        for cut in part.openings:
            low, high, _ = edges(cut)
            if not low < z < high:
                continue
            half = half_width(cut, z)
            for way in ways(cut):
                beside, out = r * numpy.sin(angle - way), numpy.cos(angle - way)
                kept &= ~((numpy.abs(beside) < half) & (out > 0))
                if cut["deep"]:
                    floor = highest(part, cut) - cut["deep"]
                    y = half * numpy.linspace(-1, 1, 41)
                    found.append(float(numpy.min(to_bore(numpy.hypot(floor, y), z))))
        if kept.any():
            found.append(float(numpy.min(to_bore(r[kept], z))))
            for (x, y), radius, deep in holes:
                far = numpy.hypot(r * numpy.cos(angle) - x, r * numpy.sin(angle) - y) - radius
                found.append(float(numpy.min(numpy.hypot(far[kept], max(z - deep, 0.0)))))
    for nth, ((x, y), radius, deep) in enumerate(holes):
        wall = x + radius * numpy.cos(angle), y + radius * numpy.sin(angle)
        found.append(float(numpy.min(numpy.hypot(*wall))) - bored)
        for (a, b), other, _ in holes[:nth]:
            found.append(float(numpy.min(numpy.hypot(wall[0] - a, wall[1] - b))) - other)
    return min(found)


def hole_axes(part):
    if part.circle is None:
        return []
    dia, deep, on, count, clock = part.circle
    turns = [math.radians(clock + 360 * nth / count) for nth in range(count)]
    return [((on / 2 * math.cos(it), on / 2 * math.sin(it)), dia / 2, deep) for it in turns]


def stations(part, length):
    """Evenly along it, and just within the ends of every cut."""
    places = [length * nth / ALONG for nth in range(ALONG + 1)]
    for cut in [*part.flats, *part.openings]:
        low, high = (cut["at"] if cut["what"] == "flat" else edges(cut)[:2])
        places += [low + 1e-9, high - 1e-9, (low + high) / 2]
    bottoms = [depth_mm for _, depth_mm, through in part.bore if not through]
    bottoms += [part.circle[1]] if part.circle else []
    # Across from a floor the nearest place of a slope lies a little beyond it.
    places += [at + nth * NEAR_MM for at in bottoms for nth in range(-140, 141)]
    return sorted(it for it in places if 0 <= it <= length)


def outline(part, z, angle):
    import numpy

    r = under_flats(part, z, angle)
    for apothem, way in apothems(part, z):
        # The middle of the flat itself may lie between two angles.
        middle = numpy.argmax(numpy.cos(angle - way))
        r[middle] = min(r[middle], apothem)
    return r


def half_width(cut, z):
    low, high, width = edges(cut)
    rounded, near = min(width, high - low) / 2, min(z - low, high - z)
    inside = math.sqrt(near * (2 * rounded - near)) if near < rounded else rounded
    return width / 2 - rounded + inside


def measured(program, part):
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "made-up.quillet"
        file.write_text(part.text())
        words = [program, "measure", "--full", "--format", "json", str(file)]
        answer = subprocess.run(words, capture_output=True, text=True)
    if answer.returncode:
        return None
    return json.loads(answer.stdout)["parts"][0]


def main(given):
    if missing := lacking(PINS):
        print(f"skipped: random parts need the arrays that come with {', '.join(missing)}")
        return 0
    chance, wrong, compared = random.Random(140), [], 0
    while compared < 2 * PARTS:
        part = made_up(chance)
        said = measured(given, part)
        if said is None or not said["walls"]:
            # Cuts that run into each other are an error, and tell nothing.
            continue
        least = min(it["least_mm"] for it in said["walls"])
        for what, told, expected, within in [
            ("volume", said["volume_mm3"], volume(part), 1e-6 * said["volume_mm3"]),
            ("least wall", least, least_wall(part), WITHIN_MM),
        ]:
            compared += 1
            if not abs(told - expected) <= within:
                wrong.append(f"{what} {told}, {expected} expected, of\n{part.text()}")
    print(f"random sides: {compared} figures compared, {len(wrong)} differ")
    for line in wrong:
        print(f"  {line}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS))
