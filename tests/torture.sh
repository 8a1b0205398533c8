#!/bin/sh
# The torture tests: kills, flips, writers, fuzz and power cuts. By hand or nightly; not part of run.sh.
#
#   sh tests/torture.sh          the full counts (hours)
#   sh tests/torture.sh 0.05     a twentieth of them (minutes)
#
# Figures are printed, and kept one a line in torture-figures.jsonl in the folder for temporary files.
set -eu
cd "$(dirname "$0")/.."
folder=$(mktemp -d "${TMPDIR:-/tmp}/croftbook-torture.XXXXXX")
chmod 755 "$folder"
trap '[ -d "$folder/postgres/data" ] && sh tests/postgres.sh stop "$folder/postgres"; rm -rf "$folder"' EXIT
if CROFTBOOK_TEST_POSTGRES=$(sh tests/postgres.sh start "$folder/postgres"); then
    export CROFTBOOK_TEST_POSTGRES
fi
export CROFTBOOK_TORTURE="${1:-1}"
export CROFTBOOK_TORTURE_FIGURES="${CROFTBOOK_TORTURE_FIGURES:-${TMPDIR:-/tmp}/torture-figures.jsonl}"
.venv/bin/python -m pytest -q -m torture -s tests/torture
