#!/usr/bin/env bash
# Everything that must hold: installs what the tests need, then lint, format, types and tests.
#
#   bash tests/run.sh            all of it
#   bash tests/run.sh -k shelf   arguments go to pytest (lint and types still run)
#
# What is installed is what .ci/lock.txt names, version and hash; with CROFTBOOK_RANGES=1 it is the newest that the
# ranges in pyproject.toml allow.
#
# On Debian it installs PostgreSQL, Chromium and its driver where they are missing (as root or with
# sudo); elsewhere the tests that need them are skipped and say so.
set -euo pipefail
cd "$(dirname "$0")/.."

root() { if [ "$(id -u)" = 0 ]; then "$@"; elif command -v sudo >/dev/null; then sudo "$@"; else return 1; fi; }

debian_packages() {
    command -v apt-get >/dev/null || return 0
    local wanted=()
    ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1 || wanted+=(postgresql)
    command -v chromium >/dev/null || wanted+=(chromium chromium-driver fonts-dejavu-core)
    ls /usr/share/fonts/truetype/liberation >/dev/null 2>&1 || wanted+=(fonts-liberation)  # heights are held in its letters
    python3 -c 'import ensurepip' 2>/dev/null || wanted+=(python3-venv)
    if [ ${#wanted[@]} != 0 ]; then
        echo "installing ${wanted[*]}"
        # A server that the package would start by itself is not wanted: the tests start their own.
        root env DEBIAN_FRONTEND=noninteractive apt-get update -qq >/dev/null || true
        get "${wanted[@]}" || echo "could not install ${wanted[*]}; what needs them is skipped"
    fi
    # The same chromium without windows is quicker: not every Debian has it, and the tests do without.
    command -v chromium-headless-shell >/dev/null || get chromium-headless-shell 2>/dev/null || true
}

get() { root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@" >/dev/null; }

python=python3
command -v python3.11 >/dev/null && python=python3.11

if python3 -c 'import ensurepip' 2>/dev/null; then
    debian_packages &  # beside pip, which waits for the network and for one core
else
    debian_packages
fi
[ -x .venv/bin/python ] || "$python" -m venv .venv
pip() { .venv/bin/python -m pip --disable-pip-version-check "$@"; }
if [ -n "${CROFTBOOK_RANGES:-}" ]; then
    pip install --quiet --editable '.[test,many,dashboard,postgres]'
else
    # What nobody imports need not be compiled.
    pip install --quiet --no-compile --require-hashes --requirement .ci/lock.txt
    pip install --quiet --no-deps --no-build-isolation --editable .
fi
wait

# Thousands of books are written, synced and thrown away: in memory, where there is room, none waits for the disk.
memory_has_room() {
    [ "$(df --output=avail -k /dev/shm 2>/dev/null | tail -n 1)" -gt 6000000 ] &&
        ! grep -q '^[^ ]* /dev/shm [^ ]* [^ ]*noexec' /proc/mounts
}
where=/tmp
memory_has_room 2>/dev/null && where=/dev/shm
folder=$(mktemp -d "$where/croftbook-tests.XXXXXX")
chmod 755 "$folder"
mkdir "$folder/tmp"
export TMPDIR="$folder/tmp"
cleanup() {
    [ -d "$folder/postgres/data" ] && sh tests/postgres.sh stop "$folder/postgres"
    rm -rf "$folder"
}
trap cleanup EXIT
failed=()

echo "== ruff"
.venv/bin/ruff check . || failed+=(ruff)
.venv/bin/ruff format --check . || failed+=(format)
.venv/bin/mypy >"$folder/mypy" 2>&1 &  # has one core to itself while the tests are collected
mypy=$!

if CROFTBOOK_TEST_POSTGRES=$(sh tests/postgres.sh start "$folder/postgres"); then
    export CROFTBOOK_TEST_POSTGRES
fi
# Programs that tests start read compiled modules, and do not compile each time.
unset PYTHONDONTWRITEBYTECODE
export HYPOTHESIS_STORAGE_DIRECTORY="$folder/hypothesis"

# A browser mostly waits, for pages and for rests of two seconds: its tests run beside the others.
.venv/bin/python -m pytest -n 2 -m browser tests/browser >"$folder/browser" 2>&1 &
browser=$!
echo "== pytest"
.venv/bin/python -m pytest -n 2 --dist worksteal "$@" || failed+=(pytest)
echo "== browser"
wait "$browser" || failed+=(browser)
cat "$folder/browser"
echo "== mypy"
wait "$mypy" || failed+=(mypy)
cat "$folder/mypy"

[ ${#failed[@]} = 0 ] || { echo "failed: ${failed[*]}"; exit 1; }
