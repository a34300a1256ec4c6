"""Reckons what designs come to once more, from their text, and holds `quillet measure` against it.

    figures.py QUILLET [--venv FOLDER]

QUILLET is the program to check. The reader, the outlines, the threads and the sums are those of the
folder `reckoned` beside this file; nothing of the program's own shapes is used. One function a
figure, listed in FIGURES. With --venv the pinned package of figures-requirements.txt is installed
into that environment first; what needs it is skipped with a line where it cannot be had. Prints how
many figures were compared and how many differ by more than 1e-6; ends 1 where one does.
"""

import json
import random
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

from reckoned import made_up, step
from reckoned.language import File, NotRead
from reckoned.solid import Solid

HERE = Path(__file__).resolve().parent
EXAMPLES = HERE.parent.parent / "examples"
PINS = HERE / "figures-requirements.txt"
WITHIN = 1e-6
RANDOM_PARTS = 120
RANDOM_SOLIDS = 40


class Kept:
    """What was compared, and what of it differs."""

    def __init__(self, program):
        self.program, self.compared, self.wrong = program, 0, []

    def measured(self, path):
        """What the program says of a file; a design with errors is measured too."""
        words = [self.program, "measure", "--format", "json", str(path)]
        got = subprocess.run(words, capture_output=True, text=True)
        if got.returncode not in (0, 1):
            raise SystemExit(f"quillet measure {path}: {got.stderr}")
        return json.loads(got.stdout)

    def hold(self, what, found, wanted, within=WITHIN):
        """Holds a figure of the program against its reckoning."""
        self.compared += 1
        if found is None or not abs(found - wanted) <= within * max(abs(wanted), 1.0):
            self.wrong.append(f"{what}: {found}, reckoned {wanted:.9g}")


def main(arguments):
    if len(arguments) not in (1, 3) or (len(arguments) == 3 and arguments[1] != "--venv"):
        print(__doc__)
        return 2
    program = str(Path(arguments[0]).resolve())
    if len(arguments) == 3:
        return in_environment(program, Path(arguments[2]))
    kept = Kept(program)
    for figure in FIGURES:
        figure(kept)
    print(f"figures: {kept.compared} figures, {len(kept.wrong)} differ")
    for line in kept.wrong:
        print(f"  {line}")
    return 1 if kept.wrong else 0


def in_environment(program, folder):
    """Installs the pinned package into an environment and runs this file there."""
    python = folder / "bin" / "python"
    try:
        if not python.exists():
            venv.create(folder, with_pip=True)
        pip = [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r", PINS]
        subprocess.run(pip, check=True, capture_output=True)
    except (OSError, subprocess.CalledProcessError):
        # The sums need no package; the solids say that they are skipped.
        python = sys.executable
    return subprocess.run([python, __file__, program]).returncode


def examples():
    """The shipped designs that have parts to cut."""
    for path in sorted(EXAMPLES.glob("*.quillet")):
        yield path, File(path)


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
    for path, design in examples():
        if any(not part.bought for part in design.parts.values()):
            hold_volumes(kept, path, design)


def made_up_volumes(kept):
    """The same of parts made up at random, and the volume of their STEP solids."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "parts.quillet"
        path.write_text(made_up.parts(random.Random(20), RANDOM_PARTS), encoding="utf-8")
        hold_volumes(kept, path, File(path))
        if not step.at_hand():
            print("skipped: STEP solids need the package of figures-requirements.txt")
            return
        for found in kept.measured(path)["parts"][:RANDOM_SOLIDS]:
            name = found["name"]
            out = Path(folder) / f"{name}.step"
            words = [kept.program, "solid", str(path), "--part", name, "-o", str(out)]
            subprocess.run(words, check=True, capture_output=True)
            kept.hold(f"STEP of {name}: volume", step.volume(out), found["volume_mm3"])


def hold_volumes(kept, path, design):
    for found, solid in parts_of(kept, path, design):
        volume, centroid = solid.volume()
        what = f"{path.name}: {found['name']}"
        kept.hold(f"{what}: volume", found["volume_mm3"], volume)
        kept.hold(f"{what}: centroid", found["centroid_mm"], centroid)


# One function a figure.
FIGURES = [volumes, made_up_volumes]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
