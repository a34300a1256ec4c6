"""Checks what holds whole joints, those of `examples/more` and of `joints.quillet`, by other ways.

    joints.py FIGURES [--venv FOLDER]

FIGURES is what the example `holds` of quillet-model prints of those files. The sizes that go in are read here
from the pens' own text; the rings, beams and magnets are those of `mechanics.py`. Every joint that is told in
newtons has to be one of these, and each of these has to be told. Ends as `mechanics.py` does.

What is compared:
  snipe               six cantilevers, bent by double integration of their moment; 1e-6
  bittern, drawn      magnets on one axis, Bessel functions over the gap and without it (1e-4); pairs in pockets
                      each by itself
  too-tight, banded   Lamé's equation as a boundary value problem, over the length that lies near; 1e-6
  sealed              Lindley's load on the cord as the stretch has thinned it; 1e-9
  unslit              beam elements for both rings; 1e-4
"""

import math
import re
import sys
from pathlib import Path

import mechanics
from packages import begin, wanted

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
PINS = HERE / "mechanics-requirements.txt"
FRICTION = 0.25


def main(given):
    if wanted("scipy") is None or wanted("magpylib") is None:
        return 0
    told = {}
    for line in Path(given).read_text().splitlines():
        pen, verb, *figures = line.split(",")
        known = [None if it == "-" else float(it) for it in figures]
        if known[0] is not None:
            told[pen, verb] = known
    wrong, compared = [], 0
    for joint, expected in JOINTS.items():
        if joint not in told:
            wrong.append(f"{joint}: not told in newtons")
            continue
        wanted_figures, within = expected()
        for name, found, figure in zip(("hold", "while new", "strain"), told.pop(joint), wanted_figures):
            compared += 1
            agrees = found == figure if None in (found, figure) else abs(found - figure) <= within * figure
            if not agrees:
                wrong.append(f"{joint}, {name}: {found}, {figure} expected")
    wrong += [f"{joint}: told, and reckoned by nobody else" for joint in told]
    print(f"joints: {compared} figures compared, {len(wrong)} differ")
    for line in wrong:
        print(f"  {line}")
    return 1 if wrong else 0


def sizes(file, pattern):
    """The sizes of a part's text, one a group."""
    found = re.search(pattern, (ROOT / file).read_text(), re.S)
    if found is None:
        raise SystemExit(f"{file} has no {pattern}")
    return [float(it) for it in found.groups()]


MADE_UP = "tests/oracles/joints.quillet"
BITTERN = "examples/more/bittern.quillet"
SNIPE = "examples/more/snipe.quillet"


def axial(slope):
    """What of a radial force is felt along the axis, drawn over a slope: balance on a wedge."""
    angle, friction = math.atan(slope), math.atan(FRICTION)
    return math.tan(angle + friction)


def snipe():
    outside, slot, root, count, bore, land = sizes(
        SNIPE, r"part clutch.*?outside dia (\S+).*?slot (\S+) +at 0\.\.(\S+) indexed (\d+).*?bore (\S+) .*?for \S+ at (\S+)"
    )
    top, ridge, behind, foot = sizes(SNIPE, r"at \S+ +dia (\S+)\n +at (\S+) +dia \S+ as ridge\n +at (\S+) +dia (\S+)")
    (modulus,) = sizes(SNIPE, r"material shell.*?modulus (\S+)")
    long, bent = root - land, (top - bore) / 2
    moment, fibre = (it[1] for it in mechanics.finger([(count, outside, bore, slot, 0.0, 0.0)]))
    # The end of a beam held at one end, by its moments: ∫∫ F (L - x) / EI.
    steps = 20000
    width = long / steps
    middles = [(nth + 0.5) * width for nth in range(steps)]
    gives = sum((long - x) ** 2 * width for x in middles) / (1000 * modulus * moment)
    each = bent / gives
    strain = each * long * fibre / (1000 * modulus * moment)
    hold = count * each * axial((top - foot) / 2 / (behind - ridge))
    return (hold, hold, strain), 1e-6


def share(outside, hole, thick, gap):
    """Of a magnet's pull in contact what is left over a gap."""
    import numpy
    from scipy.special import j1

    a, b, end = hole / 2, outside / 2, 4000.0
    panels = round(end * b)
    edges = numpy.linspace(0, end, panels + 1)
    nodes, weights = numpy.polynomial.legendre.leggauss(12)
    middle, half = (edges[1:] + edges[:-1]) / 2, end / panels / 2
    k = (middle[:, None] + half * nodes).ravel()
    each = (b * j1(k * b) - a * j1(k * a)) ** 2 * (1 - numpy.exp(-k * thick)) ** 2 / k
    held = numpy.tile(weights, panels)
    # Beyond the end the faces' oscillations come to their mean, (a + b) / (π k) each.
    contact = half * float(numpy.sum(each * held)) + (a + b) / (math.pi * end)
    return half * float(numpy.sum(each * numpy.exp(-k * gap) * held)) / contact


def bittern():
    thick, outside, pull = sizes(BITTERN, r"bought magnet.*?length (\S+).*?outside dia (\S+).*?pulls (\S+)")
    pockets = re.findall(r"to (\S+) on (\S+) indexed (\S+) takes magnet", (ROOT / BITTERN).read_text())
    (deep, on, count), again = map(lambda it: tuple(map(float, it)), pockets)
    assert (on, count) == again[1:], "the pockets face each other"
    hold = count * pull * share(outside, 0.0, thick, deep + again[0] - 2 * thick)
    return (hold, hold, None), 1e-4


def drawn():
    thick, outside, hole, pull = sizes(
        MADE_UP, r"bought magnet.*?length (\S+).*?outside dia (\S+).*?bore (\S+).*?pulls (\S+)"
    )
    one, other = (sizes(MADE_UP, rf"part {part}.*?bore 14\.1 to (\S+)")[0] for part in ("lid", "case"))
    hold = pull * share(outside, hole, thick, one + other - 2 * thick)
    return (hold, hold, None), 1e-4


def pressed(tenon, bore, ring, hollow, long, outer, inner):
    """Of two rings, each of a modulus in GPa and Poisson's ratio, while they are new."""
    opens, _ = mechanics.ring_under_pressure(tenon / 2, ring / 2, 1000 * outer[0], outer[1], inside=True)
    closes, _ = mechanics.ring_under_pressure(hollow / 2, tenon / 2, 1000 * inner[0], inner[1], inside=False)
    pressure = (tenon - bore) / 2 / (opens - closes)
    return FRICTION * pressure * math.pi * tenon * long


RESIN, BRASS, SHELL = (3.0, 0.35), (100.0, 0.33), (2.35, 0.35)


def too_tight():
    ring, bore = sizes(MADE_UP, r"part tight.*?outside dia (\S+).*?bore (\S+)")
    tenon, long, hollow = sizes(MADE_UP, r"part body.*?tenon (\S+) for (\S+)\n +drill (\S+)")
    new = pressed(tenon, bore, ring, hollow, long, RESIN, RESIN)
    # In plastics half of it is left.
    return (new / 2, new, None), 1e-6


def banded():
    long, ring, bore = sizes(MADE_UP, r"part band.*?length (\S+)\n +outside dia (\S+).*?ream (\S+)")
    tenon, hollow = sizes(MADE_UP, r"part sleeve.*?tenon (\S+) for \S+\n +drill (\S+)")
    new = pressed(tenon, bore, ring, hollow, long, BRASS, RESIN)
    return (new / 2, new, None), 1e-6


def sealed():
    inside, cord = sizes(MADE_UP, r"ring (\S+) by (\S+)")
    (groove,) = sizes(MADE_UP, r"groove (\S+)")
    (bore,) = sizes(MADE_UP, r"part tight.*?bore (\S+)")
    # Its volume stays while its line grows.
    thinned = cord * math.sqrt((inside + cord) / (groove + cord))
    squeezed = 1 - (bore - groove) / 2 / thinned
    load = math.pi * (groove + cord) * cord * 5.5 * (1.25 * squeezed**1.5 + 50 * squeezed**6)
    return (0.3 * load, 0.3 * load, None), 1e-9


def unslit():
    outside, bore, land = sizes(MADE_UP, r"part clutch.*?outside dia (\S+).*?bore (\S+) .*?for \S+ at (\S+)")
    top, ridge, behind, foot = sizes(
        MADE_UP, r"at 3\.6 +dia (\S+)\n +at (\S+) +dia \S+\n +at (\S+) +dia (\S+)\n +at 8"
    )
    (hollow,) = sizes(MADE_UP, r"part ridged.*?drill (\S+)")
    over = top - bore

    def gives(wide, hole, at, material):
        return mechanics.beam_elements((wide + hole) / 4, (wide - hole) / 2, at, 1000 * material[0], material[1])

    outer = gives(outside, bore, land, SHELL)
    inner = gives(top - over, hollow, ridge, RESIN)
    load = over / 2 / (outer + inner)
    hold = math.pi * bore * load * axial((top - foot) / 2 / (behind - ridge))
    return (hold, hold, over / bore), 1e-4


JOINTS = {
    ("snipe", "close"): snipe,
    ("bittern", "close"): bittern,
    ("drawn", "close"): drawn,
    ("too-tight", "close"): too_tight,
    ("banded", "press"): banded,
    ("sealed", "close"): sealed,
    ("unslit", "close"): unslit,
}


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS))
