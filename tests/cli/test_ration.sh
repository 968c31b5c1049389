#!/bin/sh
# ration: what a day's feed adds up to, the same as today says; soaked hay; weights by
# tape; what is refused. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
h=$scratch/holding.json
cp data/demo/weather.csv "$scratch/weather.csv"

holding() { # SED-EXPRESSION: the demo holding, changed
    sed "$1" data/demo/holding.json >"$h"
    if cmp -s data/demo/holding.json "$h"; then
        fail "the test changes the holding" "nothing changed: $1"
    fi
}
ration() { # ARGUMENT...
    run ration --holding "$h" --date 2025-04-23 --plain "$@"
}
pony='s/"class": "equid-laminitis-history", "count": 1, "weight_kg": 285/"class": "equid-laminitis-history"'
hay='s/"nsc_percent": 9.2, "nsc_is": "wsc+starch"'

cp data/demo/holding.json "$h"
ration
exits 0 "a ration of the demo holding"
contains "$out" "What the feed of Wednesday 23 April 2025 adds up to" "what and when"
matches "$out" '^  grass-hay-mature +[0-9.]+ +[0-9.]+ +9\.2 ' "the hay by its analysis"
matches "$out" '^  in all ' "a sum"
contains "$out" "OVER: sugar and starch 10.4 % of dry matter (most 10): 0.4 over." "what is over and by how much"
contains "$out" "(WSC + starch)" "which sum NSC is"
contains "$out" "analysed, but for starch, NDF, dry matter and energy" "what was not analysed"
contains "$out" "Locked up: grain" "the feed room"
contains "$out" "over at least two weeks" "changes of feed"
contains "$out" "Planning help, not a diagnosis." "what it is not"
lacks "$out" "By hand" "no arithmetic unless asked"
no_nan "$out" "no number that is none"
check "no log is written" test ! -e "$scratch/advice-log.csv"

ration --arithmetic
contains "$out" "1.5 % of 285.0 kg body weight = 4.275 kg dry matter in 24 h." "appetite by hand"
contains "$out" "4.275 kg x (1 h / 24 h)^0.5 x 0.21 = 0.183 kg." "grass by hand"
check "every product and sum can be followed" python3 - "$out" <<'P'
import re, sys
text = " ".join(open(sys.argv[1]).read().split())
products = re.findall(r"(?:x|;) ([\d.]+) kg x ([\d.]+) % = ([\d.]+) kg dry; ((?:\w+ (?:x [\d.]+ \S+ = [\d.]+ \w+|not known),? ?)+)", " ; " + text.replace(": ", ": ; "))
assert len(products) == 10, len(products)
for fed, pct, dry, contents in products:
    assert abs(float(fed) * float(pct) / 100 - float(dry)) < 0.002, (fed, pct, dry)
    for content, unit, amount in re.findall(r"x ([\d.]+) (%|MJ) = ([\d.]+)", contents):
        worth = float(dry) * float(content) * (10 if unit == "%" else 1)
        assert abs(worth - float(amount)) < 0.06 + 0.005 * 10 * float(dry) + 0.0006 * 10 * float(content), (dry, content, amount)
sums = re.findall(r": ([\d. +]+) = ([\d.]+) (?:g|MJ); / ([\d.]+) kg( / 10)? = ([\d.]+) \S+?; / ([\d.]+) kg body weight = ([\d.]+)", text.replace("%;", "% ;").replace("MJ/kg;", "MJ/kg ;").replace(" ;", ";"))
assert len(sums) >= 4 * 5, len(sums)
for parts, total, dm, ten, pct, weight, per_kg in sums:
    added = sum(float(x) for x in parts.split("+"))
    assert abs(added - float(total)) < 0.25, (parts, total)
    assert abs(float(total) / float(dm) / (10 if ten else 1) - float(pct)) < 0.02, (total, dm, pct)
    assert abs(float(total) / float(weight) - float(per_kg)) < 0.002, (total, weight, per_kg)
P

ration --json
cp "$out" "$scratch/ration.json"
no_nan "$out" "no nan for machines"
run today --holding "$h" --date 2025-04-23 --no-log --json
check "today and ration agree to the last digit" python3 - "$out" "$scratch/ration.json" <<'P'
import json, sys
today, ration = (json.load(open(f)) for f in sys.argv[1:])
assert ration["schema"] == 1 and len(ration["animals"]) == 4
for t, r in zip(today["animals"], ration["animals"]):
    assert t["id"] == r["id"] and t["turnout"] == r["turnout"] and t["hours"] == r["hours"]
    for key, value in t["ration"].items():
        assert r[key] == value, key
    assert t["ration_nsc_percent"] == r["nsc_percent"]
    assert t["nsc_g_per_kg_bodyweight"] == r["nsc_g_per_kg_bodyweight"]
    hay = [p for p in r["parts"] if p["kind"] == "hay"]
    assert abs(hay[0]["as_fed_kg"] - t["hay_kg_per_head"]) < 0.006
P
check "JSON with what the interface names" python3 - "$scratch/ration.json" <<'P'
import json, sys
for a in json.load(open(sys.argv[1]))["animals"]:
    for key in ("id dm_kg nsc_percent nsc_g_per_kg_bodyweight starch_g_per_meal_per_kg ndf_percent "
                "forage_percent_bodyweight limits verdicts").split():
        assert key in a, key
    assert abs(sum(p["dm_kg"] for p in a["parts"]) - a["dm_kg"]) < 0.003
    assert abs(sum(p["nsc_g"] for p in a["parts"]) - a["nsc_g"]) < 0.03
    assert abs(a["nsc_g"] / a["dm_kg"] / 10 - a["nsc_percent"]) < 0.02
    assert a["forage_percent_bodyweight"] >= a["limits"]["forage_percent_bodyweight"] - 1e-9
    for v in a["verdicts"]:
        assert v["state"] in ("within", "over", "under", "not-sure"), v
        assert v["state"] != "over" or v["value"] > v["limit"]
P
run today --holding "$h" --date 2025-04-23 --no-log --plain
contains "$out" "Ration: " "the ration stands in the morning advice"

# a bucket for the pony
holding 's/"paddock": "old-bank",$/"paddock": "old-bank",/; /grey-pony/,/fed_daily/s/"fed_daily": \[\]/"fed_daily": [{"feed": "oats", "kg": 0.5}]/'
ration
contains "$out" "OVER: sugar and starch of the bucket as one meal 0.75 g a kg of body weight (most 0.1)" "a rich bucket"
contains "$out" "No cereals, fruit, carrots or treats for an animal at risk" "and what to think of it"
lacks "$out" "grass 0" "meal limits are not for grazing"
run today --holding "$h" --date 2025-04-23 --no-log --plain
contains "$out" "OVER: sugar and starch of the bucket" "in the morning advice too"

# soaked hay is a plan and no pass
holding "$hay//; s/, \"bale_kg\": 17, /, \"bale_kg\": 17/"
ration --json
cp "$out" "$scratch/dry.json"
holding "$hay/\"soaked\": {\"hours\": 12, \"water_c\": 18}/"
ration
contains "$out" "in place of 12.8" "what a soak would make of it"
contains "$out" "planning credit: 35 % of its WSC" "by which credit"
contains "$out" "No pass" "and that it is none"
contains "$out" "weigh out 5 to 18 % more, dry" "what else it takes"
ration --json
check "a soaked hay that was not analysed passes nothing" python3 - "$scratch/dry.json" "$out" <<'P'
import json, sys
dry, wet = (json.load(open(f))["animals"] for f in sys.argv[1:])
for d, w in zip(dry, wet):
    assert w["soaked"]["hay_nsc_percent_about"] == 9.0 and w["soaked"]["is_a_pass"] is False
    for key in d:
        assert key == "soaked" or d[key] == w[key], key
assert any(v["id"] == "nsc" and v["state"] == "over" for v in wet[2]["verdicts"])
P
holding "$hay/\"steamed\": true/"
ration
contains "$out" "steam rids hay of dust and germs and leaves its sugar" "steam takes no sugar"
holding "$hay/\"nsc_percent\": 8.9, \"nsc_is\": \"wsc+starch\", \"soaked\": {\"hours\": 12}, \"tested_after\": true/"
ration
contains "$out" "measured after it was soaked" "a test after soaking stands"
holding "$hay/\"nsc_percent\": 9.2, \"nsc_is\": \"esc+starch\"/"
ration
contains "$out" "ask the laboratory for WSC" "ESC + starch is said to read lower"
holding "$hay/&, \"starch_percent\": 1.1, \"ndf_percent\": 60.5, \"dm_percent\": 85, \"energy_mj_kg\": 8.6/"
ration
contains "$out" "Hay: analysed." "a whole analysis"

# weight by tape
holding "$pony, \"girth_cm\": 152, \"length_cm\": 134/"
ration
contains "$out" "286 kg by tape (girth 152 cm, length 134 cm): 257 to 314 kg." "weight by tape, with its error"
contains "$out" "Never dose by it." "and what it is not for"

wrong() { # SED-EXPRESSION TEXT NAME
    holding "$1"
    ration
    refused 78 "$2" "$3"
}
wrong "$pony, \"girth_cm\": 152/" '"length_cm" is missing' "a girth without a length"
wrong "$pony, \"weight_kg\": 285, \"girth_cm\": 152, \"length_cm\": 134/" "and not both" "scales and tape"
wrong "$pony, \"girth_cm\": 60, \"length_cm\": 53/" "in centimetres" "inches"
wrong "$hay/\"soaked\": {\"hours\": 60}/" "0.1 to 24 is allowed" "a soak of days"
wrong "$hay/\"soaked\": true/" "holding.json:" "a soak without hours"
wrong "$hay/\"steamed\": \"yes\"/" "must be true or false" "steamed in words"
wrong "$hay/&, \"starch_percent\": 19/" "starch no higher" "more starch than NSC"
wrong "$hay/&, \"ndf_percentage\": 60/" 'did you mean "ndf_percent"?' "a slip in a key"

run ration --weather "$scratch/weather.csv" --latitude 52.3 --date 2025-04-23
refused 64 "a ration is an animal's" "no animal"
run ration --weather "$scratch/weather.csv" --latitude 52.3 --longitude -2.6 --elevation 140 --animal pony --weight 250 \
    --date 2025-04-23
exits 0 "without a holding"
contains "$out" "animal: 1 x pony, 250 kg" "an animal by options"
run ration --weather "$scratch/weather.csv" --latitude 52.3 --animal pony --date 2025-06-23
refused 66 "older than 7 days" "weather too old for a ration"
run ration --weather "$scratch/weather.csv" --latitude 52.3 --animal pony --csv
refused 64 "no such option" "no table of days"
run help ration
exits 0 "its help"
contains "$out" "--arithmetic" "with its options"

# ten mares in foal on 500 m2 in January: the grass is harmless, and there is none
cat >"$scratch/mares.json" <<H
{"sugarlea": 1, "site": {"latitude": 53.43, "longitude": -6.24, "elevation_m": 71, "timezone": "Europe/Dublin"},
 "weather": [{"file": "$PWD/data/real/dublin_airport_2010-2020.csv"}],
 "paddocks": [{"id": "strip", "area_ha": 0.05}], "animals": [{"id": "mares", "class": "mare-pregnant", "count": 10}]}
H
run today --holding "$scratch/mares.json" --date 2020-01-20 --short --no-log
contains "$out" "Grass: too little for its animals on 0.05 ha: " "grass that is not there is said"
lacks "$out" "none needed" "and hay is not called needless"
run today --holding "$scratch/mares.json" --date 2020-01-20 --json --no-log
check "hay stands for it" python3 - "$out" <<'P'
import json, sys
r = json.load(open(sys.argv[1]))["animals"][0]
assert r["hay_kg_per_head"] > 10 and r["ration"]["grass_lacking_dm_kg"] > 8, r
P
sed 's/0.05/20/' "$scratch/mares.json" >"$scratch/room.json"
run today --holding "$scratch/room.json" --date 2020-01-20 --short --no-log
lacks "$out" "too little" "room enough is not"

finish
