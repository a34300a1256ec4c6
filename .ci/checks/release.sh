#!/usr/bin/env bash
# The files of a release: packed of the debug program, the same bytes twice, and used where nothing else is.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

git rev-parse --quiet --verify HEAD >/dev/null 2>&1 || skip "the release" "this is no clone"
node24 || skip "the release" "Node 24 cannot be installed"
program
schema=$tools/schema
[ -x "$schema/bin/python" ] && "$schema/bin/python" -c 'import cyclonedx' 2>/dev/null ||
    { python3 -m venv "$schema" && alone quietly "$schema/bin/pip" install --quiet 'cyclonedx-python-lib[json-validation]==11.12.0'; } ||
    echo "skipped: the list of components against its schema, for its package cannot be installed"

version=$(sed -n '/^\[workspace.package\]/,/^\[/s/^version = "\(.*\)"/\1/p' Cargo.toml)
release=$target/release-files
rm -rf "$release"
QUILLET_FETCH=0 QUILLET_PROGRAM=$QUILLET editors/release/build "$version" "$release"
RELEASE=$release "$schema/bin/python" -m unittest discover -v -s editors/release/test 2>&1

# On a machine that cannot make every file, a whole release is none.
if QUILLET_FETCH=0 QUILLET_PROGRAM=$QUILLET editors/release/build --whole "$version" "$release-whole" >/dev/null 2>&1; then
    echo "a release that lacks files was called whole"
    exit 1
fi
