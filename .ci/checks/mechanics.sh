#!/usr/bin/env bash
# The formulas of what holds a joint against beam elements, boundary values and a magnetics library.
# Says `skipped` and passes where Python or a package cannot be had.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if ! command -v python3 >/dev/null; then
    echo "skipped: the comparison of mechanics needs Python 3"
    exit 0
fi
target=${CARGO_TARGET_DIR:-target}
figures=$(mktemp)
trap 'rm "$figures"' EXIT
cargo run --quiet --package quillet-standards --example mechanics >"$figures"
python3 tests/oracles/mechanics.py "$figures" --venv "$target/oracles-mechanics"

more=(examples/saltings.quillet examples/bought.quillet examples/more/*.quillet tests/oracles/joints.quillet)
cargo run --quiet --package quillet-model --example holds -- "${more[@]}" >"$figures"
python3 tests/oracles/joints.py "$figures" --venv "$target/oracles-mechanics"
