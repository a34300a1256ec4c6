"""The program as a wheel, which `pip install` puts on the PATH: wheel.py VERSION TAG PROGRAM FOLDER OUT.

FOLDER holds LICENSE, THIRD-PARTY and README.md. TAG is the platform's; "linux" is made `manylinux_2_N_ARCH`
by what the program asks of the C library, `musllinux_1_2_ARCH` where it asks for none. Prints the wheel's name.

Layout: Binary distribution format, https://packaging.python.org/en/latest/specifications/binary-distribution-format/;
tags: https://packaging.python.org/en/latest/specifications/platform-compatibility-tags/.
"""

import base64
import hashlib
import re
import sys
from pathlib import Path

import archive

METADATA = """Metadata-Version: 2.4
Name: quillet
Version: {version}
Summary: Checks hand-made pens, written as text, before they are cut: the quillet program.
License-Expression: MIT
License-File: LICENSE
License-File: THIRD-PARTY
Description-Content-Type: text/markdown

{readme}"""

WHEEL = """Wheel-Version: 1.0
Generator: quillet-release
Root-Is-Purelib: false
Tag: py3-none-{tag}
"""


def main(version, tag, program, folder, out):
    tag = linux(program) if tag == "linux" else tag
    info = f"quillet-{version}.dist-info"
    readme = (folder / "README.md").read_text("utf-8")
    entries = [
        (f"quillet-{version}.data/scripts/{program.name}", program.read_bytes(), True),
        (f"{info}/METADATA", METADATA.format(version=version, readme=readme).encode(), False),
        (f"{info}/WHEEL", WHEEL.format(tag=tag).encode(), False),
        *((f"{info}/licenses/{it}", (folder / it).read_bytes(), False) for it in ("LICENSE", "THIRD-PARTY")),
    ]
    entries.append((f"{info}/RECORD", record(entries, f"{info}/RECORD"), False))
    name = f"quillet-{version}-py3-none-{tag}.whl"
    archive.zipped(entries, out / name)
    print(name)


def record(entries, own):
    """The list of files with their digests, by which an installer knows them."""
    rows = [f"{name},sha256={digest(data)},{len(data)}" for name, data, _ in entries]
    return "\n".join([*rows, f"{own},,", ""]).encode()


def digest(data):
    """SHA-256 in the URL's base 64, unpadded, as RECORD wants it."""
    return base64.urlsafe_b64encode(hashlib.sha256(data).digest()).decode().rstrip("=")


# The machine of an ELF file (System V ABI, e_machine at byte 18).
MACHINES = {62: "x86_64", 183: "aarch64"}


def linux(program):
    """The tag of a program for Linux."""
    data = program.read_bytes()
    if data[:4] != b"\x7fELF":
        sys.exit(f"{program} is no program for Linux")
    machine = MACHINES[int.from_bytes(data[18:20], "little")]
    asked = [int(it) for it in re.findall(rb"\0GLIBC_2\.(\d+)", data)]
    # Older than 2.17 no Rust program runs on.
    return f"manylinux_2_{max(17, *asked)}_{machine}" if asked else f"musllinux_1_2_{machine}"


if __name__ == "__main__":
    main(*sys.argv[1:3], *map(Path, sys.argv[3:6]))
