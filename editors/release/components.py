"""What a release is made of besides Quillet: the crates that are linked in, the packages that are bundled.

Crates come from `cargo metadata` (https://doc.rust-lang.org/cargo/commands/cargo-metadata.html), so that what is
only built or tested with does not count; packages of a bundle from esbuild's metafile
(https://esbuild.github.io/api/#metafile), so that what was left out of it does not count either.
"""

import json
import re
import subprocess
from dataclasses import dataclass, field
from pathlib import Path

LICENCE = re.compile(r"(LICEN[CS]E|COPYING|NOTICE|UNLICENSE)([-._].*)?", re.IGNORECASE)


@dataclass(order=True)
class Component:
    """A package by name and version; `purl` is its package URL, by which lists of faults know it."""

    name: str
    version: str
    purl: str
    licence: str = field(compare=False)
    folder: Path = field(compare=False)
    sha256: str = field(default="", compare=False)
    needs: list[str] = field(default_factory=list, compare=False)

    def texts(self):
        """(path within the package, text) of each licence it carries, its vendored parts' too."""
        found = [it for it in self.folder.rglob("*") if LICENCE.fullmatch(it.name) and it.is_file()]
        inside = [it for it in found if "node_modules" not in it.relative_to(self.folder).parts]
        return [(str(it.relative_to(self.folder)), it.read_text("utf-8", "replace")) for it in sorted(inside)]


def crates(root, package, targets):
    """The crates linked into `package` on any of `targets`, Quillet's own left out; sorted."""
    sums, found = checksums(root / "Cargo.lock"), {}
    for target in targets:
        data = metadata(root, target)
        packages = {it["id"]: it for it in data["packages"]}
        nodes = {it["id"]: it for it in data["resolve"]["nodes"]}
        start = next(it["id"] for it in data["packages"] if it["name"] == package)
        for one in linked(start, nodes):
            crate = packages[one]
            if crate["source"] is None:
                continue
            made = found.setdefault(one, of_crate(crate, sums))
            made.needs = sorted({*made.needs, *(purl("cargo", packages[it]) for it in normal(nodes[one]))})
    return sorted(found.values())


def metadata(root, target):
    """What cargo says of the workspace for one target."""
    asked = ["cargo", "metadata", "--locked", "--format-version", "1", "--filter-platform", target]
    return json.loads(subprocess.run(asked, cwd=root, check=True, capture_output=True).stdout)


def linked(start, nodes):
    """The ids of all that `start` links, itself first."""
    seen, ahead = [], [start]
    while ahead:
        one = ahead.pop()
        if one not in seen:
            seen.append(one)
            ahead.extend(normal(nodes[one]))
    return seen


def normal(node):
    """The ids a crate is linked with: not what only its tests or its build script take."""
    return [it["pkg"] for it in node["deps"] if any(kind["kind"] is None for kind in it["dep_kinds"])]


def of_crate(crate, sums):
    """A crate as a component."""
    return Component(
        name=crate["name"],
        version=crate["version"],
        purl=purl("cargo", crate),
        # An old way to write "or", which no list of licences knows.
        licence=re.sub(r"\s*/\s*|\s+OR\s+", " OR ", crate["license"] or ""),
        folder=Path(crate["manifest_path"]).parent,
        sha256=sums.get((crate["name"], crate["version"]), ""),
    )


def checksums(lock):
    """{(name, version): SHA-256} by the lock file."""
    entry = re.compile(r'name = "([^"]+)"\nversion = "([^"]+)"\nsource = "[^"]+"\nchecksum = "([0-9a-f]{64})"')
    return {(name, version): it for name, version, it in entry.findall(lock.read_text("utf-8"))}


def purl(kind, package):
    """A package URL (https://github.com/package-url/purl-spec)."""
    return f"pkg:{kind}/{package['name'].replace('@', '%40')}@{package['version']}"


def bundled(metafile, folder):
    """The packages of `folder/node_modules` that went into a bundle; sorted."""
    inputs = json.loads(metafile.read_text("utf-8"))["inputs"]
    within = re.compile(r"(.*\bnode_modules/(?:@[^/]+/)?[^/]+)/")
    places = {folder / found[1] for found in map(within.match, inputs) if found}
    return sorted(map(of_package, places))


def of_package(folder):
    """A package of npm as a component."""
    said = json.loads((folder / "package.json").read_text("utf-8"))
    return Component(said["name"], said["version"], purl("npm", said), said.get("license", ""), folder)
