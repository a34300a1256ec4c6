#!/usr/bin/env bash
# Every file of a release, made twice, and the programs for other systems tried: .ci/whole-release.sh [OUT].
# An hour of compiling or more, so once a week and before a release. What it needs beside Rust it installs.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source .ci/clients.sh

out=${1:-$target/whole-release}
node24 || { echo "Node 24 cannot be installed"; exit 1; }
packages wine64 qemu-user-static binutils || { echo "wine and qemu cannot be installed"; exit 1; }
version=$(sed -n '/^\[workspace.package\]/,/^\[/s/^version = "\(.*\)"/\1/p' Cargo.toml)
rm -rf "$out"
editors/release/build --whole "$version" "$out"
PATH=$tools/release/bin:$PATH RELEASE=$out python3 -m unittest discover -v -s editors/release/test

# The page of the archive, as who unpacks it serves it.
page=$(mktemp -d)
trap 'rm -rf "$page"' EXIT
python3 -m zipfile -e "$out/quillet-$version-web.zip" "$page"
program
(cd editors/web && quietly npm ci)
node editors/web/test/size.mjs "$page/quillet-$version-web"
in_chromium "$page/quillet-$version-web" "$page/pictures"
