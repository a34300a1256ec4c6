"""Third parties' licences as one text: licences.py CRATE TARGETS [METAFILE FOLDER]… > THIRD-PARTY.

CRATE is what is linked, on the targets named with commas between ("-" for no crate); each METAFILE is
that of a bundle of FOLDER. A text that several carry stands once. Ends with 1 where a package neither names
a licence nor carries one.
"""

import sys
from pathlib import Path

import components

HEAD = """Quillet is under the MIT licence, which stands in LICENSE. It is made with what follows, each under
its own licence.
"""

RUST = """The Rust standard library, https://www.rust-lang.org: MIT OR Apache-2.0, both of which stand below
with the crates that bear them.
"""


def main(root, given):
    crate, targets, *bundles = given
    found = [] if crate == "-" else components.crates(root, crate, targets.split(","))
    for metafile, folder in zip(bundles[::2], bundles[1::2]):
        found += components.bundled(Path(metafile), Path(folder))
    nameless = [f"{it.name} {it.version}" for it in found if not it.licence and not it.texts()]
    if nameless:
        sys.exit(f"no licence is known of: {', '.join(nameless)}")
    sys.stdout.write(HEAD + ("" if crate == "-" else "\n" + RUST))
    for it in found:
        sys.stdout.write(f"\n{it.name} {it.version}: {it.licence or 'see below'}")
    sys.stdout.write("\n" + "".join(texts(found)))


def texts(found):
    """Each text once, under the names of all that carry it, in the order of the first of them."""
    carried = {}
    for it in found:
        for _, text in it.texts():
            plain = "\n".join(line.rstrip() for line in text.replace("\r\n", "\n").strip().split("\n"))
            carried.setdefault(plain, []).append(f"{it.name} {it.version}")
    for text, names in carried.items():
        yield f"\n{'=' * 78}\n{', '.join(dict.fromkeys(names))}\n{'=' * 78}\n\n{text}\n"


if __name__ == "__main__":
    main(Path(__file__).resolve().parents[2], sys.argv[1:])
