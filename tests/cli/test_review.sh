#!/bin/sh
# Past mornings reviewed: scores, rivals, what is not defined, and days that cannot be had.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
bilt=data/real/de_bilt_2005-2019.csv

review() { # FILE ARGUMENT...
    file=$1
    shift
    run review --weather "$file" --latitude 52.1 --longitude 5.18 --elevation 2 "$@"
}

# score WHAT LEAD SCORE RIVAL KEY: a number of the last JSON answer.
score() {
    python3 - "$out" "$@" 2>/dev/null <<'PYTHON'
import json, sys
path, what, lead, score, rival, key = sys.argv[1:]
rows = [s for s in json.load(open(path))["scores"]
        if s["what"] == what and s["lead_days"] == int(lead) and s["score"] == score and str(s["rival"]) == rival]
print(rows[0][key] if len(rows) == 1 else "%d rows" % len(rows))
PYTHON
}

holds() { # NAME EXPRESSION: of awk
    check "$1" awk "BEGIN { exit !($2) }"
}

review $bilt --animal pony --json
exits 0 "fifteen years, a pony"
check "sound JSON, each row with the keys promised" python3 - "$out" <<'PYTHON'
import json, sys
d = json.load(open(sys.argv[1]))
assert d["schema"] == 1 and (d["first"], d["last"]) == ("2005-10-28", "2019-12-31") and d["mornings"] == 5178
for s in d["scores"]:
    assert set(s) == {"what", "lead_days", "score", "value", "low", "high", "rival", "n"}, s
    assert s["rival"] in (None, "persistence", "normals") and s["lead_days"] in (0, 1, 3)
    if s["low"] is not None:
        assert s["low"] <= s["value"] + 1e-6 and s["value"] <= s["high"] + 1e-6 or s["score"] in ("reliability", "resolution", "uncertainty"), s
by = {(s["what"], s["lead_days"], s["score"], s["rival"]): s["value"] for s in d["scores"]}
assert len(by) == len(d["scores"])
for what in ("restricted:animal", "strict:animal"):
    for lead in (0, 1, 3):
        b, rel, res, unc = (by[what, lead, k, None] for k in ("brier", "reliability", "resolution", "uncertainty"))
        assert abs(b - (rel - res + unc)) < 3e-6, (what, lead)
PYTHON
for lead in 0 1 3; do
    eval "mae$lead=$(score nsc_mean:paddock $lead mae None value)"
done
# shellcheck disable=SC2154 # set above
holds "the farther ahead, the farther off" "$mae0 < $mae1 && $mae1 < $mae3"
holds "today's level beats yesterday's, surely" "$(score nsc_mean:paddock 0 mae_gain persistence low) > 0"
holds "and the usual for the date" "$(score nsc_mean:paddock 0 mae_gain normals low) > 0"
check "a pony is never at brief or none there: not defined" test "$(score strict:animal 0 hit_rate None value)" = None
cp "$out" "$scratch/first"
review $bilt --animal pony --json
same "$out" "$scratch/first" "the same record gives the same scores and intervals"

# What season says of the same mornings counts the same: the turnouts as each morning knew.
review $bilt --animal pony --json --from 2012-01-01 --to 2012-12-31
cp "$out" "$scratch/year"
run season --weather $bilt --latitude 52.1 --longitude 5.18 --elevation 2 --animal pony --csv \
    --from 2012-01-01 --to 2012-12-31
called=$(cut -d, -f17 "$out" | grep -cE '^(timed|brief|none)$')
cp "$scratch/year" "$out"
hit=$(score restricted:animal 0 hit_rate None value) far=$(score restricted:animal 0 false_alarm_ratio None value)
base=$(score restricted:animal 0 base_rate None value)
holds "as many restricted mornings as season shows ($called)" \
    "($hit * $base * 366 / (1 - $far) - $called)^2 < 0.01"
check "a year alone has n 366" test "$(score restricted:animal 0 hit_rate None n)" = 366

# What came later must not change what a morning said.
record "$scratch/to2012.csv" 2005-01-01 2012-12-31
review "$scratch/to2012.csv" --animal pony --json --from 2012-01-01 --to 2012-12-30
for key in me mae rmse coverage80; do
    eval "short_$key=$(score nsc_mean:paddock 3 $key None value)"
done
review $bilt --animal pony --json --from 2012-01-01 --to 2012-12-30
for key in me mae rmse coverage80; do
    eval "short=\$short_$key"
    # shellcheck disable=SC2154
    check "later years leave $key as it was" test "$short" = "$(score nsc_mean:paddock 3 $key None value)"
done

# A gap of three days: they are no truth, nor is the day before the first recorded one a yesterday.
awk -F, '$1 < "2012-06-10" || $1 > "2012-06-12"' $bilt >"$scratch/gap.csv"
review "$scratch/gap.csv" --animal pony --json --from 2012-01-01 --to 2012-12-31
check "a gap is not scored" test "$(score nsc_mean:paddock 0 mae None n)" = 362
check "its mornings are not counted" test "$(number mornings "$out")" = 363

# A forecast behind the record is no truth.
run weather --weather $bilt --latitude 52.1 --csv
sed '/^2019-12-2[7-9]\|^2019-12-3/s/recorded/forecast/' "$out" >"$scratch/ahead.csv"
review "$scratch/ahead.csv"
contains "$out" "to 2019-12-26" "the review ends with the record"
review "$scratch/ahead.csv" --to 2019-12-28
refused 66 "2019-12-26" "no review of a forecast day"

review $bilt --animal pony
exits 0 "text"
tr -s ' \n' '  ' <"$out" >"$scratch/unwrapped"
contains "$scratch/unwrapped" "Of the days that turned out restricted," "says what the hit rate means"
contains "$scratch/unwrapped" "Nothing to tell apart: not defined." "says what never happened"
contains "$scratch/unwrapped" "only laboratory tests" "does not claim to judge the sugar itself"
contains "$out" "your vet" "ends with the vet"
no_nan "$out" "no number that is none"
check "fits into 100 columns" awk 'length > 100 { exit 1 }' "$out"

review $bilt
exits 0 "without animals"
lacks "$out" "Turnout" "no animals, no turnout"

run review --holding data/demo/holding.json
exits 0 "the demo holding, two years"
contains "$out" "not defined" "the usual needs more years"
contains "$out" "Turnout of milkers" "each group"
run review --holding data/demo/holding.json --json
no_nan "$out" "JSON without nan"

# Tests of the grass are the only judge of the sugar itself (values invented).
cp data/demo/holding.json data/demo/weather.csv "$scratch"
printf '%s\n' date,time,subject,what,value,unit,note '2024-06-10,08:00,pump-field,grass-nsc,120,g/kg,' \
    '2024-09-10,,pump-field,grass-nsc,160,g/kg,' '2025-03-10,09:00,pump-field,grass-wsc,250,g/kg,' >"$scratch/diary.csv"
run review --holding "$scratch/holding.json"
exits 0 "a diary with grass tests"
contains "$out" "Against 3 grass tests of pump-field" "they judge the level"
run review --holding "$scratch/holding.json" --json
contains "$out" '"what":"grass_tests:pump-field","lead_days":0,"score":"mae_ln"' "for machines, too"
cp "$out" "$scratch/untuned"
run tune --holding "$scratch/holding.json" --apply
exits 0 "tuned by them"
run review --holding "$scratch/holding.json" --json
check "they judge the untuned level all the same" sh -c "
    grep grass_tests '$out' | sed 's/\].*//' >'$scratch/a'; grep grass_tests '$scratch/untuned' | sed 's/\].*//' | cmp - '$scratch/a'"

if command -v gnuplot >/dev/null; then
    run review --holding data/demo/holding.json --plot "$scratch/review.svg"
    exits 0 "the reliability diagrams"
    contains "$scratch/review.svg" '</svg>' "drawn whole"
    contains "$scratch/review.svg" 'milkers (goat-lactating): not free' "a row for each group"
    review $bilt --plot "$scratch/none.svg"
    refused 66 "nothing to draw" "no animals, no diagram"
    check "and no file" test ! -e "$scratch/none.svg"
else
    echo "# skipped: reliability diagrams: gnuplot is not installed"
fi

review $bilt --from 2012-01-02 --to 2012-01-01
refused 64 "--from" "from after to"
review $bilt --from 2005-01-03
refused 66 "2005-01-04" "before a morning has days to look back at"
review $bilt --to 2020-01-01
refused 66 "2019-12-31" "after the record"
record "$scratch/short.csv" 2019-01-01 2019-10-01
review "$scratch/short.csv"
refused 66 "--from a day" "too short for the sward to settle"
review "$scratch/short.csv" --from 2019-08-01 --json
exits 0 "a short record by request"
check "no interval for it" test "$(score nsc_mean:paddock 3 mae None low)" = None
review $bilt --csv
refused 64 "--csv" "no table of days here"
review $bilt --animal ponny
refused 64 "pony" "an unknown class"
run review --help
contains "$out" "as-yesterday" "help"
finish
