#!/bin/sh
# What a club's CI runs on every change to its rig files: it is red where a rig got worse, or cannot be read.
#
#   sh examples/club/check.sh [CLUB [REPORTS]]      BUNKLINE names the program, if it is not on the path
#
# CLUB is the folder of the rig files with their baseline, this one if it is left out. REPORTS is a folder for what CI shows:
# rigs.xml is a report of tests, rigs.md a table for the pull request.
set -eu

bunkline=${BUNKLINE:-bunkline}
club=${1:-$(dirname "$0")}
reports=${2:-}

if ! command -v "$bunkline" >/dev/null; then
    echo "expected the program bunkline on the path or in BUNKLINE, found none" >&2
    exit 2
fi

status=0
"$bunkline" check "$club" --baseline "$club/baseline.json" || status=$?

if [ -n "$reports" ]; then
    mkdir -p "$reports"
    # The exit code and the messages are those from above.
    "$bunkline" check "$club" --baseline "$club/baseline.json" --format junit >"$reports/rigs.xml" 2>/dev/null || :
    "$bunkline" check "$club" --summary --format markdown >"$reports/rigs.md" 2>/dev/null || :
fi

case $status in
0) echo "no rig got worse" ;;
1) echo "if that is meant: $bunkline check $club --write-baseline $club/baseline.json" >&2 ;;
esac
exit "$status"
