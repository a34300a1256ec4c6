"""Packages written by others: an environment of their own, or a line that says what is skipped."""

import importlib.metadata
import subprocess
import sys
import venv
from pathlib import Path


def environment(folder, pins, *options):
    """The Python of an environment with the packages of a list; none where they cannot be had.

    The environment is made where it is not there; `options` are for the installer.
    """
    python = folder / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
    install = ["-m", "pip", "install", "--quiet", "--disable-pip-version-check", *options]
    try:
        if not python.exists():
            venv.create(folder, with_pip=True)
        subprocess.run([python, *install, "-r", pins], check=True, capture_output=True)
    except (OSError, subprocess.CalledProcessError):
        return None
    return python


def lacking(pins):
    """Those of a list of pinned packages, `name==version`, that are not here."""
    return [pin for pin in pins.read_text().split() if not installed(*pin.split("=="))]


def installed(package, version):
    try:
        return importlib.metadata.version(package) == version
    except importlib.metadata.PackageNotFoundError:
        return False


def begin(script, arguments, check, pins, *options, needed=True):
    """How `check` of a script ends, which is given the file that the script was, from whatever folder it
    asks; where `--venv FOLDER` comes behind it, in that environment with the packages of a list. Where these
    cannot be had a line says so, and nothing is checked that needs them all."""
    if len(arguments) not in (1, 3) or (len(arguments) == 3 and arguments[1] != "--venv"):
        print(sys.modules["__main__"].__doc__)
        return 2
    given, *named = arguments
    given = str(Path(given).resolve())
    if not named:
        return check(given)
    python = environment(Path(named[1]), pins, *options)
    if python is None and needed:
        print(f"skipped: the packages of {pins.name} could not be installed")
        return 0
    return subprocess.run([python or sys.executable, script, given]).returncode


def wanted(module):
    """A module, or none with a line that says so."""
    try:
        return importlib.import_module(module)
    except ImportError:
        print(f"skipped: what needs the Python package {module}")
        return None
