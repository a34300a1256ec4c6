#!/usr/bin/env bash
# Damaged texts and messages through everything that reads them, for a short time; longer by hand:
#   cargo run --release -p quillet-fuzz -- parse --seconds 600 --seed 1000000000
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

# A debug build, which is there already: fewer inputs in the time, but every overflow and debug assertion counts.
cargo build --quiet --package quillet-fuzz
target=${CARGO_TARGET_DIR:-target}
# The same inputs each time: what was found once is found again. Longer runs by hand take others.
seed=20261128000000000
for what in parse:15 check:12 edits:12 formats:12 server:9; do
    "$target/debug/quillet-fuzz" "${what%:*}" --seconds "${what#*:}" --seed "$seed"
done
