"""The files of a release and their programs, for the tests of both."""

import os
import re
import subprocess
import tarfile
import zipfile
from pathlib import Path

RELEASE = Path(os.environ["RELEASE"]).resolve()
ROOT = Path(__file__).resolve().parents[3]
# Of each program: the archive's name, rust's target, the wheel's platform, the extension's.
TARGETS = [it.split() for it in (ROOT / "editors/release/targets").read_text("utf-8").splitlines() if it[:1] != "#"]


def only(pattern):
    """The one file of the release of that name."""
    found = list(RELEASE.glob(pattern))
    assert len(found) == 1, f"{pattern}: {found}"
    return found[0]


def alone(program, *asked, folder, path="/nowhere"):
    """What a program says where nothing else can be found."""
    env = {"PATH": path, "HOME": str(folder)}
    return subprocess.run([program, *asked], cwd=folder, env=env, capture_output=True, text=True)


def version():
    """The version that the release is of."""
    return re.search(r"quillet-(.*)\.cdx\.json", only("*.cdx.json").name)[1]


def unpacked(name, folder):
    """The folder of the archive for a platform, unpacked."""
    whole = f"quillet-{version()}-{name}"
    archive = only(f"{whole}.*")
    if archive.suffix == ".zip":
        with zipfile.ZipFile(archive) as it:
            it.extractall(folder)
    else:
        with tarfile.open(archive) as it:
            it.extractall(folder)
    return folder / whole
