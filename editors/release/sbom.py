"""What a release is made of, for programs: sbom.py VERSION TARGETS [METAFILE FOLDER]… > quillet.cdx.json.

CycloneDX 1.6 (https://cyclonedx.org/docs/1.6/json/): every crate and bundled package with its version, licence,
package URL, what it needs and, for a crate, the SHA-256 it was fetched by. The time is SOURCE_DATE_EPOCH's.
"""

import json
import os
import sys
from datetime import datetime, timezone
from pathlib import Path

import components


def main(root, given):
    version, targets, *bundles = given
    found = {it.purl: it for it in components.crates(root, "quillet", targets.split(","))}
    for metafile, folder in zip(bundles[::2], bundles[1::2]):
        found |= {it.purl: it for it in components.bundled(Path(metafile), Path(folder))}
    json.dump(bill(version, [found[it] for it in sorted(found)]), sys.stdout, indent=1, sort_keys=True)
    sys.stdout.write("\n")


def bill(version, found):
    """The document."""
    when = datetime.fromtimestamp(int(os.environ["SOURCE_DATE_EPOCH"]), timezone.utc)
    own = f"pkg:generic/quillet@{version}"
    itself = {"type": "application", "name": "quillet", "version": version, "bom-ref": own, "purl": own}
    itself["licenses"] = [{"license": {"id": "MIT"}}]
    return {
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {"timestamp": when.strftime("%Y-%m-%dT%H:%M:%SZ"), "component": itself},
        "components": [entry(it) for it in found],
        "dependencies": [
            {"ref": own, "dependsOn": [it.purl for it in found]},
            *({"ref": it.purl, "dependsOn": it.needs} for it in found),
        ],
    }


def entry(it):
    """A component's object."""
    made = {"type": "library", "name": it.name, "version": it.version, "bom-ref": it.purl, "purl": it.purl}
    if it.licence:
        made["licenses"] = [{"expression": it.licence}]
    if it.sha256:
        made["hashes"] = [{"alg": "SHA-256", "content": it.sha256}]
    return made


if __name__ == "__main__":
    main(Path(__file__).resolve().parents[2], sys.argv[1:])
