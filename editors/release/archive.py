"""A folder as an archive that has the same bytes wherever it is made: archive.py FOLDER FILE.

FILE ends in .tar.gz (what stands in it lies under the folder's name) or .zip (so too). Names in the order of
their bytes, the time SOURCE_DATE_EPOCH, no owner, modes 755 for what may be run and 644.
"""

import gzip
import io
import os
import sys
import tarfile
import time
import zipfile
from pathlib import Path

# What the oldest entry of a .zip may be (APPNOTE 4.4.6: years are counted from 1980).
FIRST = 315_532_800


def files(folder):
    """(name within, bytes, whether it may be run) of each file, sorted."""
    found = [it for it in folder.rglob("*") if it.is_file()]
    named = sorted((it.relative_to(folder).as_posix(), it) for it in found)
    return [(name, it.read_bytes(), os.access(it, os.X_OK)) for name, it in named]


def tar_gz(entries, out):
    """Writes (name, bytes, run) entries as a gzipped tar."""
    when, plain = epoch(), io.BytesIO()
    with tarfile.open(fileobj=plain, mode="w", format=tarfile.USTAR_FORMAT) as tar:
        for name, data, run in entries:
            info = tarfile.TarInfo(name)
            info.size, info.mtime, info.mode = len(data), when, 0o755 if run else 0o644
            tar.addfile(info, io.BytesIO(data))
    out.write_bytes(gzip.compress(plain.getvalue(), compresslevel=9, mtime=0))


def zipped(entries, out):
    """Writes (name, bytes, run) entries as a zip, in the order given."""
    when = time.gmtime(max(epoch(), FIRST))[:6]
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data, run in entries:
            info = zipfile.ZipInfo(name, when)
            info.compress_type, info.create_system = zipfile.ZIP_DEFLATED, 3
            info.external_attr = (0o100755 if run else 0o100644) << 16
            archive.writestr(info, data)


def epoch():
    """The time that everything bears, in seconds."""
    return int(os.environ["SOURCE_DATE_EPOCH"])


def main(folder, out):
    entries = [(f"{folder.name}/{name}", data, run) for name, data, run in files(folder)]
    if not entries:
        sys.exit(f"{folder} holds nothing")
    (zipped if out.suffix == ".zip" else tar_gz)(entries, out)


if __name__ == "__main__":
    main(Path(sys.argv[1]).resolve(), Path(sys.argv[2]))
