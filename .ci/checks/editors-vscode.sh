#!/usr/bin/env bash
# The extension for Visual Studio Code: packaged, its grammar run in the editor's own engine,
# the protocol spoken with its own library, and the whole looked at in a real window.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

node24 || skip "the extension" "Node 24 cannot be installed"
program
"$QUILLET" check --deny warning editors/vscode/src/first.quillet

extension=editors/vscode
(cd "$extension" && quietly npm ci) || skip "the extension" "its packages cannot be installed"
(cd "$extension" && quietly npm run package)
(cd "$extension" && npm test)

# The window: 0.6 GB, installed once outside the clone.
window=$tools/window
if [ ! -x "$window/node_modules/.bin/code-server" ] || [ ! -d "$window/node_modules/playwright-core" ]; then
    echo "installing the window's server, which takes a few minutes"
    packages libkrb5-dev libsecret-1-dev pkg-config python3 make g++ &&
        mkdir -p "$window" &&
        quietly timeout 900 npm install --prefix "$window" code-server@4.139.1 playwright-core@1.65.1 ||
        skip "the window" "its server cannot be installed"
fi
packages chromium || skip "the window" "Chromium cannot be installed"
# The extension as a release has it for this machine: with the program inside.
(cd "$extension" && rm -rf server && mkdir server && cp "$QUILLET" server/quillet &&
    quietly npm run package -- --target linux-x64 --out dist/quillet-here.vsix && rm -r server)
timeout 400 node "$extension/test/window/window.mjs" "$window" "$QUILLET" "$target/window"
