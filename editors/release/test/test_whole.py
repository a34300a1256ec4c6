"""A release that is whole: every file of the table, and the programs for other systems used.

Made outside: wine runs the program for Windows and qemu that for aarch64, both against what the Linux program
says; a root that holds nothing else runs the static one; the headers of the programs for macOS are read by the
published layout (`mach-o/loader.h`). Without a whole release all is skipped.
"""

import os
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import unittest
import zipfile
from pathlib import Path

from release import RELEASE, ROOT, TARGETS, alone, only, unpacked, version

WHOLE = any(RELEASE.glob("*-windows-x86_64.zip"))
# Bytes of each program for macOS: the processor, as `mach/machine.h` numbers it.
APPLE = {"macos-aarch64": 0x0100000C, "macos-x86_64": 0x01000007}
# What the program for Windows may ask for: what every Windows 10 brings.
WINDOWS = re.compile(r"(kernel32|ntdll|msvcrt|ws2_32|userenv|advapi32|bcrypt\w*|bcryptprimitives|combase|ole32|"
                     r"shell32|dbghelp|secur32|crypt32|psapi|api-ms-win-[\w-]+)\.dll", re.IGNORECASE)


@unittest.skipUnless(WHOLE, "not every file of it could be made")
class Whole(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        kept = tempfile.TemporaryDirectory()
        cls.addClassCleanup(kept.cleanup)
        cls.folder = Path(kept.name).resolve()
        cls.within = {name: unpacked(name, cls.folder) for name, *_ in TARGETS}
        cls.linux = cls.within["linux-x86_64-gnu"] / "quillet"
        for it in (ROOT / "examples").rglob("*.quillet"):
            to = cls.folder / "pens" / it.relative_to(ROOT / "examples")
            to.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(it, to)

    def test_every_file_of_the_table(self):
        v = version()
        names = {it.name for it in RELEASE.iterdir()}
        want = {f"quillet-{v}-web.zip", f"quillet-{v}.vsix", f"quillet-{v}.cdx.json"}
        want |= {"manual.html", "gallery.html", "SHA256SUMS"}
        for name, _, _, vsix in TARGETS:
            want |= {f"quillet-{v}-{name}.{'zip' if 'windows' in name else 'tar.gz'}", f"quillet-{v}-{vsix}.vsix"}
        wheels = {it for it in names if it.endswith(".whl")}
        self.assertEqual(names - wheels, want)
        tags = sorted(it.split("-py3-none-")[1].removesuffix(".whl") for it in wheels)
        self.assertEqual(tags, [
            "macosx_10_12_x86_64", "macosx_11_0_arm64", "manylinux_2_17_aarch64", "manylinux_2_17_x86_64",
            "musllinux_1_2_aarch64", "musllinux_1_2_x86_64", "win_amd64",
        ])

    def test_each_archive_has_its_licences_and_its_program(self):
        for name, within in self.within.items():
            program = within / ("quillet.exe" if "windows" in name else "quillet")
            self.assertGreater(program.stat().st_size, 1_000_000, name)
            self.assertIn("Permission is hereby granted", (within / "THIRD-PARTY").read_text("utf-8"), name)
        windows = (self.within["windows-x86_64"] / "THIRD-PARTY").read_text("utf-8")
        self.assertIn("\nwindows-", windows, "what is linked in on Windows alone is named")
        linux = (self.within["linux-x86_64"] / "THIRD-PARTY").read_text("utf-8")
        self.assertNotIn("\nwindows-", linux)

    def judged(self, *runner, where=None):
        """What a program finds in every shipped pen, as JSON, and a sheet of Heron's."""
        said = subprocess.run([*runner, "check", ".", "--format", "json"], cwd=self.folder / "pens",
                              env=self.env(), capture_output=True)
        self.assertEqual(said.returncode, 1, said.stderr[-500:])
        sheet = self.folder / "heron.pdf"
        sheet.unlink(missing_ok=True)
        asked = [*runner, "sheet", "heron.quillet", "--pen", "heron", "-o", where or "../heron.pdf"]
        made = subprocess.run(asked, cwd=self.folder / "pens", env=self.env(), capture_output=True)
        self.assertEqual(made.returncode, 0, made.stderr[-500:])
        return said.stdout, sheet.read_bytes()

    def env(self):
        return {**os.environ, "WINEDEBUG": "-all", "WINEPREFIX": str(self.folder / "wine"), "HOME": str(self.folder)}

    def same(self, *runner, where=None):
        found, sheet = self.judged(*runner, where=where)
        want, drawn = self.judged(self.linux)
        # A folder is written as each system writes it.
        self.assertEqual(found.replace(b"\r\n", b"\n").replace(b"\\\\", b"/"), want)
        self.assertEqual(sheet, drawn)

    def test_windows_finds_and_draws_the_same(self):
        wine = shutil.which("wine64") or shutil.which("wine") or self.skipTest("wine is not installed")
        program = self.within["windows-x86_64"] / "quillet.exe"
        self.random(program.parent)
        self.same(wine, program, where=r"..\heron.pdf")

    def random(self, folder):
        """Wine 8 lacks the library that Rust takes its random numbers from; here is one, of an older one."""
        zig = shutil.which("zig") or [sys.executable, "-m", "ziglang"]
        source = folder / "random.c"
        source.write_text("int SystemFunction036(void *, unsigned long);\n"
                          "__declspec(dllexport) int ProcessPrng(void *to, unsigned long long n)\n"
                          "{ return SystemFunction036(to, (unsigned long)n); }\n", "utf-8")
        made = [*([zig] if isinstance(zig, str) else zig), "cc", "-target", "x86_64-windows-gnu", "-shared",
                str(source), "-o", str(folder / "bcryptprimitives.dll"), "-ladvapi32"]
        subprocess.run(made, check=True, capture_output=True, env=self.env())

    def test_windows_asks_for_what_windows_has(self):
        said = subprocess.run(["objdump", "-p", self.within["windows-x86_64"] / "quillet.exe"],
                              capture_output=True, text=True)
        asked = re.findall(r"DLL Name: (\S+)", said.stdout)
        self.assertTrue(asked, said.stderr)
        self.assertEqual([it for it in asked if not WINDOWS.fullmatch(it)], [])

    def test_aarch64_finds_and_draws_the_same(self):
        qemu = shutil.which("qemu-aarch64-static") or shutil.which("qemu-aarch64") or self.skipTest("qemu is not installed")
        self.same(qemu, self.within["linux-aarch64"] / "quillet")

    def test_the_static_one_needs_nothing(self):
        if os.geteuid() != 0:
            self.skipTest("only root may change its root")
        empty = self.folder / "empty"
        empty.mkdir()
        shutil.copy(self.within["linux-x86_64"] / "quillet", empty)
        shutil.copy(ROOT / "examples/knot.quillet", empty)
        said = subprocess.run(["chroot", empty, "/quillet", "check", "/knot.quillet"], capture_output=True, text=True)
        self.assertEqual(said.returncode, 1, said.stderr)
        self.assertIn("error", said.stdout + said.stderr)
        self.same(self.within["linux-x86_64"] / "quillet")

    def test_an_older_c_library_does(self):
        """The wheel's name says glibc 2.17: nothing newer is asked for."""
        for name in ("linux-x86_64-gnu", "linux-aarch64-gnu"):
            data = (self.within[name] / "quillet").read_bytes()
            asked = {int(it) for it in re.findall(rb"\0GLIBC_2\.(\d+)", data)}
            self.assertLessEqual(max(asked), 17, name)

    def test_macos_programs_ask_for_what_macos_has(self):
        for name, processor in APPLE.items():
            data = (self.within[name] / "quillet").read_bytes()
            magic, cpu, _, kind, count, _ = struct.unpack_from("<6I", data)
            # MH_MAGIC_64, MH_EXECUTE.
            self.assertEqual((magic, cpu, kind), (0xFEEDFACF, processor, 2), name)
            at, libraries = 32, []
            for _ in range(count):
                command, size = struct.unpack_from("<2I", data, at)
                if command == 0xC:  # LC_LOAD_DYLIB
                    begin = at + struct.unpack_from("<I", data, at + 8)[0]
                    libraries.append(data[begin:at + size].split(b"\0")[0].decode())
                at += size
            self.assertTrue(libraries, name)
            strangers = [it for it in libraries if not it.startswith(("/usr/lib/", "/System/Library/"))]
            self.assertEqual(strangers, [], name)

    def test_each_extension_holds_the_program_of_its_archive(self):
        for name, _, _, vsix in TARGETS:
            program = "quillet.exe" if "windows" in name else "quillet"
            with zipfile.ZipFile(only(f"*-{vsix}.vsix")) as it:
                inside = it.read(f"extension/server/{program}")
            self.assertEqual(inside, (self.within[name] / program).read_bytes(), vsix)

    def test_the_pages_archive_names_no_builder(self):
        page = only("*-web.zip")
        with zipfile.ZipFile(page) as it:
            names = {Path(name).name for name in it.namelist()}
            self.assertTrue({"index.html", "quillet_web_bg.wasm", "LICENSE", "THIRD-PARTY"} <= names, names)
            for name in it.namelist():
                self.assertNotIn(str(ROOT).encode(), it.read(name), name)


if __name__ == "__main__":
    unittest.main()
