"""What a release holds, and that it works where nothing else is: RELEASE=folder python3 -m unittest.

Made outside: pip installs the wheel, unzip's and tar's formats are read by Python's own library, the list of
components is held against its published schema by `cyclonedx-python-lib` where that is installed.
"""

import email
import json
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
import unittest
import zipfile
from pathlib import Path

from release import RELEASE, ROOT, TARGETS, alone, only, unpacked, version


class Release(unittest.TestCase):
    def setUp(self):
        kept = tempfile.TemporaryDirectory()
        self.addCleanup(kept.cleanup)
        self.folder = Path(kept.name).resolve()
        self.version = version()

    def finds(self, program, path="/nowhere"):
        """A program says its version and finds what is flawed in Knot."""
        said = alone(program, "--version", folder=self.folder, path=path)
        self.assertEqual(said.stdout, f"quillet {self.version}\n")
        for it in (ROOT / "examples").glob("*.quillet"):
            shutil.copy(it, self.folder)
        said = alone(program, "check", "knot.quillet", "--format", "json", folder=self.folder, path=path)
        self.assertEqual(said.returncode, 1, said.stderr)
        rules = {it["rule"] for it in json.loads(said.stdout)["findings"]}
        self.assertIn("thin-wall", rules)

    def test_the_archive(self):
        name = f"quillet-{self.version}-linux-x86_64-gnu"
        with tarfile.open(only(f"{name}.tar.gz")) as tar:
            members = tar.getmembers()
            tar.extractall(self.folder)
        self.assertEqual([it.name for it in members], sorted(it.name for it in members))
        self.assertEqual({(it.uid, it.gid, it.uname, it.mtime) for it in members}, {(0, 0, "", members[0].mtime)})
        self.assertEqual([it.name for it in members if it.mode == 0o755], [f"{name}/quillet"])
        top = {it.name.split("/")[1] for it in members}
        self.assertEqual(top, {"quillet", "LICENSE", "README.md", "THIRD-PARTY", "completions", "man", "examples"})
        within = self.folder / name
        shells = {it.name for it in (within / "completions").iterdir()}
        self.assertEqual(shells, {"quillet.bash", "_quillet", "quillet.fish", "quillet.ps1"})
        self.finds(within / "quillet")
        self.pages(within)
        self.licences(within / "THIRD-PARTY")
        self.completes(within / "completions/quillet.bash")

    def pages(self, within):
        """Each command the program tells of has its page."""
        told = alone(within / "quillet", "--help", folder=self.folder).stdout
        commands = set(re.findall(r"^  ([a-z-]+) {2,}", told, re.MULTILINE)) - {"help"}
        self.assertIn("check", commands)
        pages = {it.stem for it in (within / "man").glob("*.1")}
        self.assertEqual(pages, {"quillet", *(f"quillet-{it}" for it in commands)})

    def licences(self, text):
        """Each component is named with its licence, and the texts of the two that nearly all bear are there. The
        list is of every program of the release: what one for another system is made with, its archive names."""
        own = text.read_text("utf-8")
        said = own + "".join(self.unlike(text))
        for it in self.components("pkg:cargo/"):
            self.assertIn(f"\n{it['name']} {it['version']}: {it['licenses'][0]['expression']}\n", said)
        self.assertIn("Permission is hereby granted, free of charge", own)
        self.assertIn("TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION", own)

    def unlike(self, text):
        """What the archives for other systems say of licences."""
        for name, *_ in TARGETS:
            if list(RELEASE.glob(f"quillet-{self.version}-{name}.*")):
                within = unpacked(name, self.folder / "others")
                yield (within / text.name).read_text("utf-8")

    def completes(self, script):
        """Bash itself completes a command and an option by the script."""
        ask = 'source "$1"; COMP_WORDS=($2); COMP_CWORD=$3; _quillet quillet "${COMP_WORDS[$3]}" x; echo "${COMPREPLY[*]}"'
        for words, want in (("quillet che", "check"), ("quillet check --form", "--format")):
            at = str(len(words.split()) - 1)
            said = subprocess.run(["bash", "-c", ask, "bash", script, words, at], capture_output=True, text=True)
            self.assertEqual(said.stdout, f"{want}\n", said.stderr)

    def components(self, begins=""):
        found = json.loads(only("*.cdx.json").read_text("utf-8"))["components"]
        return [it for it in found if it["purl"].startswith(begins)]

    def test_the_wheel(self):
        wheel = only("*-manylinux*_x86_64.whl")
        with zipfile.ZipFile(wheel) as it:
            info = f"quillet-{self.version}.dist-info"
            said = email.message_from_bytes(it.read(f"{info}/METADATA"))
            tag = email.message_from_bytes(it.read(f"{info}/WHEEL"))["Tag"]
        self.assertEqual((said["Name"], said["Version"]), ("quillet", self.version))
        self.assertEqual(wheel.name, f"quillet-{self.version}-{tag}.whl")
        venv = self.folder / "venv"
        subprocess.run([sys.executable, "-m", "venv", venv], check=True)
        pip = [venv / "bin/pip", "install", "--quiet", "--no-index", "--disable-pip-version-check", wheel]
        subprocess.run(pip, check=True)
        self.finds(venv / "bin/quillet", path=str(venv / "bin"))

    def test_the_extension_with_the_program_in_it(self):
        with zipfile.ZipFile(only("*-linux-x64.vsix")) as it:
            it.extractall(self.folder)
            mode = it.getinfo("extension/server/quillet").external_attr >> 16
            self.assertIn('TargetPlatform="linux-x64"', it.read("extension.vsixmanifest").decode())
        self.assertEqual(mode & 0o777, 0o755, "it may be run")
        program = self.folder / "extension/server/quillet"
        program.chmod(0o755)
        self.finds(program)
        self.assertIn("vscode-languageclient", (self.folder / "extension/THIRD-PARTY").read_text("utf-8"))

    def test_the_extension_without(self):
        with zipfile.ZipFile(only(f"quillet-{self.version}.vsix")) as it:
            names = it.namelist()
            said = json.loads(it.read("extension/package.json"))
        self.assertEqual([name for name in names if "server" in name], [])
        self.assertEqual(said["version"], self.version)

    def test_the_components_are_those_of_the_lock(self):
        lock = (ROOT / "Cargo.lock").read_text("utf-8")
        crates = self.components("pkg:cargo/")
        self.assertGreater(len(crates), 100)
        for it in crates:
            entry = f'name = "{it["name"]}"\nversion = "{it["version"]}"\n'
            self.assertIn(entry, lock)
            self.assertIn(it["hashes"][0]["content"], lock.split(entry)[1].split("[[package]]")[0])
        tests_only = {"insta", "criterion", "tree-sitter", "proptest"}
        self.assertEqual(tests_only & {it["name"] for it in crates}, set())
        self.assertIn("vscode-languageclient", {it["name"] for it in self.components("pkg:npm/")})

    def test_the_components_are_written_by_the_schema(self):
        try:
            from cyclonedx.schema import SchemaVersion
            from cyclonedx.validation.json import JsonStrictValidator
        except ImportError:
            self.skipTest("cyclonedx-python-lib is not installed")
        validator = JsonStrictValidator(SchemaVersion.V1_6)
        text = only("*.cdx.json").read_text("utf-8")
        self.assertIsNone(validator.validate_str(text))
        self.assertIsNotNone(validator.validate_str(text.replace('"type": "library"', '"type": "timber"', 1)))

    def test_the_pages(self):
        self.assertIn("Heron", only("gallery.html").read_text("utf-8"))
        self.assertIn("thin-wall", only("manual.html").read_text("utf-8"))

    def test_a_changed_byte_is_found(self):
        check = ["sha256sum", "--check", "--quiet"]
        self.assertEqual(subprocess.run([*check, "SHA256SUMS"], cwd=RELEASE).returncode, 0)
        sums = (RELEASE / "SHA256SUMS").read_text("utf-8").splitlines()
        self.assertEqual({it.split("  ")[1] for it in sums}, {it.name for it in RELEASE.iterdir()} - {"SHA256SUMS"})
        page = only("manual.html")
        spoilt = bytearray(page.read_bytes())
        spoilt[len(spoilt) // 2] ^= 1
        (self.folder / page.name).write_bytes(spoilt)
        (self.folder / "SUM").write_text(next(it for it in sums if it.endswith(page.name)) + "\n", "utf-8")
        said = subprocess.run([*check, "SUM"], cwd=self.folder, capture_output=True)
        self.assertEqual(said.returncode, 1)


class Refused(unittest.TestCase):
    """What `build` refuses before it makes anything."""

    def build(self, *asked):
        said = subprocess.run([ROOT / "editors/release/build", *asked], capture_output=True, text=True)
        self.assertEqual((said.returncode, said.stdout), (1, ""))
        return said.stderr

    def test_what_is_no_version(self):
        for it in ("v0.2.0", "0.2", "0.2.0-rc1", "../x", "00.1.0", ""):
            self.assertIn("three numbers", self.build(it, "/nonexistent/out"))

    def test_a_folder_that_holds_something(self):
        self.assertIn("holds something", self.build("0.2.0", str(RELEASE)))


if __name__ == "__main__":
    unittest.main()
