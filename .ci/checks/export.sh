#!/usr/bin/env bash
# Drawings, sheets and solids against programs written by others: Open CASCADE, trimesh, lib3mf,
# ezdxf, poppler, Chromium. Says `skipped` where one cannot be had, and passes.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

if ! command -v python3 >/dev/null; then
    echo "skipped: the checks of drawings and solids need Python 3"
    exit 0
fi
if [ -n "${CI:-}" ]; then
    packages poppler-utils chromium || true
fi
program
python3 tests/oracles/export.py "$QUILLET" --venv "$target/oracles-export"
