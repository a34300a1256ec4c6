"""Reckons what designs come to once more, from their text, and holds `quillet measure` against it.

    figures.py QUILLET [--venv FOLDER]

QUILLET is the program to check. The reader, the outlines, the threads and the sums are those of the
folder `reckoned` beside this file; nothing of the program's own shapes is used. One function a
figure, listed in FIGURES. With --venv the pinned package of figures-requirements.txt is installed
into that environment first; what needs it is skipped with a line where it cannot be had. Prints how
many figures were compared and how many differ by more than 1e-6; ends 1 where one does.
"""

import random
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor
from itertools import repeat
from pathlib import Path

import calipers
import step
import walls
from kept import EXAMPLES, Kept, examples, of_other_kinds
from packages import begin, wanted
from reckoned import made, made_up, rooms
from reckoned.chains import Chains
from reckoned.language import File, NotRead
from reckoned.pens import pens_of
from reckoned.solid import Solid
from reckoned.travel import travel

HERE = Path(__file__).resolve().parent
PINS = HERE / "figures-requirements.txt"
RANDOM_PARTS = 120
RANDOM_SOLIDS = 40
RANDOM_SIDES = 24
RANDOM_PENS = 12


def main(program):
    with ProcessPoolExecutor() as others:
        held = list(others.map(held_by, FIGURES, repeat(program)))
    wrong = [line for kept in held for line in kept.wrong]
    print(f"figures: {sum(kept.compared for kept in held)} figures, {len(wrong)} differ")
    for line in wrong:
        print(f"  {line}")
    return 1 if wrong else 0


def held_by(figure, program):
    """What of one figure was compared, and what of it differs."""
    kept = Kept(program)
    figure(kept)
    return kept


def parts_of(kept, path, design):
    """Each cut part that the program measures, with what it says and its solid; one of which
    nothing is said, since the design has errors, left out."""
    measured = kept.measured(path)
    for found in measured["parts"]:
        part = design.parts.get(found["name"])
        unknown = found["volume_mm3"] is None and measured.get("errors", 0) > 0
        if part is None or part.bought or unknown:
            continue
        try:
            yield found, Solid(part)
        except NotRead as reason:
            kept.wrong.append(f"{path.name}: {found['name']} was not read: {reason}")


def volumes(kept):
    """Volume and centroid of every cut part of every example."""
    for path, design in [*examples(), *of_other_kinds()]:
        if any(not part.bought for part in design.parts.values()):
            hold_volumes(kept, path, design)


def made_up_volumes(kept):
    """The same of parts made up at random, and the volume of their STEP solids."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "parts.quillet"
        path.write_text(made_up.parts(random.Random(20), RANDOM_PARTS), encoding="utf-8")
        hold_volumes(kept, path, File(path))
        if not wanted("OCP.STEPControl"):
            return
        for found in kept.measured(path)["parts"][:RANDOM_SOLIDS]:
            name = found["name"]
            out = Path(folder) / f"{name}.step"
            words = [kept.program, "solid", str(path), "--part", name, "-o", str(out)]
            subprocess.run(words, check=True, capture_output=True)
            count, valid, volume = step.read(out)
            volume = volume if count == 1 and valid else None
            kept.hold(f"STEP of {name}: volume", volume, found["volume_mm3"])


def made_pens(kept):
    """Volume and centroid of every part of what ships as made: the drawn text with what was measured."""
    with tempfile.TemporaryDirectory() as folder:
        for path in EXAMPLES.glob("*.quillet"):
            shutil.copy(path, folder)
        for path in sorted((EXAMPLES / "made").glob("*.quillet")):
            text = path.read_text(encoding="utf-8")
            used = (path.parent / re.search(r'use "(.*)"', text)[1]).resolve()
            drawn = used.read_text(encoding="utf-8").replace('"../', '"')
            written = Path(folder) / f"as-{path.name}"
            written.write_text(made.as_drawn(drawn, text), encoding="utf-8")
            hold_made(kept, path, File(written))


def hold_made(kept, path, design):
    said = next(it for it in kept.measured(path)["pens"] if it["name"] == path.stem)
    for found in said["parts"]:
        part = design.parts.get(found["name"])
        if part is None or part.bought:
            continue
        volume, centroid = Solid(part).volume()
        what = f"{path.name}: {found['name']} as made"
        kept.hold(f"{what}: volume", found["volume_mm3"], volume)
        kept.hold(f"{what}: centroid", found["centroid_mm"], centroid)


def made_up_sides(kept):
    """The same of parts with flats, slots, side holes, patterns and holes on a pitch circle."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "sides.quillet"
        path.write_text(made_up.sided(random.Random(14), RANDOM_SIDES), encoding="utf-8")
        hold_volumes(kept, path, File(path))


def hold_volumes(kept, path, design):
    for found, solid in parts_of(kept, path, design):
        volume, centroid = solid.volume()
        what = f"{path.name}: {found['name']}"
        kept.hold(f"{what}: volume", found["volume_mm3"], volume)
        kept.hold(f"{what}: centroid", found["centroid_mm"], centroid)


def pens(kept):
    """Rest positions, ink, air and worst cases, along the axis and across it, of every pen of every example."""
    for path, design in examples():
        hold_pens(kept, path, design)


def made_up_pens(kept):
    """The same of the examples with other sizes; of so many of them that can still be put together."""
    chance, known = random.Random(10), 0
    with tempfile.TemporaryDirectory() as folder:
        for path in EXAMPLES.glob("*.quillet"):
            shutil.copy(path, folder)
        drawn = [path for path, design in examples() if design.pens and path.stem != "knot"]
        for nth in range(4 * RANDOM_PENS):
            path = Path(folder) / f"other-{nth}.quillet"
            text = drawn[nth % len(drawn)].read_text(encoding="utf-8")
            path.write_text(made_up.other_sizes(chance, text), encoding="utf-8")
            known += hold_pens(kept, path, File(path))
            if known >= RANDOM_PENS:
                return
    kept.wrong.append(f"only {known} pens with other sizes go together, of {RANDOM_PENS} wanted")


def hold_pens(kept, path, design):
    """How many of a file's pens were held; one with errors says nothing."""
    if not design.pens:
        return 0
    measured, held = kept.measured(path, "--full"), 0
    said = {it["name"]: it for it in measured["pens"]}
    for pen in pens_of(design):
        found, what = said[pen.name], f"{path.name}: {pen.name}"
        if measured["errors"] and all(it["goes_in_mm"] is None for it in found["joints"]):
            continue
        try:
            hold_pen(kept, what, pen, found)
            held += 1
        except NotRead as reason:
            kept.wrong.append(f"{what} was not read: {reason}")
    return held


def hold_pen(kept, what, pen, found):
    reckoned = Chains(pen)
    drawn, chains = reckoned.drawn, {}
    for it in reckoned.found:
        least(chains, it.key(), it.drawn, it.worst)
    said = {}
    for it in found["joints"]:
        ends = it["male"], it["female"]
        rest = next(rest for joint, rest in drawn.rests.items() if joint.ends() == ends)
        kept.hold(f"{what}: how far {ends[0]} goes in", it["goes_in_mm"], rest.goes_in, 1.0)
        kept.hold(f"{what}: how far {ends[0]} unscrews", it["travel_mm"], let_go(rest), 1.0)
        for one in it["clearances"]:
            key = *ends, one["kind"], part_of(one["male"]), part_of(one["female"])
            least(said, key, one["nominal_mm"], one["worst_mm"])
    for key in sorted({*said, *chains}):
        (drawn_mm, worst_mm), theirs = chains.get(key, (None, None)), said.get(key, (None, None))
        kept.hold(f"{what}: {' '.join(key)}", theirs[0], drawn_mm, 1.0)
        kept.hold(f"{what}: {' '.join(key)} at worst", theirs[1], worst_mm, 1.0)
    ink = rooms.ink(drawn) or {}
    said = {it["part"]: it["ml"] for it in (found["ink"] or {}).get("stands_in", [])}
    kept.hold(f"{what}: ink", (found["ink"] or {}).get("ml"), sum(ink.values()) if ink else None)
    for part in sorted({*ink, *said}):
        kept.hold(f"{what}: ink in {part}", said.get(part), ink.get(part), ink.get(part))
    sealed = found["air"] and found["air"]["sealed_by"]
    air = found["air"]["volume_mm3"] if sealed else None
    kept.hold(f"{what}: air", air, rooms.air(drawn))


def let_go(rest):
    """How far a joint's thread comes out; threads that never reach each other tell of nothing."""
    found = travel(rest)
    return found if found and found > 0.0 else None


def least(known, key, drawn_mm, worst_mm):
    """Of several places of two parts, the least as drawn and the least at worst."""
    before = known.get(key, (drawn_mm, worst_mm))
    known[key] = min(before[0], drawn_mm), min(before[1], worst_mm)


def part_of(place):
    """The part that a place is on: `the point of cap's 12.20 drill`, `nib-unit at 30.7`."""
    return re.match(r"(?:the point of )?([a-z0-9-]+?)(?:'s | at )", place)[1]


# One function a figure, each in a process of its own; what takes longest first.
FIGURES = [
    made_up_pens, made_pens, made_up_sides, made_up_volumes, walls.of_examples, walls.made_up_parts, pens, volumes,
    calipers.limits,
]


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS, needed=False))
