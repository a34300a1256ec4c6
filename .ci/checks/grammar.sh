#!/usr/bin/env bash
# Every example, and the same with slips, read by grammar.ebnf and by the program.
# Says `skipped` and passes where Python or the package cannot be had.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if ! command -v python3 >/dev/null; then
    echo "skipped: reading by the grammar needs Python 3"
    exit 0
fi
target=${CARGO_TARGET_DIR:-target}
cargo build --quiet --package quillet
python3 tests/oracles/grammar.py "$target/debug/quillet" --venv "$target/oracles-grammar"
