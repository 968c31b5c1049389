#!/bin/sh
# outlook: good input, its forms, and what it refuses. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

outlook() { # FILE ARGUMENT...
    file=$1
    shift
    run outlook --weather "$file" --latitude 52.1 --longitude 5.18 --elevation 2 --animal goat-dry "$@"
}
whole=data/real/de_bilt_2005-2019.csv

outlook $whole --date 2019-02-01
exits 0 "an outlook from a morning of the record"
contains "$out" "Outlook from 1 February 2019 to 31 July 2019" "six whole months"
contains "$out" "the weather of 14 past years" "the years it is made of"
contains "$out" "280 runs, seed 1" "the runs and the seed"
contains "$out" "5 years in 10, grazing has to be shortened from the first day on" "a plain sentence first"
matches "$out" '^  2019-05   31 ' "a row a month"
contains "$out" "Planning help, not a diagnosis." "what it is not"
check "no line is wider than the page" test -z "$(awk "length > 100" "$out")"
lacks "$out" "THIN" "fourteen years are no thin record"
no_nan "$out" "no number that is none"

outlook $whole --date 2018-12-01 --plain
matches "$out" '8 years in 10, shortened grazing has begun by [0-9]+ (January|February) 2019; 5 in 10, by' "before it"

outlook $whole --date 2019-02-01 --json
cp "$out" "$scratch/a.json"
exits 0 "for machines"
check "valid JSON with what the interface names" python3 - "$out" <<'P'
import json, sys
o = json.load(open(sys.argv[1]))
assert o["schema"] == 1 and o["as_of"] == "2019-02-01" and o["members"] == 280 and o["seed"] == 1
a, p = o["animals"][0], o["paddocks"][0]
assert a["id"] == "animal" and a["onset"]["p10"] <= a["onset"]["p50"] <= a["onset"]["p90"]
assert [m["month"] for m in a["restricted_days"]] == ["2019-%02d" % m for m in range(2, 8)]
for m in a["restricted_days"]:
    assert 0 <= m["p10"] <= m["p50"] <= m["p90"] <= m["days"]
    assert m["brief_or_none"]["p90"] <= m["p90"] and m["tested"]["p10"] <= m["p10"]
for m in p["growth_kg_dm_ha"] + p["nsc_g_per_kg"]:
    assert 0 < m["p10"] < m["p50"] < m["p90"]
P
no_nan "$out" "no nan for machines"

outlook $whole --date 2019-02-01 --json
same "$out" "$scratch/a.json" "the same again, to the last digit"
outlook $whole --date 2019-02-01 --json --seed 2
check "another seed, other draws" sh -c "! cmp -s '$out' '$scratch/a.json'"
check "the advice knows no chance" python3 - "$out" "$scratch/a.json" <<'P'
import json, sys
a, b = (json.load(open(f))["animals"][0] for f in sys.argv[1:])
for m in a["restricted_days"] + b["restricted_days"]:
    del m["tested"]
assert a == b
P
outlook $whole --date 2019-02-01 --json --draws 0
contains "$out" '"members":14,' "without draws a member a year"
contains "$out" '"tested":null' "and no word on tests"

# of the morning's own day only the night is known, and nothing of what came later
record "$scratch/until.csv" 2005-01-01 2019-02-01
sed -i 's/^\(2019-02-01,[^,]*\),[^,]*,[^,]*,[^,]*/\1,19,44,9/' "$scratch/until.csv"
outlook "$scratch/until.csv" --date 2019-02-01 --json
same "$out" "$scratch/a.json" "the future of the file is not looked at"

outlook $whole --date 2016-02-29 --months 12
exits 0 "from a 29 February, a year ahead"
contains "$out" "Outlook from 29 February 2016 to 28 February 2017" "the rest of February and twelve months"
outlook $whole --date 2016-02-29 --months 1 --plain
exits 0 "a month ahead"

record "$scratch/four.csv" 2014-06-01 2018-09-30
outlook "$scratch/four.csv" --date 2018-10-01 --months 2
exits 0 "four past years"
contains "$out" "THIN: only 4 past years" "are said to be thin"
record "$scratch/one.csv" 2017-01-01 2018-09-30
outlook "$scratch/one.csv" --date 2018-10-01
refused 66 "an outlook needs at least 2 past years" "one past year is none"

run outlook --weather "$scratch/four.csv" --latitude 52.1 --date 2018-10-01
exits 0 "without an animal"
contains "$out" "growth, kg/ha" "the grass alone"

# a forecast takes the place of the first days
cat >"$scratch/forecast.json" <<'J'
{"latitude": 52.1, "longitude": 5.18, "utc_offset_seconds": 7200, "timezone": "Europe/Amsterdam",
 "daily_units": {"temperature_2m_max": "°C", "temperature_2m_min": "°C", "precipitation_sum": "mm",
                 "shortwave_radiation_sum": "MJ/m²"},
 "daily": {"time": ["2018-10-01", "2018-10-02", "2018-10-03", "2018-10-04", "2018-10-05", "2018-10-06"],
   "temperature_2m_max": [14, 14, 14, 13, 13, 12], "temperature_2m_min": [-2, -3, -3, -4, -4, -4],
   "precipitation_sum": [0, 0, 0, 0, 0, 0], "shortwave_radiation_sum": [14, 14, 14, 14, 14, 14]}}
J
cat >"$scratch/holding.json" <<'J'
{"sugarlea": 1, "name": "Invented", "site": {"latitude": 52.1, "longitude": 5.18, "timezone": "Europe/Amsterdam"},
 "weather": [{"file": "four.csv"}, {"file": "forecast.json"}], "paddocks": [{"id": "dyke", "area_ha": 1}],
 "animals": [{"id": "ponies", "class": "pony"}, {"id": "goats", "class": "goat-dry"}]}
J
run outlook --holding "$scratch/holding.json" --date 2018-10-01 --months 1 --json
cp "$out" "$scratch/cold.json"
contains "$out" '"forecast_to":"2018-10-06"' "the forecast is used"
sed 's/,{"file": "forecast.json"}//; s/, {"file": "forecast.json"}//' "$scratch/holding.json" >"$scratch/none.json"
run outlook --holding "$scratch/none.json" --date 2018-10-01 --months 1 --json
contains "$out" '"forecast_to":null' "without one that is said"
check "cold clear days ahead raise the sugar" python3 - "$scratch/cold.json" "$out" <<'P'
import json, sys
cold, plain = (json.load(open(f))["paddocks"][0]["nsc_g_per_kg"][0]["p50"] for f in sys.argv[1:])
assert cold > plain + 3, (cold, plain)
P

# south of the equator, by the same weather half a year on
awk -F, 'BEGIN { OFS = "," } NR == 1 { print; next }
    { y = substr($1, 1, 4); m = substr($1, 6, 2) + 6; if (m > 12) { m -= 12; y++ }
      d = substr($1, 9, 2); if (d <= 28 || m != 2) { $1 = sprintf("%04d-%02d-%s", y, m, d); print } }' \
    "$whole" | awk -F, '$1 !~ /-(04|06|09|11)-31$/' >"$scratch/south.csv"
run outlook --weather "$scratch/south.csv" --latitude -37 --animal goat-dry --date 2018-08-01 --json
exits 0 "in the south"

outlook $whole --date 2019-02-01 --months 13
refused 64 "--months" "more than twelve months"
outlook $whole --date 2019-02-01 --months 1.5
refused 64 "not a whole number" "half a month"
outlook $whole --date 2019-02-01 --draws 2.5
refused 64 "not a whole number" "half a paddock"
outlook $whole --date 2019-02-01 --seed -1
refused 64 "--seed" "a seed below nought"
outlook $whole --date 2019-02-01 --csv
refused 64 "no such option" "no table of days"
outlook $whole --date 2021-02-01
refused 66 "older than 7 days" "a morning long after the record"
# The calendar ends with the year 2200 (184 years on, the leap days are the same but for that year's).
record "$scratch/years.csv" 2005-01-01 2016-12-29
awk -F, -v OFS=, 'NR > 1 { $1 = substr($1, 1, 4) + 184 substr($1, 5) } $1 != "2200-02-29"' "$scratch/years.csv" >"$scratch/late.csv"
outlook "$scratch/late.csv" --date 2200-12-30
refused 64 "--date: is too late" "months after the last that is reckoned with"
outlook "$scratch/late.csv" --date 2200-07-01 --months 6
exits 0 "up to the last day of all"
contains "$out" "to 31 December 2200" "and that month is there"
outlook "$scratch/missing.csv" --date 2019-02-01
refused 66 "missing.csv" "a file that is not there"
outlook $whole --date 2019-02-01 --plot "$scratch/fan.gif"
refused 64 ".svg, .png or .pdf" "a picture of another kind"
if command -v gnuplot >/dev/null 2>&1; then
    outlook $whole --date 2019-02-01 --plot "$scratch/fan.svg"
    exits 0 "a picture"
    contains "$out" "8 in 10" "and the text with it"
    contains "$scratch/fan.svg" "</svg>" "the picture is whole"
    contains "$scratch/fan.svg" "animal (goat-dry)" "and names its group"
    no_nan "$scratch/fan.svg" "no nan is drawn"
    run outlook --weather "$scratch/four.csv" --latitude 52.1 --date 2018-10-01 --draws 0 --months 12 --plot "$scratch/grass.png"
    exits 0 "a picture of grass alone, a year ahead, without draws"
    check "it is one" test -s "$scratch/grass.png"
    sed "s|\"Invented\"|\"It's \`touch $scratch/marker\` \$(echo '$')(touch $scratch/marker)\"|" "$scratch/holding.json" \
        >"$scratch/odd.json"
    run outlook --holding "$scratch/odd.json" --date 2018-10-01 --plot "$scratch/odd.svg"
    exits 0 "a hostile name"
    contains "$scratch/odd.svg" "touch $scratch/marker" "is drawn as text"
    check "and starts nothing" test ! -e "$scratch/marker"
else
    skip "pictures" "gnuplot is not installed"
fi

run help outlook
exits 0 "its help"
contains "$out" "--months" "with its options"

finish
