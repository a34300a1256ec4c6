"""What the pictures of a part's holdings hatch, revolved, is the blank less the part; `export.py` runs it.

  the hatched ground of each picture is read from its SVG: outlines of straight lines above the axis
  an outline turned about the axis holds the integral of π·r² along it
  threads are drawn at their crests: their grooves, by the basic profile of ISO 68-1, are not hatched
  all holdings together take off what the sawn blank holds more than the finished part, to 0.5 %
"""

import json
import math
import re

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
GROUND = re.compile(r'<g class="q-cut-ground".*?</g>', re.S)
UNCUT = re.compile(r'<g class="q-uncut".*?</g>', re.S)
PATH = re.compile(r' d="([^"]*)"')
MOST_OFF = 0.005


def outlines(words):
    """The closed outlines of a path of straight lines: absolute M, L, H, V and Z."""
    found, now, at = [], [], (0.0, 0.0)
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", words):
        figures = [float(it) for it in NUMBER.findall(rest)]
        if letter == "Z":
            found.append(now)
            now = []
            continue
        places = {
            "H": lambda it: [(x, at[1]) for x in it],
            "V": lambda it: [(at[0], y) for y in it],
        }.get(letter, lambda it: list(zip(it[::2], it[1::2])))(figures)
        if letter not in "MLHV":
            raise SystemExit(f"a hatched ground with a curve in it: {letter}")
        now += places
        at = places[-1]
    return found


def revolved(outline, axis):
    """The volume of an outline turned about a level axis."""
    total = 0.0
    for (x1, y1), (x2, y2) in zip(outline, outline[1:] + outline[:1]):
        r1, r2 = axis - y1, axis - y2
        total += (x2 - x1) * (r1 * r1 + r1 * r2 + r2 * r2) / 3
    return abs(math.pi * total)


def hatched(svg, stock_radius):
    """The volume that is hatched: the outline before less the one after, in mm³ of the work."""
    blank = outlines(PATH.findall(UNCUT.search(svg)[0])[0])[0]
    axis, edge = max(y for _, y in blank), min(y for _, y in blank)
    scale = (axis - edge) / stock_radius
    ground = GROUND.search(svg)
    upper = [
        it for path in PATH.findall(ground[0]) for it in outlines(path) if max(y for _, y in it) <= axis + 1e-6
    ]
    before, after = sorted((revolved(it, axis) for it in upper), reverse=True)
    return (before - after) / scale**3


def groove(row):
    """What a thread's grooves hold: a row `DIE M10×0.75 · 0 to 6` or `TAP M13×0.8 · ×3 to 7.5`."""
    major, pitch = (float(it) for it in re.search(r"M([\d.]+)×([\d.]+)", row["size"]).groups())
    begins, ends = re.search(r"(?:([\d.]+) )?to ([\d.]+)", row["reach"]).groups()
    long = float(ends) - float(begins or 0)
    if row["verb"] == "DIE":
        # 17/24 of the height deep, an eighth of it flat at the crest, a sixth at the root.
        deep, wide = 0.61343 * pitch, (7 / 8 + 1 / 6) / 2 * pitch
        return deep * wide * 2 * math.pi * (major / 2 - deep / 2) * long / pitch
    # Five eighths deep, three quarters of the pitch wide at the crests, an eighth at the major.
    deep, wide = 0.54127 * pitch, (3 / 4 + 1 / 8) / 2 * pitch
    return deep * wide * 2 * math.pi * (major / 2 - deep / 2) * long / pitch


def holdings(check):
    """Heron's parts: what all holdings take off, and what the saw left over."""
    heron = json.loads((check.make("sheet", "heron-sheet.json")).read_text())["sheet"]
    measured = {part["name"]: part["volume_mm3"] for part in check.parts}
    for part in heron["parts"]:
        name = part["name"]
        stock, sawn = (float(it) for it in re.search(r"⌀(\S+), sawn (\S+),", part["about"]).groups())
        taken = 0.0
        for number in range(1, len(part["holdings"]) + 1):
            svg = check.make("draw", "holding.svg", "--part", name, "--holding", number).read_text()
            taken += hatched(svg, stock / 2)
        blank = math.pi * stock * stock / 4 * sawn
        rows = [row for it in part["holdings"] for row in it["rows"] if row["verb"] in ("DIE", "TAP")]
        off = (taken + sum(map(groove, rows))) / (blank - measured[name]) - 1
        check.hold(abs(off) < MOST_OFF, f"{name}: hatched {taken:.1f} mm³, off by {100 * off:.2f} %")
