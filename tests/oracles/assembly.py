"""Checks what pens weigh, where they balance and how they resist turning against Open CASCADE.

    assembly.py QUILLET [--venv FOLDER] [PEN...]

QUILLET is the program to check; PENs are files, else Heron, Avocet, Dunlin, Curlew, Godwit
and Whimbrel of examples/. With --venv the pinned package of assembly-requirements.txt, beside this file, is
installed into that environment first. Ends 0 when all figures agree within 1e-6 relative, 1 when
one does not, 0 with a line that begins `skipped` where the package cannot be had.

`quillet measure --profiles` prints every part's outlines as lines, arcs of ellipses and Bezier
cubics. Each is closed to the axis, revolved, and measured by Open CASCADE by itself; bores are
subtracted, bodies are put in their places and summed by the parallel axis theorem.
"""

import json
import math
import subprocess
import sys
from pathlib import Path

from packages import environment, lacking

HERE = Path(__file__).resolve().parent
EXAMPLES = HERE.parent.parent / "examples"
PENS = ["heron", "avocet", "dunlin", "curlew", "godwit", "whimbrel"]
WITHIN = 1e-6
SECTORS = 16
PINS = HERE / "assembly-requirements.txt"


def main(arguments):
    if not arguments or arguments[0].startswith("-"):
        print(__doc__)
        return 2
    program, rest = arguments[0], arguments[1:]
    if rest[:1] == ["--venv"] and len(rest) > 1:
        return in_environment(program, Path(rest[1]), rest[2:])
    if missing := lacking(PINS):
        print(f"skipped: the comparison with Open CASCADE needs {', '.join(missing)}")
        return 0
    files = rest or [str(EXAMPLES / f"{pen}.quillet") for pen in PENS]
    wrong, compared = [], 0
    for file in files:
        answer = subprocess.run(
            [program, "measure", file, "--profiles"], capture_output=True, text=True, check=True
        )
        for pen in json.loads(answer.stdout)["pens"]:
            masses = [part_mass(part) for part in pen["parts"]]
            for configuration in pen["configurations"]:
                whole = assembled(masses, configuration)
                compared += compare(pen["name"], configuration, whole, wrong)
    print(f"assembly: {compared} figures compared, {len(wrong)} differ")
    for line in wrong:
        print(f"  {line}")
    return 1 if wrong else 0


def in_environment(program, folder, pens):
    """Runs this script again in a virtual environment with the pinned package."""
    python = environment(folder, PINS)
    if python is None:
        print("skipped: the package for the comparison with Open CASCADE cannot be installed")
        return 0
    return subprocess.run([python, __file__, program, *pens]).returncode


class Mass:
    """Mass, centre, and moments about the axis and about one square to it through the centre."""

    def __init__(self, mass, centre, axial=0.0, transverse=0.0):
        self.mass, self.centre = mass, centre
        self.axial, self.transverse = axial, transverse

    def times(self, factor):
        return Mass(self.mass * factor, self.centre, self.axial * factor, self.transverse * factor)

    def placed(self, place):
        sign = -1.0 if place["reversed"] else 1.0
        centre = place["at_mm"] + sign * self.centre
        return Mass(self.mass, centre, self.axial, self.transverse)


def summed(masses):
    masses = [it for it in masses if it.mass != 0.0]
    mass = sum(it.mass for it in masses)
    if mass == 0.0:
        return Mass(0.0, 0.0)
    centre = sum(it.mass * it.centre for it in masses) / mass
    axial = sum(it.axial for it in masses)
    transverse = sum(it.transverse + it.mass * (it.centre - centre) ** 2 for it in masses)
    return Mass(mass, centre, axial, transverse)


def part_mass(part):
    bodies = []
    for body in part["bodies"]:
        volumes = [revolved(outline) for outline in body["outer"]]
        volumes += [revolved(outline).times(-1.0) for outline in body["inner"]]
        whole = summed(volumes)
        density = body["density_g_cm3"]
        if density is not None:
            factor = density / 1000.0
        else:
            factor = (part["mass_g"] or 0.0) / whole.mass
        bodies.append(whole.times(factor))
    mass = summed(bodies)
    if part["mass_g"] is not None and not part["bodies"]:
        mass = Mass(part["mass_g"], part["balance_mm"] or 0.0)
    elif part["balance_mm"] is not None:
        mass.centre = part["balance_mm"]
    return summed([mass] + [Mass(ring["mass_g"], ring["at_mm"]) for ring in part["rings"]])


def assembled(masses, configuration):
    placed = [
        mass.placed(place)
        for mass, place in zip(masses, configuration["places"])
        if place is not None
    ]
    ink = configuration["ink"]
    return summed(placed + ([Mass(ink["mass_g"], ink["at_mm"])] if ink else []))


def compare(pen, configuration, whole, wrong):
    figures = [
        ("mass_g", whole.mass),
        ("balance_mm", whole.centre),
        ("axial_g_mm2", whole.axial),
        ("transverse_g_mm2", whole.transverse),
    ]
    for key, found in figures:
        ours = configuration[key]
        off = abs(ours / found - 1.0)
        line = f"{pen} {configuration['name']} {key}: {ours!r}, Open CASCADE {found!r} ({off:.1e})"
        print(line)
        if not off <= WITHIN:
            wrong.append(line)
    return len(figures)


def revolved(outline):
    """The volume, centroid and moments at unit density of an outline turned round the axis."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
    from OCP.BRepGProp import BRepGProp
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol
    from OCP.GProp import GProp_GProps
    from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt

    first, last = start_of(outline[0]), end_of(outline[-1])
    ends = [(first[0], 0.0), first], [last, (last[0], 0.0)], [(last[0], 0.0), (first[0], 0.0)]
    edges = [line(*ends[0])] + [edge(piece) for piece in outline] + [line(*it) for it in ends[1:]]
    wire = BRepBuilderAPI_MakeWire()
    for it in edges:
        if it is not None:
            wire.Add(it)
    face = BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()
    # A sixteenth turn: round a whole one the quadrature is good to 1e-5 only. What is measured
    # below is the same for every such sector.
    axes = [gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(*way)) for way in ((1, 0, 0), (0, 1, 0), (0, 0, 1))]
    sector = BRepPrimAPI_MakeRevol(face, axes[2], 2.0 * math.pi / SECTORS).Shape()
    properties = GProp_GProps(gp_Pnt(0, 0, 0))
    BRepGProp.VolumeProperties_s(sector, properties, 1e-11, True, True)
    sign = math.copysign(SECTORS, properties.Mass())
    volume, centre = sign * properties.Mass(), properties.CentreOfMass().Z()
    about_x, about_y, axial = (sign * properties.MomentOfInertia(axis) for axis in axes)
    along = (about_x + about_y - axial) / 2.0
    return Mass(volume, centre, axial, axial / 2.0 + along - volume * centre**2)


def start_of(piece):
    return piece["points"][0] if piece["kind"] == "cubic" else piece["start"]


def end_of(piece):
    return piece["points"][3] if piece["kind"] == "cubic" else piece["end"]


def point(place):
    from OCP.gp import gp_Pnt

    return gp_Pnt(place[1], 0.0, place[0])


def line(start, end):
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge

    if math.dist(start, end) < 1e-9:
        return None
    return BRepBuilderAPI_MakeEdge(point(start), point(end)).Edge()


def edge(piece):
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge

    if piece["kind"] == "line":
        return line(piece["start"], piece["end"])
    curve = bezier(piece) if piece["kind"] == "cubic" else arc(piece)
    return BRepBuilderAPI_MakeEdge(curve).Edge()


def bezier(piece):
    from OCP.Geom import Geom_BezierCurve
    from OCP.TColgp import TColgp_Array1OfPnt

    poles = TColgp_Array1OfPnt(1, 4)
    for index, place in enumerate(piece["points"]):
        poles.SetValue(index + 1, point(place))
    return Geom_BezierCurve(poles)


def arc(piece):
    """The stretch of the ellipse between the ends, above its centre where it is convex."""
    from OCP.Geom import Geom_Ellipse, Geom_TrimmedCurve
    from OCP.gp import gp_Ax2, gp_Dir

    semi_z, semi_r = piece["semi_z"], piece["semi_r"]
    wide = semi_z >= semi_r
    # Angles run from the major axis towards the minor one.
    major = gp_Dir(0, 0, 1) if wide else gp_Dir(1, 0, 0)
    frame = gp_Ax2(point(piece["centre"]), gp_Dir(0, 1, 0) if wide else gp_Dir(0, -1, 0), major)
    ellipse = Geom_Ellipse(frame, max(semi_z, semi_r), min(semi_z, semi_r))
    angles = []
    for place in (piece["start"], piece["end"]):
        across = (place[1] - piece["centre"][1]) / semi_r
        along = (place[0] - piece["centre"][0]) / semi_z
        # The half is known, so that a place on the axis between halves is taken to the right one.
        across = max(across, 0.0) if piece["convex"] else min(across, 0.0)
        angles.append(math.atan2(across, along) if wide else math.atan2(along, across))
    return Geom_TrimmedCurve(ellipse, min(angles), max(angles))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
