"""Pens put together and in colour, as a CAD kernel and a mesh library read them; drawings at true size."""

import json
import math

import step

PENS = ("avocet", "curlew", "dunlin", "godwit", "heron", "whimbrel")
# Colours as the files write them: reed of the Saltings bench, and what is bought (in the manual).
REED, BOUGHT = (0x6D, 0x8A, 0x34), (0xA9, 0xB1, 0xB4)


def colours(check, occ):
    """Every body of every pen has a colour; together they are what `quillet measure` says."""
    if not occ:
        return
    for pen in PENS:
        path = check.folder / f"{pen}-colours.step"
        source = check.examples / f"{pen}.quillet"
        check.run("solid", source, "--pen", pen, "--with-bought", "-o", path)
        found = step.looks(path)
        bare = [volume for volume, colour in found if colour is None]
        check.hold(not bare, f"{pen}: {len(bare)} of {len(found)} bodies without a colour")
        if pen != "heron":  # whose file has a second pen
            own = check.folder / f"{pen}-own.step"
            check.run("solid", source, "--pen", pen, "-o", own)
            measured = json.loads(check.run("measure", source, "--format", "json"))["parts"]
            whole = sum(part["volume_mm3"] for part in measured if not part["bought"])
            off = sum(volume for volume, _ in step.looks(own)) / whole - 1
            check.hold(abs(off) < 1e-6, f"{pen}: bodies off by {off} of what its parts hold")
        if pen == "heron":
            seen = sorted(tuple(round(255 * it) for it in colour) for _, colour in found)
            check.hold(seen == [REED] * 3 + [BOUGHT] * 2, f"heron: colours {seen}")
        if pen == "avocet":  # its barrel is of three pieces, one with glue round its spigot
            check.hold(len(found) == 8, f"avocet: {len(found)} bodies")


def rings(check, occ):
    """An O-ring is a body of the volume of its torus (Pappus), as bought and squeezed into its groove."""
    if not occ:
        return
    for pen, inside, cord in (("dunlin", 6.9, 1.0), ("whimbrel", 8.5, 1.0)):
        torus = math.pi**2 / 4 * cord**2 * (inside + cord)
        for state in ([], ["--assembled"], ["--assembled=uncapped"]):
            path = check.folder / f"{pen}-rings.step"
            check.run("solid", check.examples / f"{pen}.quillet", *state, "--with-bought", "-o", path)
            volumes = [volume for volume, _ in step.looks(path)]
            near = min(abs(volume / torus - 1) for volume in volumes)
            check.hold(near < 1e-6, f"{pen} {state}: no body of {torus} mm3, nearest off by {near}")


def flats(check, trimesh):
    """Parts with flats, and nothing else that no lathe turns: their meshes are closed and hold what is left."""
    if not trimesh:
        return
    for pen, names in (("dotterel", ("cap", "barrel")), ("snipe", ("cap",)), ("sandpiper", ("barrel",))):
        source = check.examples / "more" / f"{pen}.quillet"
        measured = json.loads(check.run("measure", source, "--format", "json"))["parts"]
        volumes = {part["name"]: part["volume_mm3"] for part in measured}
        for name in names:
            for form, tolerance in (("stl", 0.05), ("stl", 0.01), ("3mf", 0.01)):
                path = check.folder / f"{pen}-{name}.{form}"
                check.run("solid", source, "--part", name, "--tolerance", tolerance, "-o", path)
                mesh = trimesh.load(path, force="mesh")
                closed = mesh.is_watertight and mesh.is_winding_consistent
                check.hold(closed, f"{path.name}: the mesh is not closed at {tolerance}")
                off, most = mesh.volume - volumes[name], mesh.area * tolerance / 3
                check.hold(abs(off) < most, f"{path.name}: volume off by {off} of {most} at {tolerance}")


def meshes(check, trimesh):
    """Pens put together, in each way they are held: closed, facing outwards."""
    if not trimesh:
        return
    for pen in PENS:
        for state in ("capped", "uncapped"):
            path = check.folder / f"{pen}-{state}.stl"
            source = check.examples / f"{pen}.quillet"
            check.run("solid", source, "--pen", pen, f"--assembled={state}", "--with-bought", "-o", path)
            mesh = trimesh.load(path, force="mesh")
            closed = mesh.is_watertight and mesh.is_winding_consistent and mesh.volume > 0
            check.hold(closed, f"{path.name}: the mesh is not closed")


def true_size(check, ezdxf):
    """Parts as DXF: the outline as long as the part, whatever the scale on paper; millimetres; the bare
    profile one line from axis to axis."""
    if not ezdxf:
        return
    from ezdxf import bbox

    for part in check.parts:
        name, length = part["name"], part["length_mm"]
        document = ezdxf.readfile(check.make("draw", f"{name}-true.dxf", "--part", name))
        outline = document.modelspace().query('*[layer=="OUTLINE"]')
        wide = [bbox.extents([it], fast=False).size.x for it in outline]
        near = min(abs(it - length) for it in wide)
        check.hold(near < 0.01, f"{name}.dxf: no outline is {length} long")
        check.hold(document.units == 4, f"{name}.dxf: units {document.units}, not millimetres")
        document = ezdxf.readfile(check.make("draw", f"{name}-profile.dxf", "--part", name, "--profile"))
        faults = document.audit()
        check.hold(not faults.errors and not faults.fixes, f"{name}-profile.dxf: faults")
        lines = list(document.modelspace())
        one = len(lines) == 1 and lines[0].dxftype() == "POLYLINE"
        places = list(lines[0].points()) if one else []
        at = [(round(it.x, 4), round(it.y, 4)) for it in places[:1] + places[-1:]]
        check.hold(at == [(0, 0), (length, 0)], f"{name}-profile.dxf: {len(lines)} entities, ends {at}")
