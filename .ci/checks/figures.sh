#!/usr/bin/env bash
# Volumes, centroids, a sheet's limits and STEP solids against a second reckoning, in Python and by Open CASCADE.
# Says `skipped` and passes where Python cannot be had; without the package only the solids are skipped.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if ! command -v python3 >/dev/null; then
    echo "skipped: the second reckoning of figures needs Python 3"
    exit 0
fi
target=${CARGO_TARGET_DIR:-target}
cargo build --quiet --package quillet
python3 tests/oracles/figures.py "$target/debug/quillet" --venv "$target/oracles-figures"
