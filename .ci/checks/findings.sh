#!/usr/bin/env bash
# What is found in every example, as SARIF, by a reader written by others.
# Says `skipped` and passes where Python or the package cannot be had.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if ! command -v python3 >/dev/null; then
    echo "skipped: reading SARIF needs Python 3"
    exit 0
fi
target=${CARGO_TARGET_DIR:-target}
cargo build --quiet --package quillet
python3 tests/oracles/findings.py "$target/debug/quillet" --venv "$target/oracles-findings"
