"""What the program says, held against what is reckoned."""

import json
import subprocess
from pathlib import Path

from reckoned.language import File

EXAMPLES = Path(__file__).resolve().parent.parent.parent / "examples"
WITHIN = 1e-6


class Kept:
    """What was compared, and what of it differs."""

    def __init__(self, program):
        self.program, self.compared, self.wrong = program, 0, []

    def measured(self, path, *more):
        """What the program says of a file; a design with errors is measured too."""
        words = [self.program, "measure", *more, "--format", "json", str(path)]
        got = subprocess.run(words, capture_output=True, text=True)
        if got.returncode not in (0, 1):
            raise SystemExit(f"quillet measure {path}: {got.stderr}")
        return json.loads(got.stdout)

    def pitch_limits(self, thread, inside):
        """The limits of a thread's pitch diameter, from the tolerances that standards.py holds; they
        are told to the micrometre, and are kept here from the basic diameter; an inch thread's are what they are."""
        words = [self.program, "thread", thread.designation, "--format", "json"]
        got = json.loads(subprocess.run(words, capture_output=True, text=True, check=True).stdout)
        side = got["internal" if inside else "external"]
        low, high = side["pitch_mm"]
        if not thread.metric:
            return low, high
        crest, basic = (side["minor_mm"][0], got["minor_mm"]) if inside else (side["major_mm"][1], got["major_mm"])
        start = thread.major - 3 / 4 * thread.height + round(crest - basic, 3)
        return (start, start + high - low) if inside else (start - (high - low), start)

    def hold(self, what, found, wanted, scale=None):
        """Holds a figure of the program against its reckoning: relative to that, where no other
        `scale` is given."""
        self.compared += 1
        scale = max(abs(wanted or 0.0), 1.0) if scale is None else scale
        alike = found is None and wanted is None
        if not alike and (found is None or wanted is None or not abs(found - wanted) <= WITHIN * scale):
            wanted = "nothing" if wanted is None else f"{wanted:.9g}"
            self.wrong.append(f"{what}: {found}, reckoned {wanted}")


# A pen of slopes, curves, broken corners, a stack and cavities, drawn for the tests.
EDGES = Path(__file__).resolve().parent / "edges.quillet"


def examples():
    """The shipped designs that have parts to cut, and that of edges."""
    for path in [*sorted(EXAMPLES.glob("*.quillet")), EDGES]:
        yield path, File(path)


def of_other_kinds():
    """Those with cuts from the side, tubes, a mechanism, a stand."""
    for path in sorted((EXAMPLES / "more").glob("*.quillet")):
        yield path, File(path)
