#!/usr/bin/env bash
# The compiled grammar in Emacs 30, Neovim 0.10 and Helix 25, which Debian 12 has not: in a folder of Debian
# 13 that is filled once (0.9 GB). Needs root; run once a week, with what takes hours.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source .ci/clients.sh

[ "$(id -u)" = 0 ] || skip "the newer editors" "their system can be entered by root only"
packages debootstrap tmux || skip "the newer editors" "Debian's packages cannot be installed"
system=$tools/trixie
if [ ! -x "$system/usr/bin/hx" ] || [ ! -x "$system/usr/bin/git" ]; then
    rm -rf "$system"
    # Helix builds no grammar where there is no git, not even one that lies here.
    quietly debootstrap --variant=minbase --include=hx,neovim,emacs-nox,gcc,git,libc6-dev \
        trixie "$system" || skip "the newer editors" "their system cannot be installed"
    # Helix calls the C compiler by this name.
    ln -s gcc "$system/usr/bin/c++"
fi
mountpoint -q "$system/proc" || mount -t proc proc "$system/proc"
trap 'umount "$system/proc"' EXIT
rm -rf "$system/quillet" "$system/root/.config/helix"
mkdir "$system/quillet"
cp -r editors examples "$system/quillet"

within=(chroot "$system" env -i HOME=/root LANG=C.UTF-8 TERM=xterm-256color COLORTERM=truecolor PATH=/usr/bin:/bin)
editor() { timeout 120 "${within[@]}" sh -c "cd /quillet/examples && $1" </dev/null; }

# Compiled as well; a warning fails. The compiled file would be what is loaded, so it goes again.
editor "emacs -Q --batch -L ../editors/emacs --eval '(setq byte-compile-error-on-warn t)' \
    -f batch-byte-compile ../editors/emacs/*.el && rm ../editors/emacs/*.elc"
editor "emacs -Q --batch -L ../editors/emacs -l ../editors/emacs/test/grammar.el"
editor "nvim --headless --clean -u NONE -i NONE -n --cmd 'let g:quillet_no_server = 1' \
    --cmd 'set runtimepath^=/quillet/editors/neovim' -c 'filetype plugin indent on' -c 'syntax on' \
    -c 'luafile ../editors/neovim/test/grammar.lua'"

# Helix, by the steps of its README.
runtime=$system/root/.config/helix/runtime
mkdir -p "$runtime/grammars" "$runtime/queries/quillet"
{
    echo 'use-grammars = { only = ["quillet"] }'
    sed 's#/path/to/quillet#/quillet#' editors/helix/languages.toml
} >"$runtime/../languages.toml"
cp editors/tree-sitter/queries/*.scm "$runtime/queries/quillet"
cp editors/helix/queries/*.scm "$runtime/queries/quillet"
editor "hx --grammar build"
[ "$(editor "hx --health quillet" | grep -cE '^(Tree-sitter parser|Highlight queries|Textobject queries|Indent queries):.*✓')" = 4 ] ||
    { echo "not ok - Helix has not the grammar and its three queries"; exit 1; }

screen() { tmux -L quillet-helix "$@"; }
screen new-session -d -x 100 -y 40 "${within[*]} hx /quillet/examples/heron.quillet"
sleep 5
shown=$(screen capture-pane -p -e)
screen kill-server
# The colour that a text is shown in.
colour() { grep -oP "\x1b\[38;2;\K[0-9;]+(?=m$1\x1b)" <<<"$shown" | sort | uniq -c | sort -rn | awk 'NR == 1 { print $2 }'; }
keyword=$(colour part) number=$(colour '15\.2') name=$(colour crown)
[ -n "$keyword" ] && [ -n "$number" ] && [ -n "$name" ] && [ "$keyword" != "$number" ] &&
    [ "$number" != "$name" ] && [ "$name" != "$keyword" ] ||
    { echo "not ok - Helix shows part $keyword, 15.2 $number, crown $name"; exit 1; }
echo "Helix $("${within[@]}" hx --version | awk '{ print $2 }') by the grammar: 5 passed, 0 failed"
