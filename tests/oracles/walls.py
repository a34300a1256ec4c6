"""Walls, as drawn and at worst: of the examples, and of parts made up at random."""

import random
import tempfile
from pathlib import Path

from kept import examples
from reckoned import made_up
from reckoned.hand import Hand
from reckoned.language import File, NotRead
from reckoned.pens import pens_of
from reckoned.walls import Walls

# Walls are told to the nanometre, and so is each size they are between.
NANOMETRE = 2.0
# Where a round runs out of a side is known no closer, mm: it does so with the side's own slope.
RUNS_OUT = 0.02
RANDOM_PARTS = 24
EDGES = {"broken", "corner", "countersink"}


def of_examples(kept):
    """Every wall of every part of the examples' pens. What the program takes for one is found again by
    where it lies."""
    for path, design in examples():
        measured = kept.measured(path, "--full") if design.pens else {"pens": []}
        said = {it["name"]: it for it in measured["pens"]}
        for pen in pens_of(design):
            hand = Hand(pen.bench, pen.file)
            for found in said[pen.name]["parts"]:
                if found["walls"] and path.stem != "knot":
                    part = pen.parts[found["name"]]
                    hold(kept, f"{path.name}: {pen.name}'s {part.name}", part, hand, found)


def made_up_parts(kept, seed=21, count=RANDOM_PARTS):
    """The same of parts made up at random, as closely kept as where no bench says."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "walls.quillet"
        path.write_text(made_up.parts(random.Random(seed), count), encoding="utf-8")
        design = File(path)
        hand = Hand(None, design)
        for found in kept.measured(path, "--full")["parts"]:
            if found["walls"]:
                hold(kept, f"walls made up: {found['name']}", design.parts[found["name"]], hand, found)


def hold(kept, what, part, hand, found):
    try:
        reckoned = Walls(part, hand, kept.pitch_limits)
    except NotRead as reason:
        kept.wrong.append(f"{what} was not read: {reason}")
        return
    drawn = list(reckoned.found())
    # Whatever the program takes for walls: broken corners apart, nothing is nearer than their least.
    least = min(it["least_mm"] for it in found["walls"])
    surfaces = (wall.least for wall in drawn if not EDGES & {wall.outer[0], wall.inner[0]})
    kept.hold(f"{what}'s least wall", least, min(least, *surfaces), NANOMETRE)
    for it in found["walls"]:
        near = lambda a, b, within=1e-5: abs(a - b) < within
        ends_near = lambda a, b: near(a, b, RUNS_OUT)
        ends = it["from_mm"], it["to_mm"]
        bottom = it["role"] == "a closed end"
        here = [
            wall for wall in drawn
            if near(wall.least, it["least_mm"]) and (bottom or wall.place is None)
            # What closes an end may be one with what lies over the hole there.
            and (any if bottom else all)(map(ends_near, wall.ends, ends))
        ]
        line = f"{what}: {it['outer']} over {it['inner']}"
        kept.hold(line, it["least_mm"], min((wall.least for wall in here), default=None), NANOMETRE)
        if here:
            kept.hold(f"{line} at worst", it["worst_mm"], min(map(reckoned.worst, here)), NANOMETRE)
