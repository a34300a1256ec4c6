# For the checks that run other programs; sourced. What a check needs is installed where it is
# missing: system packages by apt, others into a folder outside the clone.

export PIP_DISABLE_PIP_VERSION_CHECK=1 npm_config_audit=false npm_config_fund=false
mkdir -p "${CARGO_TARGET_DIR:-target}"
target=$(cd "${CARGO_TARGET_DIR:-target}" && pwd)
tools=${QUILLET_TOOLS:-${XDG_CACHE_HOME:-$HOME/.cache}/quillet/tools}
mkdir -p "$tools"

# skip WHAT WHY: says so and passes.
skip() {
    echo "skipped: $1, for $2"
    exit 0
}

# quietly COMMAND…: its output only where it fails.
quietly() {
    local said
    said=$("$@" 2>&1) || { printf '%s\n' "$said" | tail -n 20; return 1; }
}

# packages NAME…: Debian's packages, installed where missing.
packages() {
    local missing=() name
    for name in "$@"; do
        dpkg-query -W -f '${Status}' "$name" 2>/dev/null | grep -q 'ok installed' || missing+=("$name")
    done
    [ ${#missing[@]} -gt 0 ] || return 0
    command -v apt-get >/dev/null || return 1
    echo "installing ${missing[*]}"
    alone installed "${missing[@]}"
}

# alone COMMAND…: waits while another check installs something.
alone() (
    exec 9>"$tools/installing"
    command -v flock >/dev/null && flock 9
    "$@"
)

installed() {
    export DEBIAN_FRONTEND=noninteractive
    quietly apt-get install -y --no-install-recommends "$@" && return 0
    quietly apt-get update && quietly apt-get install -y --no-install-recommends "$@"
}

# node24: Node 24, from its npm package where the one at hand is older.
node24() {
    command -v npm >/dev/null || packages nodejs npm || return 1
    local major
    major=$(node --version 2>/dev/null | sed 's/^v\([0-9]*\).*/\1/')
    [ "${major:-0}" -lt 24 ] || return 0
    local bin=$tools/node/node_modules/node/bin
    "$bin/node" --version >/dev/null 2>&1 ||
        alone quietly npm install --prefix "$tools/node" node@24 || return 1
    export PATH=$bin:$PATH
    "$bin/node" --version >/dev/null
}

# program: builds the quillet program, named by $QUILLET.
program() {
    cargo build --quiet --package quillet
    export QUILLET=$target/debug/quillet
}

# pens: a fresh folder that holds a copy of the examples.
pens() {
    local folder
    folder=$(mktemp -d "$target/pens.XXXXXX")
    cp examples/*.quillet "$folder"
    echo "$folder"
}

# chromium: Chromium, and the folder of its driver in $driver.
chromium() {
    driver=$tools/page
    [ -d "$driver/node_modules/playwright-core" ] || {
        mkdir -p "$driver" && alone quietly npm install --prefix "$driver" playwright-core@1.65.1
    } || skip "the page in a browser" "its driver cannot be installed"
    packages chromium || skip "the page in a browser" "Chromium cannot be installed"
}

# in_chromium FOLDER PICTURES: the built page in a real browser, against $QUILLET; its packages are installed.
in_chromium() {
    chromium
    timeout 400 node editors/web/test/window.mjs "$driver" "$QUILLET" "$1" "$2"
    timeout 300 node editors/web/test/refused.mjs "$driver" "$1" "$2"
}
