"""Checks the drawings, sheets and solids that quillet writes with programs written by others.

    export.py QUILLET [--venv FOLDER]

QUILLET is the program to check. With --venv the pinned packages of export-requirements.txt, beside
this file, are installed into that environment first. Ends 0 when all is well, 1 when something is
not; a line that begins `skipped` says what could not be checked for want of a tool.

  Open CASCADE    every part's STEP: one valid solid, volume within 1e-9 of `quillet measure`
                  every pen's STEP: as many valid solids as products
                  every body's colour; a stack's pieces as bodies that fill its part
  faceted.py      parts with flats as STEP: valid, closed, volume within 1e-6 of `quillet measure`,
                  between planes and cylinders within 1e-9; 40 of them drawn at random
  trimesh         every pen put together, as it is held: closed, facing outwards
                  every part's STL and 3MF: closed, facing outwards, volume within the tolerance;
                  so those of parts with flats
  lib3mf          the 3MF of the pen read without a warning, one object a part
  ezdxf           every part's DXF read and audited without a fault, at true size, in millimetres;
                  its profile one line from axis to axis
  poppler         PDF pages of the paper's size; check lines of 100.0 mm both ways
  sheet.py        the sheets read back, measured, printed by a browser, in grey
  hatched.py      what the pictures of the holdings hatch, revolved, against the volume turned off
  Chromium        the sheet at 390 px and at A4's width: nothing wider than the page, console silent
"""

import json
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import bodies
import faceted
import hatched
import sheet
import step
from packages import begin, wanted

HERE = Path(__file__).resolve().parent
EXAMPLES = HERE.parent.parent / "examples"
PINS = HERE / "export-requirements.txt"
TOLERANCE_MM = 0.01


def main(given):
    with tempfile.TemporaryDirectory() as folder:
        check = Check(Path(given), Path(folder))
        for looked_at in (check.solids, check.pens, check.bodies, check.package, check.drawings, check.paper, check.sheet, check.page):
            looked_at()
    print(f"export: {check.held} held, {len(check.wrong)} not")
    for line in check.wrong:
        print(f"  {line}")
    return 1 if check.wrong else 0


def has(program, what):
    if shutil.which(program):
        return True
    print(f"skipped: {what} needs {program}")
    return False


class Check:
    """Asks the program for files and keeps count of what is wrong with them."""

    def __init__(self, program, folder):
        self.program, self.folder, self.examples = program, folder, EXAMPLES
        self.held, self.wrong = 0, []
        got = self.run("measure", EXAMPLES / "heron.quillet", "--format", "json")
        self.parts = [part for part in json.loads(got)["parts"] if not part["bought"]]

    def run(self, *words):
        got = subprocess.run([self.program, *map(str, words)], capture_output=True, text=True)
        if got.returncode != 0:
            raise SystemExit(f"quillet {words[0]} failed: {got.stderr}")
        return got.stdout

    def told(self, *words, aside=False):
        """What it answers, or what it says aside; whether it finds something is not asked."""
        got = subprocess.run([self.program, *map(str, words)], capture_output=True, text=True)
        return got.stderr if aside else got.stdout

    def hold(self, fine, what):
        if fine:
            self.held += 1
        else:
            self.wrong.append(what)

    def make(self, command, name, *more):
        path = self.folder / name
        self.run(command, EXAMPLES / "heron.quillet", "--pen", "heron", *more, "-o", path)
        return path

    def example(self, pen):
        path = EXAMPLES / f"{pen}.quillet"
        return path if path.exists() else EXAMPLES / "more" / path.name

    def sheet_of(self, pen, name, *more):
        path = self.folder / name
        self.run("sheet", self.example(pen), "--pen", pen, *more, "-o", path)
        return path

    def solids(self):
        occ, trimesh = wanted("OCP.STEPControl"), wanted("trimesh")
        for part in self.parts:
            name, volume = part["name"], part["volume_mm3"]
            if occ:
                path = self.make("solid", f"{name}.step", "--part", name)
                count, valid, found = step.read(path)
                self.hold(count == 1 and valid, f"{name}.step: {count} solids, valid {valid}")
                off = found / volume - 1
                self.hold(abs(off) < 1e-9, f"{name}.step: volume off by {off}")
            for form in ("stl", "3mf") if trimesh else ():
                path = self.make("solid", f"{name}.{form}", "--part", name, "--tolerance", TOLERANCE_MM)
                mesh = trimesh.load(path, force="mesh")
                closed = mesh.is_watertight and mesh.is_winding_consistent
                self.hold(closed, f"{name}.{form}: the mesh is not closed")
                off = mesh.volume - volume
                most = mesh.area * TOLERANCE_MM
                self.hold(-most < off < most, f"{name}.{form}: volume off by {off} of {most}")

    def pens(self):
        """Every example's parts together: as many valid solids as products."""
        if not wanted("OCP.STEPControl"):
            return
        for pen in ("avocet", "curlew", "dunlin", "godwit", "heron", "whimbrel"):
            path = self.folder / f"{pen}-all.step"
            self.run("solid", EXAMPLES / f"{pen}.quillet", "-o", path)
            count, valid, volume = step.read(path)
            products = path.read_text().count("=PRODUCT(")
            fine = valid and count == products and volume > 0
            self.hold(fine, f"{path.name}: {count} solids of {products} products, valid {valid}")

    def bodies(self):
        bodies.colours(self, wanted("OCP.STEPCAFControl"))
        bodies.rings(self, wanted("OCP.STEPCAFControl"))
        bodies.meshes(self, wanted("trimesh"))
        bodies.flats(self, wanted("trimesh"))
        faceted.faceted(self, wanted("OCP.STEPControl"))
        faceted.shipped(self, wanted("OCP.STEPControl"))
        bodies.true_size(self, wanted("ezdxf"))

    def package(self):
        lib3mf = wanted("lib3mf")
        if not lib3mf:
            return
        path = self.make("solid", "pen.3mf")
        model = lib3mf.get_wrapper().CreateModel()
        reader = model.QueryReader("3mf")
        reader.SetStrictModeActive(True)
        reader.ReadFromFile(str(path))
        self.hold(reader.GetWarningCount() == 0, "pen.3mf: lib3mf has warnings")
        objects, count = model.GetMeshObjects(), 0
        while objects.MoveNext():
            found = objects.GetCurrentMeshObject()
            self.hold(found.IsManifoldAndOriented(), f"pen.3mf: {found.GetName()} is not oriented")
            count += 1
        self.hold(count == len(self.parts), f"pen.3mf: {count} objects")
        # What a relationship is written with (ISO/IEC 29500-2, open packaging conventions).
        with zipfile.ZipFile(path) as package:
            for it in ElementTree.fromstring(package.read("_rels/.rels")):
                self.hold(set(it.attrib) == {"Target", "Id", "Type"}, f"pen.3mf: a relationship of {set(it.attrib)}")

    def drawings(self):
        ezdxf = wanted("ezdxf")
        if not ezdxf:
            return
        for more in [("--part", part["name"]) for part in self.parts] + [("--assembled",)]:
            path = self.make("draw", f"{more[-1].strip('-')}.dxf", *more)
            document = ezdxf.readfile(path)
            audit = document.audit()
            faults = len(audit.errors) + len(audit.fixes)
            self.hold(faults == 0, f"{path.name}: {faults} faults found by the audit")
            self.hold(document.dxfversion == "AC1009", f"{path.name}: {document.dxfversion}")
            units = document.header.get("$INSUNITS")
            self.hold(units == 4, f"{path.name}: units {units}, not millimetres")
            self.hold(len(document.modelspace()) > 100, f"{path.name}: nearly empty")

    def paper(self):
        numpy, pillow = wanted("numpy"), wanted("PIL.Image")
        if not (numpy and pillow and has("pdftoppm", "the scale of PDFs")):
            return
        for paper, (long, short) in {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}.items():
            path = self.make("draw", f"{paper}.pdf", "--paper", paper)
            about = subprocess.run(["pdfinfo", path], capture_output=True, text=True).stdout
            size = next(line for line in about.splitlines() if line.startswith("Page size"))
            width, height = (float(size.split()[at]) * 25.4 / 72 for at in (2, 4))
            fits = abs(width - long) < 0.01 and abs(height - short) < 0.01
            self.hold(fits, f"{path.name}: pages of {width} by {height} mm")
            # 254 dots an inch are ten a millimetre.
            picture = self.folder / paper
            subprocess.run(["pdftoppm", "-r", "254", "-gray", "-singlefile", path, picture], check=True)
            dark = numpy.asarray(pillow.open(f"{picture}.pgm")) < 128
            for axis, lines in (("across", dark), ("down", dark.T)):
                longest = max(run(line) for line in lines[100:400])
                # The frame is longer than the check line; the line's own width is at its ends.
                off = min(abs(found - 1002) for found in runs_near(lines, 1002))
                self.hold(off <= 3, f"{path.name}: no check line of 100 mm {axis} (longest {longest})")

    def sheet(self):
        sheet.sheet(self, wanted("numpy"), wanted("PIL.Image"))
        hatched.holdings(self)

    def page(self):
        if not has("chromium", "the sheet in a browser"):
            return
        sheet = self.make("sheet", "sheet.html")
        for width in (390, 794):
            frame = self.folder / f"at{width}.html"
            frame.write_text(FRAME.replace("WIDTH", str(width)))
            flags = "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-sync \
                     --disable-background-networking --disable-component-update \
                     --allow-file-access-from-files --enable-logging=stderr --virtual-time-budget=4000"
            got = subprocess.run(
                ["chromium", *flags.split(), "--dump-dom", frame.as_uri()],
                capture_output=True,
                text=True,
            )
            said = [line for line in got.stderr.splitlines() if "CONSOLE" in line]
            self.hold(not said, f"{sheet.name} at {width} px: {said[:1]}")
            self.hold(">fits<" in got.stdout, f"{sheet.name} at {width} px: {got.stdout[-200:]}")


FRAME = """<!doctype html><iframe id="f" src="sheet.html" width="WIDTH" height="900" style="border:0"></iframe>
<output id="o">waiting</output><script>
f.onload = () => {
  const root = f.contentDocument.documentElement;
  o.textContent = root.scrollWidth > root.clientWidth
    ? "wide: " + root.scrollWidth + " in " + root.clientWidth : "fits";
};
</script>"""


def run(line):
    """The longest run of dark dots in a row."""
    longest = now = 0
    for dot in line:
        now = now + 1 if dot else 0
        longest = max(longest, now)
    return longest


def runs_near(lines, wanted):
    """The longest run of each row that has one of about that length."""
    near = [run(line) for line in lines if wanted - 50 < line.sum() < wanted + 900]
    return [found for found in near if abs(found - wanted) < 50] or [0]


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS))
