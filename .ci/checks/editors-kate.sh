#!/usr/bin/env bash
# Kate's syntax definition in Kate's own engine, over Heron.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source .ci/clients.sh

packages libkf5syntaxhighlighting-tools || skip "Kate's engine" "Debian's package cannot be installed"

home=$(mktemp -d "$target/kate.XXXXXX")
trap 'rm -r "$home"' EXIT
install -D -t "$home/org.kde.syntax-highlighting/syntax" editors/kate/quillet.xml
export XDG_DATA_HOME=$home QT_QPA_PLATFORM=offscreen
kate-syntax-highlighter --syntax Quillet --output-format html examples/heron.quillet \
    >"$home/heron.html" 2>"$home/said"
# The engine says there what it cannot read of the definition.
! grep . "$home/said"

passed=0
while read -r colour text; do
    grep -qE "<span style=\"color:#$colour;[^\"]*\">$text</span>" "$home/heron.html" ||
        { echo "not ok - $text is not #$colour"; exit 1; }
    passed=$((passed + 1))
done <<'EOF'
898887 -- cap to barrel
bf0303 &quot;saltings.quillet&quot;
0057ae closing
0057ae heron-ida
aa5500 M13x0\.8
aa5500 capped
b08000 15\.2
644a9b balance
EOF
echo "Kate: $passed passed, 0 failed"
