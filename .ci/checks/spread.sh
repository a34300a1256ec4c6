#!/usr/bin/env bash
# What `quillet spread` tells of pens by a hand against the statistics of another package.
# Says `skipped` and passes where Python or a package cannot be had.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if ! command -v python3 >/dev/null; then
    echo "skipped: the comparison of spreads needs Python 3"
    exit 0
fi
target=${CARGO_TARGET_DIR:-target}
cargo build --quiet --package quillet
python3 tests/oracles/spread.py "$target/debug/quillet" --venv "$target/oracles-spread"
