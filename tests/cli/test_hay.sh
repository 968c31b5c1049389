#!/bin/sh
# hay: a goat herd, two ponies and a mixed yard as a new user would try them, the sums
# done by hand beside them; then weather, forms, and what is refused.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

site='"site": {"latitude": 52.1, "longitude": 5.18, "timezone": "Europe/Amsterdam"}'
hay() { # NAME ARGUMENT...: the plan of $scratch/NAME.json
    name=$1
    shift
    run hay --holding "$scratch/$name.json" "$@"
}
holding() { # NAME, then its text without the head
    { echo "{\"sugarlea\": 1, \"name\": \"$1\", $site,"; cat; } >"$scratch/$1.json"
}

# ---- a goat herd without weather. By hand: 12 does of 60 kg at 2.5 % (goat-dry, models/animals.json) are
# 18 kg DM, at 89.8 % DM (mature grass hay, NASEM 2021) 20.045 kg of hay a day; 1 November to 30 April
# are 30+31+31+28+31+30 = 181 days: 3628 kg eaten. 6 % lost in the store and 10 % at the feeder:
# 3628/(0.94 x 0.90) = 4288 kg, 23.69 a day. 140 bales of 18 kg are 2520 kg: 106.4 days, empty on the
# 107th, 15 February. Doubt 0.10: 8 in 10 is times exp(0.842 x 0.1) = 1.088: 4666 kg; 2146 short: 119.2
# bales, so 120: 780.00. 19 in 20: times exp(1.645 x 0.1): 5056 kg, 140.9 bales, so 141.
holding herd <<'J'
 "paddocks": [{"id": "dyke", "area_ha": 2}],
 "animals": [{"id": "does", "class": "goat-dry", "count": 12, "weight_kg": 60}],
 "hay": {"stock": [{"feed": "grass-hay-mature", "bales": 140, "bale_kg": 18}],
         "stored": "default-inside", "fed_from": "default-goat-keyhole", "price_per_bale": 6.5}}
J
hay herd --date 2025-11-01
exits 0 "a goat herd"
contains "$out" "without weather" "that there is no weather is said"
contains "$out" "Your 140 bales (2520 kg) run out about 15 February 2026" "the answer first"
contains "$out" "Order by " "by when to order"
matches "$out" '^  does +12 +1\.67 +1\.67 ' "a row a group"
contains "$out" "Never feed less than the advice" "hay is not stretched"
check "80 columns" awk 'length($0) > 80 { exit 1 }' "$out"
no_nan "$out" "no number that is none"
sed 's/"does"/"goat-laminitis-history"/' "$scratch/herd.json" >"$scratch/long.json"
hay long --date 2025-11-01
check "a long id moves the heads along" awk '/^  group / { head = index($0, "off grass") + 8 }
    /^  goat-lam/ { line = $0; sub(/( +[0-9]+)( +[0-9]+)( +[0-9]+)$/, "", line); at = length(line) }
    END { exit !(head && head == at) }' "$out"
hay herd --date 2025-11-01 --arithmetic
contains "$out" "12 x 1.67 kg x 181 days = 3628 kg eaten" "the sum"
contains "$out" "3628 / ((1 - 0.060) x (1 - 0.100)) = 4288 kg in store" "losses divide"
hay herd --date 2025-11-01 --json
check "JSON as the interface names it, and the sums by hand" python3 - "$out" <<'P'
import json, sys
o = json.load(open(sys.argv[1]))
assert o["schema"] == 1 and o["as_of"] == "2025-11-01" and o["until"] == "2026-04-30"
assert o["basis"] == "table" and o["years"] == 0 and o["paddocks"] == []
n = o["need_kg"]
assert abs(n["p50"] - 4288) <= 1 and n["p10"] < n["p50"] < n["p90"]
assert abs(n["p90"] - 4288 * 1.1367) < 12 and abs(n["p10"] - 4288 / 1.1367) < 12
assert o["stock_kg"] == 2520 and o["stock_bales"] == 140 and o["bale_kg"] == 18
assert o["runs_out"]["p50"] == "2026-02-15" and o["runs_out"]["p10"] < "2026-02-15" < o["runs_out"]["p90"]
b, c = o["bales_to_buy"], o["cost"]
assert b["p80"] == 120 and b["p95"] == 141
assert c["p80"] == 6.5 * b["p80"] and c["p95"] == 6.5 * b["p95"]
assert "2025-12-01" < o["order_by"] < "2026-01-25"
assert o["losses"] == {"store_percent": 6, "feed_percent": 10, "convention": "divided"}
g = o["groups"]
assert len(g) == 1 and g[0]["id"] == "does" and g[0]["need_kg"] == n and abs(g[0]["eaten_kg_per_head"] - 1.670) < 0.001
assert abs(o["off_grass"]["need_kg"] - n["p50"]) <= 1
P
no_nan "$out" "no nan for machines"
# marked up: 3628 x 1.06 x 1.10 = 4230 kg, less than is needed
hay herd --date 2025-11-01 --mark-up --arithmetic
contains "$out" "3628 x (1 + 0.060) x (1 + 0.100) = 4230 kg in store" "the other rule, on request"
contains "$out" "buys less than is lost" "and said to be the lesser"
# 10 days from 1 November: 10 x 23.69 = 237 kg; 2520 kg last
hay herd --date 2025-11-01 --until 2025-11-10
contains "$out" "last to 10 November 2025, 9 times in 10 and more" "hay that lasts"
contains "$out" "Nothing has to be bought" "needs no buying"
lacks "$out" "Order" "nor ordering"
hay herd --date 2025-11-01 --until 2026-11-01
exits 0 "a year ahead"

# ---- two ponies on round bales. By hand: the class equid-laminitis-history eats 1.5 % DM: 3.75 kg DM, /0.898 = 4.18 kg a head. December to
# April: 151 days, 2 x 4.176 x 151 = 1261 kg eaten; a net under a round bale loses 6 % (Martinson et al. 2012),
# the store 6 % (midpoint of 5 to 7): 1427 kg. A bale of 1.22 m by 1.22 m: pi/4 x 1.22^3 = 1.4262 m3, at
# 179.6 kg/m3 256.1 kg: five are 1281 kg; 147 kg short in the middle: 1 bale.
holding ponies <<'J'
 "weather": [{"file": "w.csv"}], "paddocks": [{"id": "meadow", "area_ha": 0.8}],
 "animals": [{"id": "both", "class": "equid-laminitis-history", "count": 2, "weight_kg": 250}],
 "hay": {"stock": [{"feed": "grass-hay-mature", "bales": 5, "shape": "round", "bale_m": [1.22, 1.22],
                    "nsc_percent": 9.5, "nsc_is": "wsc+starch"}],
         "stored": "in-ground", "fed_from": "round-net", "price_per_bale": 40}}
J
record "$scratch/w.csv" 2005-01-01 2018-11-30
hay ponies --date 2018-12-01 --no-grass --arithmetic
exits 0 "two ponies kept off grass"
contains "$out" "2 x 4.18 kg x 151 days = 1261 kg eaten" "as by hand"
contains "$out" "5 bales x 256.1 kg = 1281 kg" "bales by their measures"
contains "$out" "= 1427 kg in store" "with losses"
hay ponies --date 2018-12-01
contains "$out" "weather of 13 past years (2005 to 2017)" "with weather, its years"
contains "$out" "would need 1427 kg" "and what it were without grass"
contains "$out" "Buy 1 bale of 256 kg" "one bale is one bale"
contains "$out" "stand within reach" "grass beside it"
lacks "$out" "THIN" "thirteen years are no thin record"
hay ponies --date 2018-12-01 --json
cp "$out" "$scratch/a.json"
check "grass saves hay, and never more than it can" python3 - "$out" <<'P'
import json, sys
o = json.load(open(sys.argv[1]))
n, g = o["need_kg"], o["groups"][0]
assert o["basis"] == "weather" and o["years"] == 13
assert n["p10"] < n["p50"] < n["p90"] and n["p50"] < o["off_grass"]["need_kg"] == 1427
# brief or none on most winter days: grass gives 2 x 151 d x some 0.5 kg DM at most
assert n["p50"] > 0.7 * 1427, n
p = o["paddocks"][0]
dm = (1427 - n["p50"]) * 0.94 * 0.94 * 0.898  # what hay saved is what grass gave
assert abs(dm - p["eaten_kg_dm"]["p50"]) < 0.25 * dm + 20, (dm, p)
assert p["growth_kg_dm"]["p10"] < p["growth_kg_dm"]["p50"] < p["growth_kg_dm"]["p90"]
P
hay ponies --date 2018-12-01 --json
same "$out" "$scratch/a.json" "the same again, to the last digit"
record "$scratch/w.csv" 2005-01-01 2019-06-30
hay ponies --date 2018-12-01 --json
cp "$out" "$scratch/a.json"
record "$scratch/w.csv" 2005-01-01 2018-12-01 # of the morning's own day only the night is known
sed -i 's/^\(2018-12-01,[^,]*\),[^,]*,[^,]*,[^,]*/\1,19,44,3/' "$scratch/w.csv"
hay ponies --date 2018-12-01 --json
same "$out" "$scratch/a.json" "the future of the file is not looked at"

printf 'date,time,subject,what,value,unit,note\n2018-11-29,07:00,both,foot-signs,hot-feet,,\n' >"$scratch/diary.csv"
hay ponies --date 2018-12-01
contains "$out" "foot signs stand in the diary for both" "the plan is for animals that are well"
printf '2018-11-30,07:00,both,vet,cleared,,\n' >>"$scratch/diary.csv"
hay ponies --date 2018-12-01
lacks "$out" "foot signs" "once cleared nothing is said"
rm "$scratch/diary.csv"

# ---- a mixed yard: weighed and loose hay of two kinds, straw, hay fed daily, poor teeth, a stocked paddock.
# By hand off grass, kg DM a day (models/animals.json): 2 horses 500 kg x 2 % = 20; pony 250 x 2.3 % = 5.75; 8 ewes
# of 70 kg x 2.5 % = 14, all /0.898 for mature hay: 44.27 kg. The donkey, 180 kg x 1.5 % = 2.7 kg DM in all, has poor
# teeth: mixed hay (86.4 % DM): 2.7/0.898 = 3.01 kg of the first lot's dry matter. 151 days: 7139 kg. Loose: 20 m3 x
# 60 = 1200 kg of mixed hay, of the first lot's dry matter 1154.6; with 1500 2654.6. Losses 6 and 15 %.
holding yard <<'J'
 "weather": [{"file": "w.csv"}],
 "paddocks": [{"id": "meadow", "area_ha": 3, "kept": {"how": "stocked"}}, {"id": "bank", "area_ha": 1}],
 "animals": [{"id": "horses", "class": "horse", "count": 2, "weight_kg": 500, "paddock": "meadow"},
  {"id": "pony", "class": "pony", "weight_kg": 250, "paddock": "meadow"},
  {"id": "donkey", "class": "donkey", "weight_kg": 180, "paddock": "bank", "history": ["poor-teeth"],
   "fed_daily": [{"feed": "mixed-hay", "kg": 1}]},
  {"id": "ewes", "class": "sheep-dry", "count": 8, "weight_kg": 70, "paddock": "bank"}],
 "hay": {"stock": [{"feed": "grass-hay-mature", "kg": 1500}, {"feed": "mixed-hay", "m3": 20, "shape": "loose"},
                   {"feed": "wheat-straw", "bales": 30, "bale_kg": 14}]}}
J
hay yard --date 2018-12-01 --no-grass --json
check "a mixed yard by hand" python3 - "$out" <<'P'
import json, sys
o = json.load(open(sys.argv[1]))
need = 151 * ((20 + 5.75 + 14) / 0.898 + 2.7 / 0.898) / (0.94 * 0.85)
assert abs(o["need_kg"]["p50"] - need) < 3, (o["need_kg"], need)
assert abs(o["stock_kg"] - 2654.6) < 0.1 and o["stock_weighed_kg"] == 2700 and o["stock_bales"] is None
assert o["cost"]["p80"] is None and o["bale_kg"] == 18
assert abs(sum(g["need_kg"]["p50"] for g in o["groups"]) - o["need_kg"]["p50"]) < 3
P
hay yard --date 2018-12-01
exits 0 "with weather"
contains "$out" "straw is no hay" "straw is named"
contains "$out" 'is "stored"' "what was assumed"
contains "$out" "bales of 18 kg" "and of bales"
check "each paddock beside it" sh -c "grep -q '^  meadow: ' '$out' && grep -q '^  bank: ' '$out'"
hay yard --date 2018-12-01 --json
check "no group is given less than its advice leaves it" python3 - "$out" <<'P'
import json, sys
o = json.load(open(sys.argv[1]))
d = {g["id"]: g for g in o["groups"]}["donkey"]
assert 1 * 0.864 / 0.898 <= d["eaten_kg_per_head"] <= 3.02, d  # its daily hay at least, its whole intake at most
assert o["need_kg"]["p50"] < o["off_grass"]["need_kg"]
P

# a paddock too small for its animals: hay takes the grass's place
sed 's/"area_ha": 1}/"area_ha": 0.05}/' "$scratch/yard.json" >"$scratch/small.json"
hay yard --date 2018-12-01 --json
cp "$out" "$scratch/large.out"
hay small --date 2018-12-01 --json
check "too little grass is hay" python3 - "$scratch/large.out" "$out" <<'P'
import json, sys
large, small = ({g["id"]: g["eaten_kg_per_head"] for g in json.load(open(f))["groups"]} for f in sys.argv[1:])
assert small["ewes"] > large["ewes"] + 0.5 and small["donkey"] >= large["donkey"], (large, small)
assert small["horses"] == large["horses"]
P
hay small --date 2018-12-01
contains "$out" "Grazing is short from about" "and said"
# one too small from the first day on, as `today` says too
sed 's/"area_ha": 1}/"area_ha": 0.001}/' "$scratch/yard.json" >"$scratch/tiny.json"
hay tiny --date 2018-12-01
contains "$out" "Grazing is short from today on" "from the first day"
run today --holding "$scratch/tiny.json" --date 2018-12-01 --no-log
contains "$out" "Grass: too little for its animals" "which is what today says"

# ---- thin, short and old records
record "$scratch/w.csv" 2015-06-01 2018-11-30
hay ponies --date 2018-12-01
contains "$out" "THIN: only 3 past years" "few years are said"
record "$scratch/w.csv" 2017-10-01 2018-11-30
hay ponies --date 2018-12-01
exits 0 "one past year: by the tables"
contains "$out" "the weather was not used" "said so"
contains "$out" "as if no grass were eaten" "and what that means"
record "$scratch/w.csv" 2005-01-01 2018-10-31
hay ponies --date 2018-12-01 --json
contains "$out" '"basis":"table"' "weather a month old is not used"
hay ponies --date 2018-12-01 --json --allow-stale
contains "$out" '"basis":"weather"' "unless asked for"

# ---- without a holding; in the south; nothing in store
run hay --animal goat-dry --weight 60 --latitude 52.1 --date 2025-11-01
exits 0 "one goat without a holding"
contains "$out" "How much hay is in store, the holding does not say" "no stock is named"
lacks "$out" "Order" "and no date to order by"
run hay --animal goat-dry --latitude -37 --date 2025-05-01 --json
contains "$out" '"until":"2025-10-31"' "the lean season of the south"
contains "$out" '"stock_kg":null' "no stock, no number"
run hay --animal goat-dry --date 2025-11-01
refused 64 "--until" "no latitude, no season"
run hay --animal goat-dry --date 2025-11-01 --until 2026-01-31
exits 0 "with a last day it does not matter"
run hay --weather "$scratch/w.csv" --latitude 52.1 --date 2018-11-01
refused 64 "--animal" "nobody to feed"

# ---- refused
hay herd --date 2025-11-01 --until 2025-10-31
refused 64 "2025-11-01 to 2026-11-02" "an end before the beginning"
hay herd --date 2025-11-01 --until 2026-11-03
refused 64 "--until" "over a year"
for morning in 2026-04-29 2026-04-30 2027-04-30 2028-04-30; do # a year with a 29 February among those that follow
    hay herd --date "$morning"
    exits 0 "its own end of the season is never refused ($morning)"
done
hay herd --date 2025-11-01 --csv
refused 64 "no such option" "no table of days"
hay herd --date 2025-11-01 --plot "$scratch/x.gif"
refused 64 ".svg, .png or .pdf" "an unknown picture"
run hay --animal goat-dry --latitude 52 --date 2025-11-01 --plot "$scratch/x.svg"
refused 64 "names no hay" "no store to draw"
hay missing
refused 66 "missing.json" "a holding that is not there"
rm "$scratch/w.csv"
hay ponies --date 2018-12-01
refused 66 "w.csv" "weather that is named and not there is no table"
printf '{"sugarlea":1,"site":{"latitude":52},"paddocks":[{"id":"a","area_ha":1}]}' >"$scratch/none.json"
hay none --date 2025-11-01
refused 78 "no animals" "a holding without animals"

# ---- the picture
if command -v gnuplot >/dev/null 2>&1; then
    for ending in svg png pdf; do
        hay herd --date 2025-11-01 --plot "$scratch/hay.$ending"
        exits 0 "a picture, $ending"
        check "it is there, $ending" test -s "$scratch/hay.$ending"
    done
    contains "$scratch/hay.svg" "Left in store, kg as fed" "what it shows"
    contains "$scratch/hay.svg" "order" "its marks"
    record "$scratch/w.csv" 2005-01-01 2018-11-30
    hay ponies --date 2018-12-01 --until 2018-12-20 --plot "$scratch/lasts.svg"
    exits 0 "a store that lasts has no marks"
else
    skip "the picture" "gnuplot is not installed"
fi
run help hay
exits 0 "its help"
contains "$out" "--until" "with its options"
finish
