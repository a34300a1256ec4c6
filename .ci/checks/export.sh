#!/usr/bin/env bash
# Drawings, sheets and solids against programs written by others: Open CASCADE, trimesh, lib3mf,
# ezdxf, poppler, Chromium. Says `skipped` where one cannot be had, and passes.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if ! command -v python3 >/dev/null; then
    echo "skipped: the checks of drawings and solids need Python 3"
    exit 0
fi
for pair in pdftoppm:poppler-utils chromium:chromium; do
    command -v "${pair%%:*}" >/dev/null && continue
    if [ -n "${CI:-}" ] && command -v apt-get >/dev/null; then
        (apt-get update -qq && apt-get install -y -qq "${pair##*:}") >/dev/null 2>&1 || true
    fi
done
target=${CARGO_TARGET_DIR:-target}
cargo build --quiet --package quillet
python3 tests/oracles/export.py "$target/debug/quillet" --venv "$target/oracles-export"
