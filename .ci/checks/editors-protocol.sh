#!/usr/bin/env bash
# A protocol client under the capabilities of three editors; every message of the server is read
# into the types of LSP 3.18.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

client=$tools/protocol
if ! "$client/bin/python" -c 'import pytest_lsp' 2>/dev/null; then
    packages python3-venv && python3 -m venv "$client" &&
        quietly "$client/bin/pip" install pytest-lsp==1.0.1 lsprotocol==2025.0.0 ||
        skip "the protocol client" "its packages cannot be installed"
fi
program
timeout 300 "$client/bin/pytest" -q -p no:cacheprovider editors/protocol
