#!/bin/sh
# Ids, names and notes may be in the letters of any script: nothing that is cut to fit is cut within a letter, and
# columns are counted in letters. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
farm=$scratch/farm
mkdir "$farm"
cp data/demo/weather.csv "$farm"
whole() { # NAME: all output is UTF-8, and nothing stands in for half a letter
    check "$1" python3 - "$out" <<'P'
import sys
text = open(sys.argv[1], "rb").read().decode("utf-8")
assert "?" not in text and "\ufffd" not in text, [l for l in text.splitlines() if "?" in l or "\ufffd" in l]
P
}
aligned() { # REGEX NAME: what it finds stands in one column, counted in letters, on two lines or more
    check "$2" python3 - "$out" "$1" <<'P'
import re, sys
lines = open(sys.argv[1], encoding="utf-8").read().splitlines()
at = [m.end() for m in (re.search(sys.argv[2], l) for l in lines) if m]
assert len(at) > 1 and len(set(at)) == 1, (at, lines)
P
}
renamed() { # OLD NEW...: the demo's holding with other ids
    cp data/demo/holding.json "$farm/holding.json"
    while [ $# -gt 1 ]; do
        sed "s/\"$1\"/\"$2\"/" "$farm/holding.json" >"$scratch/new" && mv "$scratch/new" "$farm/holding.json"
        shift 2
    done
}

# Groups and paddocks, short and long.
renamed wethers 'козы-молочные-на-севере-у-реки' donkey 'äsel' grey-pony 'серая-кобыла-на-склоне-за-рекой' pump-field 'лугу-насоса-за-рекой' old-bank 'бугор'
run hay --holding "$farm/holding.json" --date 2025-01-15
whole "hay: letters are whole"
contains "$out" 'козы-молочные-на-севере-...' "an id that is too long ends with points"
aligned '^  (milkers|козы|серая|äsel)\S* +[0-9]+(?= )' "and columns stay in line"
run season --holding "$farm/holding.json" --from 2025-04-18 --to 2025-04-19
whole "season: letters are whole"
aligned '2025-04-1[89](?= )' "and columns stay in line"
contains "$out" 'лугу-насоса-за-рекой 2025-04-18' "a paddock's whole id"
run season --holding "$farm/holding.json" --from 2025-04-01 --to 2025-04-20 --plot text
whole "a picture in letters: letters are whole"

# A note, and an id that the holding does not have, at each place where they could be cut.
e10='éééééééééé'
for shift in '' a aa; do
    printf 'date,time,subject,what,value,unit,note\n2025-04-22,,серая-кобыла-на-склоне-за-рекой,foot-signs,hot-feet,,"%s"\n2025-04-22,,%s,foot-signs,hot-feet,,\n' \
        "$shift$(for i in 1 2 3 4 5 6 7 8 9 0; do printf '%s五五五%s' $e10 $e10; done)" "x$shift$e10${e10}五五五$e10" >"$farm/diary.csv"
    run today --holding "$farm/holding.json" --date 2025-04-23 --no-log --short
    whole "a long note, and a long name that nobody has $shift"
    run today --holding "$farm/holding.json" --date 2025-04-23 --no-log --json
    whole "the same for machines $shift"
    run round "$farm" --date 2025-04-23 --csv
    whole "and on the round $shift"
    run tune --holding "$farm/holding.json"
    whole "and where grass tests are told $shift"
done
rm "$farm/diary.csv"

finish
