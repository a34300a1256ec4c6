"""Parts with flats as STEP, read by a CAD kernel: valid, closed, and of the volume that is left of them."""

import json
import math
import random

import step

# Sides of Case are the same as in sides.py: an outside of straight stretches under flats, its volume by steps.
ACCEPTED = 4777.386  # mm3: ⌀14 by 70 over ⌀10, eight flats 13.2 across from 10 to 60

ROD = "at 0 dia 14\nat 70 dia 14"
TUBE = "drill 10 through"
BLIND = "drill 8 to 40"
CASES = {
    "an octagon on a tube": (ROD, TUBE, ["flat across 13.2 at 10..60 indexed 8"]),
    "a roll stop": (ROD, BLIND, ["flat deep 0.5 at 20..36 clock 180"]),
    "two flats": (ROD, BLIND, ["flat across 12 at 20..36 indexed 2 clock 33"]),
    "six full flats to both ends": (ROD, TUBE, ["flat across 12 at 0..70 indexed 6"]),
    "six that meet": (ROD, TUBE, ["flat sharp at 10..60 indexed 6 clock 17"]),
    "a taper on a cylinder": (ROD, TUBE, ["flat across 14 to 12.2 at 5..70 indexed 6 clock 11"]),
    "flats that run out on a cone": ("at 0 dia 12\nat 70 dia 14", TUBE, ["flat across 12.6 at 0..70 indexed 5"]),
    "flats that begin to meet on a cone": ("at 0 dia 14\nat 70 dia 11.6", BLIND, ["flat across 11.5 at 0..66 indexed 8"]),
    "one that tapers on a cone": ("at 0 dia 14\nat 50 dia 12\nat 70 dia 12", BLIND, ["flat across 13 to 10.5 at 4..46 clock 200"]),
    "sharp ones on a dome": (
        "at 0 dia 12\nat 50 dia 14 smooth\nat 60 dia 12 smooth\nat 70 dia 0 dome",
        BLIND,
        ["flat sharp at 5..70 indexed 7 clock 3"],
    ),
    "flats across a belly": (
        "at 0 dia 12\nat 35 dia 14 smooth\nat 70 dia 12 smooth",
        BLIND,
        ["flat across 13.4 at 2..68 indexed 3 clock 40"],
    ),
    "flats across steps": (
        "at 0 dia 12\nat 20 dia 13\nat 40 dia 13.5 step 14\nat 70 dia 14",
        BLIND,
        ["flat across 12.6 at 5..65 indexed 9 clock 8"],
    ),
    "sharp ones across a step": (
        "at 0 dia 12\nat 30 dia 13 step 14\nat 70 dia 13.4",
        BLIND,
        ["flat sharp at 5..65 indexed 8"],
    ),
    "as deep on a bead and a cove": (
        "at 0 dia 13\nat 30 dia 13\nat 34 dia 14 bead 5\nat 40 dia 13 cove 6\nat 70 dia 12 smooth",
        BLIND,
        ["flat deep 0.4 at 20..60 indexed 3 clock 70"],
    ),
    "a bead's flats": (
        "at 0 dia 13\nat 30 dia 13\nat 40 dia 13 bead 12\nat 70 dia 12",
        BLIND,
        ["flat across 13.6 at 25..45 indexed 6"],
    ),
    "unlike sets on one stretch": (ROD, TUBE, ["flat across 13.2 at 10..60 indexed 8", "flat across 13 at 20..50 indexed 3 clock 15"]),
    "unlike sets that cross": (
        "at 0 dia 14\nat 70 dia 13",
        TUBE,
        ["flat across 13.6 to 11.9 at 5..65 indexed 6", "flat across 11.9 to 13.8 at 10..60 indexed 4 clock 7", "flat deep 0.6 at 30..50 clock 100"],
    ),
    "a neck that touches all flats": ("at 0 dia 14\nat 50 dia 14 step 13\nat 70 dia 13", BLIND, ["flat across 13 at 20..50 indexed 8"]),
    "a neck as wide as the corners": (
        "at 0 dia 14\nat 50 dia 14 step 12.8\nat 70 dia 12.8",
        "drill 3 to 40",
        ["flat across 6.4 at 20..50 indexed 3 clock 5"],
    ),
    "unlike sets end to end": (ROD, BLIND, ["flat across 13 at 20..40 indexed 6", "flat across 13 at 40..60 indexed 8"]),
    "like sets end to end": (ROD, BLIND, ["flat across 13 at 20..40 indexed 6", "flat across 13 at 40..60 indexed 6"]),
    "one set inside another": (ROD, BLIND, ["flat across 13 at 20..60 indexed 6", "flat across 12.9 at 20..40 indexed 6 clock 60"]),
    "a waist that just touches": (
        "at 0 dia 14\nat 35 dia 13 smooth\nat 70 dia 14 smooth",
        BLIND,
        ["flat across 13 at 10..60 indexed 4 clock 45"],
    ),
    "a waist that nearly touches": (
        "at 0 dia 14\nat 35 dia 13 smooth\nat 70 dia 14 smooth",
        BLIND,
        ["flat across 13.000002 at 10..60 indexed 4 clock 45"],
    ),
    "a hair of a flat": (ROD, BLIND, ["flat deep 0.000002 at 20..60 indexed 3"]),
    "a hair of a stretch": (ROD, BLIND, ["flat across 13 at 20..20.00001 indexed 3"]),
    "as many as there may be": (ROD, TUBE, ["flat across 13.999 at 20..60 indexed 360"]),
    "flats to the tail": (ROD, BLIND, ["flat across 13 at 40..70 indexed 8 clock 22.5"]),
    "over a thread": (ROD, "thread M10x0.75 inside to 20\ndrill 8 to 40", ["flat across 13 at 30..70 indexed 12"]),
}


def text(outside, bore, flats, length=70):
    block = lambda lines: "\n".join(f"    {line}" for line in lines)
    return (
        f"part tried from front to back {{\n  blank of acrylic rod 20\n  length {length}\n"
        f"  outside {{\n{block(outside.splitlines())}\n  }}\n  side {{\n{block(flats)}\n  }}\n"
        f"  from front {{\n{block(bore.splitlines())}\n  }}\n}}\n"
    )


def drawn(numbers):
    """A part of any outside that is thicker than its bore, under one to three sets of flats."""
    stations = sorted(numbers.sample(range(3, 62), numbers.randint(1, 4)))
    size = lambda: f"{numbers.uniform(12.5, 15):.3f}"
    shape = lambda: numbers.choice(["", " smooth", " smooth", " bead 60", " cove 60", f" step {size()}"])
    outside = [f"at 0 dia {size()}", *(f"at {z} dia {size()}{shape()}" for z in stations)]
    outside.append(numbers.choice([f"at 70 dia {size()}", f"at 70 dia {size()} smooth", "at 70 dia 12.4", "at 70 dia 0 dome"]))
    through = [] if "dome" in outside[-1] else [("drill 9 through", 6)]
    bore, fewest = numbers.choice([*through, (BLIND, 6), ("drill 3 to 40", 3)])
    flats = []
    for _ in range(numbers.choice([1, 1, 2, 3])):
        # What is cut so deep below a dome would reach the axis at its pole.
        low, high = sorted(numbers.sample(range(0, 61 if "dome" in outside[-1] else 71), 2))
        count = numbers.choice([1, 2, 3, 4, 6, 8, 9])
        across = lambda: f"{numbers.uniform(11, 14.5):.2f}"
        kinds = [f"across {across()}", f"across {across()} to {across()}", f"deep {numbers.uniform(0.1, 0.8):.2f}"]
        kind = numbers.choice(kinds + ["sharp"] * (count >= fewest))
        indexed = f" indexed {count}" if count > 1 else ""
        flats.append(f"flat {kind} at {low}..{high}{indexed} clock {numbers.uniform(0, 360):.1f}")
    return "\n".join(outside), bore, flats


def faceted(check, occ, seed=7, count=40):
    if not occ:
        return
    numbers = random.Random(seed)
    cases = {**CASES, **{f"drawn {nth} of seed {seed}": drawn(numbers) for nth in range(count)}}
    wrong = []
    for name, case in cases.items():
        source = check.folder / "tried.quillet"
        source.write_text(text(*case))
        measured = json.loads(check.told("measure", source, "--format", "json"))
        volume = measured["parts"][0]["volume_mm3"]
        if measured["errors"] or volume is None:  # as where a flat reaches the bore
            wrong.append(name)
            continue
        path = check.folder / "tried.step"
        said = check.told("solid", source, "-o", path, aside=True)
        check.hold("without" not in said and "without" not in path.read_text(), f"{name}: {said.strip()}")
        one, valid, found = step.read(path)
        check.hold(one == 1 and valid and step.closed(path), f"{name}: {one} solids, valid {valid}: {case}")
        off = found / volume - 1
        # What is between planes, cylinders and lines is exact; edges that are fitted stray by 1e-5 mm.
        most = 1e-9 if case[0] == ROD and " to " not in case[2][0] else 1e-6
        check.hold(abs(off) < most, f"{name}: volume off by {off}: {case}")
        if name == "an octagon on a tube":
            check.hold(abs(found - ACCEPTED) < 5e-4 and abs(found / octagon() - 1) < 1e-9, f"{name}: {found} mm3")
    few = all(name not in CASES for name in wrong) and len(wrong) <= count / 4
    check.hold(few, f"no parts: {wrong}")


def octagon():
    """⌀14 by 70 over ⌀10, less eight segments of its circle over 50, in closed form."""
    half = math.acos(6.6 / 7)
    segment = 49 * (half - math.sin(half) * math.cos(half))
    return math.pi * (49 - 25) * 70 - 8 * segment * 50


PENS = (
    ("dotterel", ("cap", "barrel"), "--assembled"),
    ("snipe", ("cap",), "--assembled"),
    ("sandpiper", ("barrel",), "--with-bought"),  # which has no cap
)


def shipped(check, occ):
    """The pens that ship with flats: each part's volume, and nothing but what is said left out."""
    if not occ:
        return
    for pen, names, held in PENS:
        source = check.examples / "more" / f"{pen}.quillet"
        measured = json.loads(check.run("measure", source, "--format", "json"))["parts"]
        volumes = {part["name"]: part["volume_mm3"] for part in measured}
        for name in names:
            path = check.folder / f"{pen}-{name}-flats.step"
            check.run("solid", source, "--part", name, "-o", path)
            one, valid, found = step.read(path)
            check.hold(one == 1 and valid and step.closed(path), f"{pen}, {name}: {one} solids, valid {valid}")
            off = found / volumes[name] - 1
            check.hold(abs(off) < 1e-6, f"{pen}, {name}: volume off by {off}")
        path = check.folder / f"{pen}-flats.step"
        check.run("solid", source, "--pen", pen, held, "-o", path)
        count, valid, _ = step.read(path)
        products = path.read_text().count("=PRODUCT(")
        check.hold(valid and count == products, f"{pen}: {count} solids of {products} products, valid {valid}")
