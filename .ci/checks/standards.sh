#!/usr/bin/env bash
# The figures of `quillet thread`, `fit` and `drill` against packages written by others.
# Says `skipped` and passes where Python or a package cannot be had.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if ! command -v python3 >/dev/null; then
    echo "skipped: the comparison of standards needs Python 3"
    exit 0
fi
target=${CARGO_TARGET_DIR:-target}
cargo build --quiet --package quillet
python3 tests/oracles/standards.py "$target/debug/quillet" --venv "$target/oracles"
