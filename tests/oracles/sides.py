"""Checks what flats, side holes and slots leave of a part against Open CASCADE and a quadrature.

    sides.py QUILLET [--venv FOLDER]

QUILLET is the program to check. With --venv the pinned package of assembly-requirements.txt, beside this
file, is installed into that environment first. Ends 0 when all figures agree, 1 when one does not,
0 with a line that begins `skipped` where the package cannot be had.

Each case is a part as text; its volume as `quillet measure` tells it is held against
  Open CASCADE  prisms, lofted pyramids and cylinders cut from revolved solids: 1e-6 of the volume for
                flats; 1e-3 of what is taken for holes and slots, where its trimming is that rough
  quadrature    steps of the angle and of the station, refined until they agree: 1e-6 of the volume
"""

import json
import math
import subprocess
import sys
import tempfile
from pathlib import Path

from packages import begin, lacking

HERE = Path(__file__).resolve().parent
PINS = HERE / "assembly-requirements.txt"


class Case:
    """A part: outside and bore as (station, radius) polylines, and what is cut from its side."""

    def __init__(self, outside, bore, flats=(), openings=()):
        self.outside, self.bore = outside, bore
        self.flats, self.openings = flats, openings

    def text(self):
        length = self.outside[-1][0]
        stations = "\n".join(f"    at {z:g} dia {2 * r:g}" for z, r in self.outside)
        side = "\n".join(f"    {line}" for line in map(said, [*self.flats, *self.openings]))
        bore = "\n".join(
            f"    drill {2 * r:g} through" if through else f"    bore {2 * r:g} to {depth:g}"
            for r, depth, through in self.bore
        )
        return (
            f"part tried from front to back {{\n  blank of acrylic rod 20\n  length {length:g}\n"
            f"  outside {{\n{stations}\n  }}\n  side {{\n{side}\n  }}\n  from front {{\n{bore}\n  }}\n}}\n"
        )

    def radius(self, z):
        for (z0, r0), (z1, r1) in zip(self.outside, self.outside[1:]):
            if z0 <= z <= z1:
                return r0 + (r1 - r0) * (z - z0) / (z1 - z0)
        return 0.0

    def inside(self, z):
        return max((r for r, depth, through in self.bore if through or z <= depth), default=0.0)


def said(cut):
    if cut["what"] == "flat":
        taper = f" to {2 * cut['to']:g}" if cut["to"] != cut["from"] else ""
        words = f"flat across {2 * cut['from']:g}{taper} at {cut['at'][0]:g}..{cut['at'][1]:g}"
    elif cut["what"] == "drill":
        words = f"drill {cut['width']:g}{depth(cut)} at {cut['at']:g}"
    else:
        words = f"slot {cut['width']:g}{depth(cut)} at {cut['at'][0]:g}..{cut['at'][1]:g}"
    return f"{words} indexed {cut['count']} clock {cut.get('clock', 0):g}"


def depth(cut):
    return f" to {cut['deep']:g}" if cut.get("deep") else ""


def flat(at, across, count, clock=0, to=None):
    last = across if to is None else to
    return {"what": "flat", "at": at, "from": across / 2, "to": last / 2, "count": count, "clock": clock}


def drill(width, at, count=1, deep=None, clock=0):
    return {"what": "drill", "at": at, "width": width, "count": count, "deep": deep, "clock": clock}


def slot(width, at, count=1, deep=None, clock=0):
    return {"what": "slot", "at": at, "width": width, "count": count, "deep": deep, "clock": clock}


ROD = [(0, 7), (70, 7)]
CONE = [(0, 7), (50, 6)]
TUBE = [(5, 70, True)]
CASES = {
    "an octagon on a tube": Case(ROD, TUBE, [flat((10, 60), 13.2, 8)]),
    "a roll stop": Case(ROD, [(4, 40, False)], [flat((20, 36), 13, 1, 180)]),
    "six full flats": Case(ROD, TUBE, [flat((10, 60), 12, 6)]),
    "six flats that taper on a cone": Case(CONE, [(4, 50, True)], [flat((0, 50), 13, 6, to=11.8)]),
    "unlike sets on one stretch": Case(
        ROD, TUBE, [flat((10, 60), 13.2, 8), flat((20, 50), 13, 3, 15)]
    ),
    "holes into a bore": Case(ROD, TUBE, openings=[drill(1.5, 30, 4)]),
    "a blind slot and six slots": Case(
        ROD, [(5.95, 20, False)], openings=[slot(2, (40, 56), deep=1), slot(1, (5, 15), 6)]
    ),
    "a slot wider than long": Case(ROD, [(5.95, 30, False)], openings=[slot(4.2, (12, 13.2))]),
    "a hole in a cone": Case(CONE, [(4, 50, True)], openings=[drill(3, 25, 2)]),
    "a hole in a flat": Case(ROD, TUBE, [flat((10, 60), 13.2, 8)], [drill(1.5, 30, 8)]),
}


def main(given):
    if missing := lacking(PINS):
        print(f"skipped: the comparison with Open CASCADE needs {', '.join(missing)}")
        return 0
    wrong, compared = [], 0
    for name, case in CASES.items():
        volume = measured(given, case)
        by_steps = refined(case)
        kernel, taken = by_kernel(case)
        rough = 1e-3 * taken if case.openings else 1e-6 * kernel
        for method, expected, within in [
            ("quadrature", by_steps, 1e-6 * by_steps),
            ("Open CASCADE", kernel, rough),
        ]:
            compared += 1
            if not abs(volume - expected) <= within:
                wrong.append(f"{name}: {volume}, {expected} by {method}")
    print(f"sides: {compared} figures compared, {len(wrong)} differ")
    for line in wrong:
        print(f"  {line}")
    return 1 if wrong else 0


def measured(program, case):
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "tried.quillet"
        file.write_text(case.text())
        answer = subprocess.run(
            [program, "measure", str(file), "--format", "json"], capture_output=True, text=True, check=True
        )
    return json.loads(answer.stdout)["parts"][0]["volume_mm3"]


# --- by steps -----------------------------------------------------------------------------------


def refined(case):
    """Twice as many steps until two agree, and then what their difference foretells."""
    last = steps(case, 100, 720)
    for power in range(1, 5):
        fine = steps(case, 100 * 2**power, 720 * 2**power)
        if abs(fine - last) < 3e-7 * fine:
            return fine + (fine - last) / 3
        last = fine
    return last


def steps(case, along, around):
    import numpy

    stops = {0.0, case.outside[-1][0]}
    stops.update(z for z, _ in case.outside)
    stops.update(depth for _, depth, through in case.bore if not through)
    for cut in [*case.flats, *case.openings]:
        at = cut["at"] if isinstance(cut["at"], tuple) else edges(cut)[:2]
        stops.update(at)
    stops = sorted(stop for stop in stops if 0 <= stop <= case.outside[-1][0])
    angle = 2 * math.pi * (numpy.arange(around) + 0.5) / around
    total = 0.0
    for low, high in zip(stops, stops[1:]):
        share = (numpy.arange(along) + 0.5) / along
        # Thinner towards both ends, where outlines are round.
        places = low + (high - low) * share * share * (3 - 2 * share)
        widths = share * (1 - share)
        widths *= (high - low) / numpy.sum(widths)
        for z, width in zip(places, widths):
            total += width * area(case, z, angle)
    return total


def ways(cut):
    """Where round the part each of a cut's places lies, radians."""
    return [math.radians(cut["clock"] + 360 * nth / cut["count"]) for nth in range(cut["count"])]


def apothems(case, z):
    """Of each flat at a place: how far from the axis, and which way round."""
    for cut in case.flats:
        low, high = cut["at"]
        if low <= z <= high:
            apothem = cut["from"] + (cut["to"] - cut["from"]) * (z - low) / (high - low)
            yield from ((apothem, way) for way in ways(cut))


def under_flats(case, z, angle):
    """The outside at a place, by the angle."""
    import numpy

    r = numpy.full_like(angle, case.radius(z))
    for apothem, way in apothems(case, z):
        cos = numpy.cos(angle - way)
        with numpy.errstate(divide="ignore"):
            r = numpy.minimum(r, numpy.where(cos > 1e-9, apothem / cos, math.inf))
    return r


def area(case, z, angle):
    """Of the section: the disc under its flats less the bore, less each opening by strips."""
    import numpy

    r = under_flats(case, z, angle)
    bore = case.inside(z)
    whole = float(numpy.mean(r * r)) * math.pi - math.pi * bore * bore
    for cut in case.openings:
        whole -= cut["count"] * strip(case, cut, z)
    return whole


def edges(cut):
    if isinstance(cut["at"], tuple):
        return (*cut["at"], cut["width"])
    half = cut["width"] / 2
    return cut["at"] - half, cut["at"] + half, cut["width"]


def strip(case, cut, z, count=400):
    """The area one opening takes of the section, over strips of its half width at a station."""
    import numpy

    low, high, width = edges(cut)
    if not low < z < high:
        return 0.0
    round_end = min(width, high - low) / 2
    near = min(z - low, high - z)
    half = width / 2
    if near < round_end:
        half = half - round_end + math.sqrt(near * (2 * round_end - near))
    turn = math.pi * ((numpy.arange(count) + 0.5) / count - 0.5)
    y, width_of = half * numpy.sin(turn), half * numpy.cos(turn) * math.pi / count
    top = numpy.sqrt(numpy.maximum(case.radius(z) ** 2 - y * y, 0))
    for flat_set in case.flats:
        start, end = flat_set["at"]
        if start <= z <= end:
            apothem = flat_set["from"] + (flat_set["to"] - flat_set["from"]) * (z - start) / (end - start)
            for k in range(flat_set["count"]):
                way = math.radians(flat_set["clock"] + 360 * k / flat_set["count"] - cut["clock"])
                if math.cos(way) > 1e-9:
                    top = numpy.minimum(top, (apothem - y * math.sin(way)) / math.cos(way))
    floor = numpy.sqrt(numpy.maximum(case.inside(z) ** 2 - y * y, 0))
    if cut["deep"]:
        floor = numpy.maximum(floor, highest(case, cut) - cut["deep"])
    return float(numpy.sum(numpy.maximum(top - floor, 0) * width_of))


def highest(case, cut):
    """The outside that a depth is below: a hole's over its middle, a slot's the greatest along it."""
    at = cut["at"]
    return max(map(case.radius, at)) if isinstance(at, tuple) else case.radius(at)


# --- by Open CASCADE ----------------------------------------------------------------------------


def by_kernel(case):
    """The volume, and what is taken of the round part."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    solid = turned(case)
    whole = volume(solid)
    for cut in case.flats:
        solid = BRepAlgoAPI_Cut(solid, beyond(case, cut)).Shape() if cut["count"] < 3 else kept(solid, case, cut)
    for cut in case.openings:
        for clock in ways(cut):
            solid = BRepAlgoAPI_Cut(solid, tool(case, cut, clock)).Shape()
    left = volume(solid)
    return left, whole - left


def volume(shape):
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, found)
    return found.Mass()


def cylinder(radius, low, high, way=(0, 0, 1), origin=None):
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

    place = gp_Pnt(*(origin or (0, 0, low)))
    return BRepPrimAPI_MakeCylinder(gp_Ax2(place, gp_Dir(*way)), radius, high - low).Shape()


def turned(case):
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCone
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

    (low, first), (high, last) = case.outside
    if first == last:
        solid = cylinder(first, low, high)
    else:
        axis = gp_Ax2(gp_Pnt(0, 0, low), gp_Dir(0, 0, 1))
        solid = BRepPrimAPI_MakeCone(axis, first, last, high - low).Shape()
    for radius, depth_mm, through in case.bore:
        end = high + 1 if through else depth_mm
        solid = BRepAlgoAPI_Cut(solid, cylinder(radius, -1, end)).Shape()
    return solid


def polygon(cut, apothem, z):
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakePolygon
    from OCP.gp import gp_Pnt

    corner = apothem / math.cos(math.pi / cut["count"])
    wire = BRepBuilderAPI_MakePolygon()
    for k in range(cut["count"]):
        turn = math.radians(cut["clock"]) + 2 * math.pi * (k + 0.5) / cut["count"]
        wire.Add(gp_Pnt(corner * math.cos(turn), corner * math.sin(turn), z))
    wire.Close()
    return wire.Wire()


def kept(solid, case, cut):
    """The part with everything outside a pyramid's frustum gone on a stretch."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
    from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections

    low, high = cut["at"]
    loft = BRepOffsetAPI_ThruSections(True, True)
    loft.AddWire(polygon(cut, cut["from"], low))
    loft.AddWire(polygon(cut, cut["to"], high))
    stretch = cylinder(20, low, high)
    inside = BRepAlgoAPI_Common(BRepAlgoAPI_Common(solid, stretch).Shape(), loft.Shape()).Shape()
    outside = BRepAlgoAPI_Cut(solid, stretch).Shape()
    return BRepAlgoAPI_Fuse(outside, inside).Shape() if volume(outside) > 1e-9 else inside


def beyond(case, cut):
    """The half space beyond one flat, on its stretch."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.gp import gp_Pnt

    low, high = cut["at"]
    box = BRepPrimAPI_MakeBox(gp_Pnt(cut["from"], -20, low), gp_Pnt(40, 20, high)).Shape()
    return rotated(box, math.radians(cut["clock"]))


def tool(case, cut, clock):
    """A drill or a cutter's slot, along its radius from its floor outwards."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.gp import gp_Pnt

    low, high, width = edges(cut)
    middle = (low + high) / 2
    floor = case.radius(middle) - cut["deep"] if cut["deep"] else 0.0
    round_end = min(width, high - low) / 2
    shapes = []
    for z in {low + round_end, high - round_end}:
        for y in {width / 2 - round_end, round_end - width / 2}:
            shapes.append(cylinder(round_end, floor, 20, (1, 0, 0), (floor, y, z)))
    if high - low > width:
        corners = (gp_Pnt(floor, -width / 2, low + round_end), gp_Pnt(20, width / 2, high - round_end))
        shapes.append(BRepPrimAPI_MakeBox(*corners).Shape())
    elif width > high - low:
        y = width / 2 - round_end
        shapes.append(BRepPrimAPI_MakeBox(gp_Pnt(floor, -y, low), gp_Pnt(20, y, high)).Shape())
    whole = shapes[0]
    for shape in shapes[1:]:
        whole = BRepAlgoAPI_Fuse(whole, shape).Shape()
    return rotated(whole, clock)


def rotated(shape, angle):
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
    from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Trsf

    move = gp_Trsf()
    move.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), angle)
    return BRepBuilderAPI_Transform(shape, move, True).Shape()


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS))
