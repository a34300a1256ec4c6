"""Checks what `quillet spread` tells of pens against the statistics of another package.

    spread.py QUILLET [--venv FOLDER]

QUILLET is the command. With --venv the pinned packages of spread-requirements.txt, beside this file, are
installed into that environment first. Ends 0 when all figures agree, 1 when one does not, 0 with a line that
begins `skipped` where a package cannot be had.

What is compared, for Heron at a bench that keeps what the standard says, its cap drilled to 51.5:
  draws     the distribution of each size over all pens (Kolmogorov and Smirnov): normal, or even between its
            own ends; the standard deviation of those whose hand is known (ISO 2768-1, half of what is kept)
  rank      Spearman's correlation of each measure with the size it is told to come from, squared; and that no
            other size goes with it more
  wilson    the range of each share, by the exact formula of the package
  normal    the share that fails by nib-strikes-cap: Φ of what is left over √Σσ², within four standard errors
  measures  least, mean, most and standard deviation of each measure, of the rows
"""

import csv
import io
import json
import subprocess
import sys
import tempfile
from pathlib import Path

from packages import begin, wanted

HERE = Path(__file__).resolve().parent
PINS = HERE / "spread-requirements.txt"
EXAMPLES = HERE / "../../examples"
CASES = 4000
# Half of what ISO 2768-1 keeps of each, f for lengths and shoulders, m for depths; of the nib by common practice.
KNOWN = {
    "cap's drill to 51.5": 0.15,
    "cap's length of 64": 0.075,
    "barrel's shoulder": 0.05,
    "section's shoulder": 0.05,
    "how far out nib-unit is set": 0.5,
}
# 3.9635 - 2.5 to the cone, of which 0.5 has to be left; the depth, three lengths and the nib.
OVER = 3.9635 - 2.5 - 0.5
SIGMA = (0.15**2 + 3 * 0.05**2 + 0.5**2) ** 0.5


def main(quillet):
    stats = wanted("scipy.stats")
    if stats is None:
        return 0
    told, rows = asked(quillet)
    pen = told["pens"][0]
    checks = [
        draws(stats, rows),
        measures(stats, pen, rows),
        shares(stats, pen),
    ]
    wrong, compared = [], 0
    for check in checks:
        for found, expected, within, what in check:
            compared += 1
            if not abs(found - expected) <= within:
                wrong.append(f"{what}: {found}, {expected} expected")
    print(f"spread: {compared} figures compared, {len(wrong)} differ")
    for line in wrong:
        print(f"  {line}")
    return 1 if wrong or compared < 80 else 0


def asked(quillet):
    """What is told of the pen, and a row a pen made, by column."""
    with tempfile.TemporaryDirectory() as folder:
        for path in EXAMPLES.glob("*.quillet"):
            lines = path.read_text().splitlines(keepends=True)
            kept = [it for it in lines if not it.lstrip().startswith(("keeps ", "caliper "))]
            text = "".join(kept).replace("drill 12.2              to 54", "drill 12.2              to 51.5")
            (Path(folder) / path.name).write_text(text)
        command = [quillet, "spread", "heron.quillet", "--pen", "heron", "--cases", str(CASES)]
        run = lambda form: subprocess.run(
            [*command, "--format", form], cwd=folder, check=True, capture_output=True, text=True
        ).stdout
        told = json.loads(run("json"))
        head, *rows = csv.reader(io.StringIO(run("csv")))
    return told, {name: [row[at] for row in rows] for at, name in enumerate(head)}


def sizes(rows):
    for name, cells in rows.items():
        if name.endswith(" mm over"):
            half = name.startswith("half of ")
            yield name.removeprefix("half of ").removesuffix(" mm over"), half, [float(it) for it in cells]


def draws(stats, rows):
    for name, half, off in sizes(rows):
        normal = stats.kstest(off, "norm", args=(0, stats.tstd(off))).statistic
        low, high = min(off), max(off)
        even = stats.kstest(off, "uniform", args=(low, high - low)).statistic
        yield min(normal, even), 0, 0.01, f"the draws of {name}"
        if name in KNOWN and not half:
            yield stats.tstd(off), KNOWN[name], 0.03 * KNOWN[name], f"the deviation of {name}"
    yield len(KNOWN), len([name for name, *_ in sizes(rows) if name in KNOWN]), 0, "the sizes of the chain"


def measures(stats, pen, rows):
    named = {name: off for name, _, off in sizes(rows)}
    for measure in pen["measures"]:
        heads = [it for it in rows if it == f"{measure['measure']} {measure['unit']}".strip()]
        values = [float(it) for it in rows[heads[0]]]
        what = measure["measure"]
        yield measure["least"], min(values), 2e-6, f"{what}, the least"
        yield measure["most"], max(values), 2e-6, f"{what}, the most"
        yield measure["mean"], stats.tmean(values), 2e-6, f"{what}, the mean"
        yield measure["sd"], stats.tstd(values), 2e-6, f"{what}, the deviation"
        yield sum(measure["bins"]), len(values), 0, f"{what}, the bins"
        cause = measure["most_from"]
        if cause is None or cause["way"] == "either":
            continue
        ranks = {name: stats.spearmanr(off, values).statistic for name, off in named.items()}
        # Two columns of one name are two sizes; the one that goes with it more is meant.
        yield cause["share"], max(it**2 for it in ranks.values()), 1e-4, f"{what}, most from"
        rises = 1 if cause["way"] == "over" else -1
        yield rises * ranks[cause["size"]], cause["share"] ** 0.5, 1e-3, f"{what} from {cause['size']}"


def shares(stats, pen):
    for told in [pen["passing"], *pen["failures"]]:
        exact = stats.binomtest(told["count"], CASES).proportion_ci(0.95, method="wilson")
        name = told.get("rule", "what passes")
        yield told["wilson"][0], exact.low, 2e-6, f"the range of {name}, from"
        yield told["wilson"][1], exact.high, 2e-6, f"the range of {name}, to"
    strikes = [it for it in pen["failures"] if it["rule"] == "nib-strikes-cap"]
    expected = stats.norm.cdf(-OVER / SIGMA)
    error = 4 * (expected * (1 - expected) / CASES) ** 0.5
    yield sum(it["share"] for it in strikes), expected, error, "the share of nib-strikes-cap"


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS))
