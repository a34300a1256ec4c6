#!/usr/bin/env bash
# The bench in the browser: built, weighed, and looked at in a real Chromium.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

node24 || skip "the page" "Node 24 cannot be installed"
rustup target list --installed | grep -qx wasm32-unknown-unknown ||
    quietly rustup target add wasm32-unknown-unknown ||
    skip "the page" "the target wasm32-unknown-unknown cannot be installed"
program

page=editors/web
(cd "$page" && quietly npm ci) || skip "the page" "its packages cannot be installed"
CARGO_TARGET_DIR=$target quietly "$page/build" "$target/page"
# The bindings that its types are of are built with it.
(cd "$page" && quietly npx tsc --noEmit)
node "$page/test/size.mjs" "$target/page"
node "$page/test/archive.mjs"

in_chromium "$target/page" "$target/page-pictures"
