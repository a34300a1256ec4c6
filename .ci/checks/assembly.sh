#!/usr/bin/env bash
# The mass, balance and inertia of the shipped pens, and what flats, side holes and slots leave of a part,
# against Open CASCADE and a quadrature, in one environment.
# Says `skipped` and passes where Python or the package cannot be had.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if ! command -v python3 >/dev/null; then
    echo "skipped: the comparison with Open CASCADE needs Python 3"
    exit 0
fi
target=${CARGO_TARGET_DIR:-target}
cargo build --quiet --package quillet
python3 tests/oracles/assembly.py "$target/debug/quillet" --venv "$target/oracles-assembly"
python3 tests/oracles/sides.py "$target/debug/quillet" --venv "$target/oracles-assembly"
python3 tests/oracles/random_sides.py "$target/debug/quillet" --venv "$target/oracles-assembly"
