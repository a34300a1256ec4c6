"""Reads what `quillet check --format sarif` says by a reader of SARIF 2.1.0 written by others.

    findings.py QUILLET [--venv FOLDER]

QUILLET is the program to check. Of every shipped example, those in folders below too, each finding as the
reader has it (file, line, severity, rule) is held against `--format json`; what the maker accepts has to be
marked as suppressed, and is in neither list. With --venv the pinned package of findings-requirements.txt is
installed into that environment first. Ends 0 when both agree, 1 when they do not, 0 with a line that begins
`skipped` where the package cannot be had.
"""

import json
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

from kept import EXAMPLES
from packages import begin, wanted

PINS = Path(__file__).resolve().parent / "findings-requirements.txt"


def main(program):
    if not wanted("sarif.loader"):
        return 0
    count, wrong = 0, []
    with tempfile.TemporaryDirectory() as folder:
        for path in sorted(EXAMPLES.rglob("*.quillet")):
            read, accepted = as_read(program, path, Path(folder) / f"{path.stem}.sarif")
            told = as_told(program, path)
            count += len(read) + accepted
            if Counter(read) != Counter(told):
                more, less = Counter(read) - Counter(told), Counter(told) - Counter(read)
                wrong.append(f"{path.name}: {sorted(more)} for {sorted(less)}")
    print(f"sarif: {count} results read, {len(wrong)} files differ")
    for line in wrong:
        print(f"  {line}")
    return 1 if wrong or count < 20 else 0


def checked(program, path, form):
    words = [program, "check", "--format", form, path.name]
    found = subprocess.run(words, cwd=path.parent, capture_output=True, text=True)
    if found.returncode not in (0, 1):
        raise SystemExit(f"quillet check {path}: {found.stderr}")
    return found.stdout


def as_read(program, path, out):
    """What the reader has of each result that is not suppressed, and how many are."""
    from sarif import loader

    out.write_text(checked(program, path, "sarif"), encoding="utf-8")
    file = loader.load_sarif_file(str(out))
    results, records = file.get_results(), file.get_records()
    kept = [record for result, record in zip(results, records) if not result.get("suppressions")]
    fields = ("Line", "Severity", "Code")
    # A location is told from the repository's root, a finding's file as it was asked for.
    read = [(Path(it["Location"]).name, *(it[field] for field in fields)) for it in kept]
    return read, len(results) - len(kept)


def as_told(program, path):
    findings = json.loads(checked(program, path, "json"))["findings"]
    return [(Path(it["file"]).name, it["start"]["line"], it["severity"], it["rule"]) for it in findings]


if __name__ == "__main__":
    sys.exit(begin(__file__, sys.argv[1:], main, PINS, needed=False))
