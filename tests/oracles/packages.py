"""Packages written by others: an environment of their own, or a line that says what is skipped."""

import importlib
import subprocess
import sys
import venv


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


def wanted(module):
    """A module, or none with a line that says so."""
    try:
        return importlib.import_module(module)
    except ImportError:
        print(f"skipped: what needs the Python package {module}")
        return None
