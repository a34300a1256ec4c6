#!/usr/bin/env bash
# Vim with the files of editors/neovim against the real program.
# It writes its results to /dev/stdout by name: through a pipe they also reach a log.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

packages vim-nox || skip "Vim" "Debian's package cannot be installed"
program

plugin=$PWD/editors/neovim
folder=$(pens)
(cd "$folder" && timeout 120 vim.nox -N -u NONE -i NONE -n -es \
    --cmd "set runtimepath^=$plugin" -c 'filetype plugin indent on' -c 'syntax on' \
    -c 'runtime! plugin/*.vim' -S "$plugin/test/e2e.vim" </dev/null | cat) ||
    { echo "Vim failed in $folder"; exit 1; }
rm -r "$folder"
