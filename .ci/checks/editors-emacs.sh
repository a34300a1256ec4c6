#!/usr/bin/env bash
# Emacs with eglot through editors/emacs against the real server.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

packages emacs-nox elpa-eglot || skip "Emacs" "Debian's packages cannot be installed"
program

mode=$PWD/editors/emacs
folder=$(pens)
# Compiled elsewhere, so that nothing is left beside the sources; a warning fails. Before 29 there is nothing
# to colour by the compiled grammar with: that mode is run where the newer editors are.
mkdir "$folder/compiled" && cp "$mode"/quillet-{mode,words}.el "$folder/compiled"
emacs -Q --batch -L "$folder/compiled" --eval '(setq byte-compile-error-on-warn t)' \
    -f batch-byte-compile "$folder"/compiled/*.el
(cd "$folder" && timeout 120 emacs -Q --batch -L "$folder/compiled" -l "$mode/test/e2e.el") ||
    { echo "Emacs failed in $folder"; exit 1; }
rm -r "$folder"
