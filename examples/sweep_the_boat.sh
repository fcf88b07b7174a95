#!/bin/sh
# Where may the boat sit? Two ways to find the window of its shift in which a rig passes: a loop that checks the
# rig at each place, and one sweep. Both give the same numbers.
#
#   sh examples/sweep_the_boat.sh [RIG [FROM TO]]      in whole inches; BUNKLINE names the program
set -eu

bunkline=${BUNKLINE:-bunkline}
rig=${1:-demo-data/survey-launch-as-changed.toml}
from=${2:--16}
to=${3:-2}

# One check a place: its exit code is the verdict, and its JSON has the tongue share on a line of its own.
loop() {
    inches=$from
    while [ "$inches" -le "$to" ]; do
        verdict=pass
        # A sweep takes every value as stated, whatever its bound: so does this.
        report=$("$bunkline" check "$rig" --as-stated --set "shift.boat=${inches}in" --format json) ||
            verdict=fail
        # The first check listed is the tongue share; its load is the governing one.
        share=$(printf '%s\n' "$report" | sed -n '/"id": "tongue-share"/,/"load"/s/.*"load": \(.*\),/\1/p')
        echo "$inches,$share,$verdict"
        inches=$((inches + 1))
    done
}

# All places at once; the first line names the columns.
sweep() {
    "$bunkline" sweep "$rig" --vary "shift.boat=${from}in..${to}in/1in" \
        --show tongue_share,verdict --format csv | sed 1d
}

by_loop=$(loop)
by_sweep=$(sweep)
if [ "$by_loop" != "$by_sweep" ]; then
    echo "the loop and the sweep differ" >&2
    exit 1
fi
echo "$by_sweep"

# The passing window: the first and the last place that passes.
echo "$by_sweep" | awk -F, '
    $3 == "pass" { if (first == "") first = $1; last = $1 }
    END {
        if (first == "") { print "no place passes"; exit 1 }
        print "passes with the boat shifted from " first " in to " last " in"
    }'
