"""Checks the formulas of mechanics against other ways to the same figures.

    mechanics.py FIGURES [--venv FOLDER]

FIGURES is a file of what the example `mechanics` of quillet-standards prints. With --venv the pinned
packages of mechanics-requirements.txt, beside this file, are installed into that environment first. Ends 0
when all figures agree, 1 when one does not, 0 with a line that begins `skipped` where a package
cannot be had.

What is compared:
  shell   beam elements on an elastic foundation, of a tube 60 mm long (within 1e-5)
  press   Lamé's equation of equilibrium in both rings, solved as a boundary value problem (1e-6)
  finger  the sector's moments by adaptive double integration (1e-9)
  magnet  the pull of two magnets by magpylib, meshed; ratios to that at 0.5 mm (1 %), and Bessel
          functions by scipy over a gap (1e-6)
"""

import math
import sys
import warnings
from pathlib import Path

from packages import begin, wanted

HERE = Path(__file__).resolve().parent
PINS = HERE / "mechanics-requirements.txt"


def main(given):
    if wanted("scipy") is None or wanted("magpylib") is None:
        return 0
    warnings.simplefilter("ignore")
    checks = {"shell": shell, "press": press, "finger": finger, "magnet": magnet}
    rows = {name: [] for name in checks}
    for line in Path(given).read_text().splitlines():
        name, *figures = line.split(",")
        rows[name].append([float(figure) for figure in figures])
    wrong, compared = [], 0
    for name, check in checks.items():
        if not rows[name]:
            wrong.append(f"{name}: nothing to compare")
        for found, expected, within, what in check(rows[name]):
            compared += 1
            if not abs(found - expected) <= within * abs(expected):
                wrong.append(f"{name} {what}: {found}, {expected} expected")
    print(f"mechanics: {compared} figures compared, {len(wrong)} differ")
    for line in wrong:
        print(f"  {line}")
    return 1 if wrong else 0


def shell(rows):
    for radius, wall, at, modulus, poisson, found in rows:
        expected = beam_elements(radius, wall, at, 1000 * modulus, poisson)
        yield found, expected, 1e-5, f"r {radius} t {wall} x {at}"


def beam_elements(radius, wall, at, modulus, poisson, length=60, count=6000):
    """How far a beam on an elastic foundation gives under 1 N/mm, by cubic elements."""
    import numpy
    from scipy.sparse import csc_matrix
    from scipy.sparse.linalg import spsolve

    foundation = modulus * wall / radius**2
    bending = modulus * wall**3 / (12 * (1 - poisson**2))
    h = length / count
    stiff = bending / h**3 * numpy.array(
        [
            [12, 6 * h, -12, 6 * h],
            [6 * h, 4 * h * h, -6 * h, 2 * h * h],
            [-12, -6 * h, 12, -6 * h],
            [6 * h, 2 * h * h, -6 * h, 4 * h * h],
        ]
    )
    bedded = foundation * h / 420 * numpy.array(
        [
            [156, 22 * h, 54, -13 * h],
            [22 * h, 4 * h * h, 13 * h, -3 * h * h],
            [54, 13 * h, 156, -22 * h],
            [-13 * h, -3 * h * h, -22 * h, 4 * h * h],
        ]
    )
    element = (stiff + bedded).ravel()
    first = 2 * numpy.arange(count)
    across, down = numpy.meshgrid(range(4), range(4))
    at_rows = (first[:, None] + down.ravel()).ravel()
    at_columns = (first[:, None] + across.ravel()).ravel()
    size = 2 * (count + 1)
    values = numpy.tile(element, count)
    matrix = csc_matrix((values, (at_rows, at_columns)), shape=(size, size))
    load = numpy.zeros(size)
    loaded = 2 * round(at / h)
    load[loaded] = 1
    return spsolve(matrix, load)[loaded]


def press(rows):
    for joint, ring, bore, *elastic, pressure, hoop, strain in rows:
        outer_gpa, inner_gpa, outer_nu, inner_nu, interference = elastic
        # Both rings under 1 MPa; what they move tells the pressure.
        opens, hoop_at_one = ring_under_pressure(joint / 2, ring / 2, 1000 * outer_gpa, outer_nu, inside=True)
        inner = max(bore / 2, 1e-3)
        closes, _ = ring_under_pressure(inner, joint / 2, 1000 * inner_gpa, inner_nu, inside=False)
        expected = interference / 2 / (opens - closes)
        what = f"{joint} in {ring}, bore {bore}"
        yield pressure, expected, 1e-6, what
        yield hoop, expected * hoop_at_one, 1e-6, f"{what}, hoop"
        yield strain, expected * opens / (joint / 2), 1e-6, f"{what}, strain"


def ring_under_pressure(inner, outer, modulus, poisson, inside):
    """How far the wall under 1 MPa moves outward, and its hoop stress: u'' + u'/r - u/r² = 0."""
    import numpy
    from scipy.integrate import solve_bvp

    factor = modulus / (1 - poisson**2)

    def slope(r, u):
        return numpy.vstack([u[1], u[0] / r**2 - u[1] / r])

    def radial(u, r):
        return factor * (u[1] + poisson * u[0] / r)

    def ends(low, high):
        pressed = (-1, 0) if inside else (0, -1)
        return numpy.array([radial(low, inner) - pressed[0], radial(high, outer) - pressed[1]])

    r = numpy.geomspace(inner, outer, 400)
    scale = outer / modulus
    start = numpy.vstack([numpy.full_like(r, scale), numpy.full_like(r, scale / outer)])
    solved = solve_bvp(slope, ends, r, start, tol=1e-9, max_nodes=100000)
    at = 0 if inside else -1
    wall = inner if inside else outer
    u, rate = solved.y[0][at], solved.y[1][at]
    return u, factor * (u / wall + poisson * rate)


def finger(rows):
    from scipy.integrate import dblquad

    for count, outside, bore, slot, moment, fibre in rows:
        outer, inner = outside / 2, bore / 2
        half = math.pi / count - slot / (outer + inner)

        def over(power):
            def cell(r, angle):
                return r * (r * math.cos(angle)) ** power

            return dblquad(cell, -half, half, inner, outer, epsabs=1e-13, epsrel=1e-12)[0]

        area, first, second = (over(power) for power in range(3))
        centroid = first / area
        what = f"{count} of {outside}/{bore}"
        yield moment, second - first * centroid, 1e-9, what
        far = max(outer - centroid, centroid - inner * math.cos(half))
        yield fibre, far, 1e-9, f"{what}, fibre"


def magnet(rows):
    at_half = {tuple(row[:3]): row[4] for row in rows if row[3] == 0.5}
    meshed = {}
    for outside, hole, thick, gap, share in rows:
        size = (outside, hole, thick)
        what = f"{outside}/{hole} by {thick} at {gap}"
        if size not in meshed:
            meshed[size] = pull(*size, 0.5)
        yield share / at_half[size], pull(*size, gap) / meshed[size], 0.01, what
        by_bessel = interaction(*size, gap) / interaction(*size, 0.5)
        yield share / at_half[size], by_bessel, 1e-6, f"{what}, Bessel functions"


def pull(outside, hole, thick, gap):
    """Of two like magnets by magpylib, in newtons; sizes in mm."""
    import magpylib

    def magnet_at(z):
        common = {"polarization": (0, 0, 1.3), "position": (0, 0, z / 1000)}
        if hole:
            sizes = (hole / 2000, outside / 2000, thick / 1000, 0, 360)
            return magpylib.magnet.CylinderSegment(dimension=sizes, **common)
        return magpylib.magnet.Cylinder(dimension=(outside / 1000, thick / 1000), **common)

    return abs(magpylib.getFT(magnet_at(0), magnet_at(thick + gap), meshing=20000)[0][2])


def interaction(outside, hole, thick, gap):
    """∫ [b J1(kb) - a J1(ka)]² e^(-kg) (1 - e^(-kt))² dk/k by Gauss on short panels."""
    import numpy
    from scipy.special import j1

    a, b = hole / 2, outside / 2
    end = 40 / gap
    panels = int(end * b) + 1
    edges = numpy.linspace(0, end, panels + 1)
    nodes, weights = numpy.polynomial.legendre.leggauss(12)
    middle, half = (edges[1:] + edges[:-1]) / 2, (edges[1] - edges[0]) / 2
    k = (middle[:, None] + half * nodes).ravel()
    faces = (b * j1(k * b) - a * j1(k * a)) ** 2
    each = faces * numpy.exp(-k * gap) * (1 - numpy.exp(-k * thick)) ** 2 / k
    return half * float(numpy.sum(each * numpy.tile(weights, panels)))


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS))
