"""Checks what `quillet thread`, `fit` and `drill` answer against packages written by others.

    standards.py QUILLET [--venv FOLDER]

QUILLET is the program to check. With --venv the pinned packages of standards-requirements.txt, beside
this file, are installed into that environment first (without their dependencies: only tables are read).
Ends 0 when all figures agree, 1 when one does not, 0 with a line that begins `skipped` where a
package cannot be had.

What is compared, with the slips that the sources are known to have:
  pressfit          ISO 286: H5..H11 with shafts d..s, 5..11; none known
  isofits           ISO 286 classes over 3 to 50 mm; K6 over 6 to 10 prints -6 for -7
  screw_thread_lib  limits 6g/6H of M8 to M24, 2A/2B of unified threads; M12 d2 min, 1-8 d2 min
  bd_warehouse      drill sizes (six numbers rounded to 3 decimals) and tap drills (M14, M21, M22)
"""

import csv
import importlib.metadata
import json
import subprocess
import sys
from pathlib import Path

from packages import begin, lacking

HERE = Path(__file__).resolve().parent
PINS = HERE / "standards-requirements.txt"
RANGES = [3, 6, 10, 14, 18, 24, 30, 40, 50]


def main(given):
    if missing := lacking(PINS):
        print(f"skipped: the comparison of standards needs {', '.join(missing)}")
        return 0
    check = Check(given)
    check.pressfit()
    check.isofits()
    check.screw_thread_lib()
    check.bd_warehouse()
    print(f"standards: {check.compared} figures compared, {len(check.wrong)} differ")
    for line in check.wrong:
        print(f"  {line}")
    return 1 if check.wrong else 0


class Check:
    """Asks the program and keeps count of what differs."""

    def __init__(self, program):
        self.program = program
        self.compared = 0
        self.wrong = []
        self.asked = {}

    def ask(self, *question):
        if question not in self.asked:
            got = subprocess.run(
                [self.program, *question, "--format", "json"],
                capture_output=True,
                text=True,
            )
            self.asked[question] = json.loads(got.stdout) if got.returncode == 0 else got.stderr
        return self.asked[question]

    def same(self, what, found, wanted, within=1e-9):
        self.compared += 1
        if not isinstance(found, (int, float)) or abs(found - wanted) > within:
            self.wrong.append(f"{what}: {found}, expected {wanted}")

    def fit(self, size, hole, shaft):
        answer = self.ask("fit", f"{size} {hole}/{shaft}")
        if isinstance(answer, str):
            self.wrong.append(answer.strip())
            return None
        return answer

    def pressfit(self):
        """Every shaft on H holes, at the upper bound of every range."""
        from pressfit import fit

        for size in RANGES:
            for letter in "d e f g h js k m n p s".split():
                for grade in range(5, 12):
                    spec = f"H{grade}/{letter}{grade}"
                    wanted = fit(f"{size} {spec}")
                    found = self.fit(size, f"H{grade}", f"{letter}{grade}")
                    if found is None:
                        continue
                    for side, limits in (
                        ("hole", (wanted.hole_ei_um, wanted.hole_es_um)),
                        ("shaft", (wanted.shaft_ei_um, wanted.shaft_es_um)),
                    ):
                        for key, limit in zip(("lower_um", "upper_um"), limits):
                            self.same(f"pressfit {size} {spec} {side} {key}", found[side][key], limit)
                    for key, limit in enumerate(wanted.clearance_um):
                        self.same(f"pressfit {size} {spec} clearance", found["clearance_um"][key], limit)
                    self.compared += 1
                    if found["kind"] != wanted.kind:
                        self.wrong.append(f"pressfit {size} {spec}: {found['kind']}, expected {wanted.kind}")

    def isofits(self):
        """Every class of the package that is carried here."""
        from data import hole_data, shaft_data

        for side, table in (("hole", hole_data), ("shaft", shaft_data)):
            for name in table:
                letter = name.rstrip("0123456789")
                if letter in ("over", "inc.") or letter.lower() in ("a", "j"):
                    continue
                for at, up_to in enumerate(map(int, table["inc."])):
                    if up_to > 50 or (name == "K6" and up_to == 10):
                        continue
                    upper, lower = map(float, table[name][at].split("\n"))
                    pair = (name, "h6") if side == "hole" else ("H7", name)
                    found = self.fit(up_to, *pair)
                    if found is None:
                        continue
                    # The package prints halves of odd grades rounded to whole micrometres.
                    within = 0.5 if letter.lower() == "js" else 1e-9
                    self.same(f"isofits {up_to} {name} lower", found[side]["lower_um"], lower, within)
                    self.same(f"isofits {up_to} {name} upper", found[side]["upper_um"], upper, within)

    def screw_thread_lib(self):
        """Limits to the package's own rounding: 0.0001 in for inch threads, a micrometre else."""
        from screw_thread_lib.data import ASME_M_6g6H_dict, ASME_UN_2A2B_dict

        keys = {
            "dmin": ("external", "major_mm", 0),
            "dmax": ("external", "major_mm", 1),
            "d2min": ("external", "pitch_mm", 0),
            "d2max": ("external", "pitch_mm", 1),
            "D1min": ("internal", "minor_mm", 0),
            "D1max": ("internal", "minor_mm", 1),
            "D2min": ("internal", "pitch_mm", 0),
            "D2max": ("internal", "pitch_mm", 1),
        }
        slips = {("M12-1.75", "d2min"), ("1-8", "d2min")}
        for table, within in ((ASME_M_6g6H_dict, 0.001), (ASME_UN_2A2B_dict, 1e-6)):
            for name, wanted in table.items():
                designation = name.replace("-", "x") if name.startswith("M") else name + wanted["series"]
                found = self.ask("thread", designation)
                if isinstance(found, str):
                    self.wrong.append(found.strip())
                    continue
                for key, (side, size, limit) in keys.items():
                    if key not in wanted or (name, key) in slips:
                        continue
                    self.same(
                        f"screw_thread_lib {name} {key}",
                        found[side][size][limit],
                        wanted[key] * 25.4,
                        within,
                    )

    def bd_warehouse(self):
        """Drill sizes and the tap drills for soft materials."""
        folder = importlib.metadata.distribution("bd_warehouse").locate_file("bd_warehouse/data")
        for row in rows(folder, "drill_sizes.csv"):
            name = row["Size"].strip()
            question = name if name.startswith("#") else f"letter {name}"
            found = self.ask("drill", question)
            if isinstance(found, str):
                self.wrong.append(found.strip())
                continue
            # Six numbers are printed to three decimals of an inch.
            self.same(f"bd_warehouse drill {name}", found["diameter_mm"], float(row["Diameter"]) * 25.4, 0.0127 + 1e-9)
        # Listed otherwise than in ISO 2306: M14, M21 and M22 are slips, the others take major minus
        # pitch, or round it up, where the standard rounds it down to a stocked drill.
        otherwise = {"M14-2", "M21-2", "M22-2.5", "M4.5-0.75", "M6-0.75", "M7-0.75", "M12-1.75"}
        for row in rows(folder, "tap_hole_sizes.csv"):
            name = row["Size"].strip()
            if not name.startswith("M") or name in otherwise:
                continue
            found = self.ask("thread", name.replace("-", "x"))
            if isinstance(found, str):
                self.wrong.append(found.strip())
                continue
            self.same(f"bd_warehouse tap drill {name}", found["tap_drill"]["standard_mm"], float(row["Soft"]), 1e-9)


def rows(folder, name):
    with open(Path(folder) / name, newline="") as table:
        return list(csv.DictReader(table))


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS, "--no-deps"))
