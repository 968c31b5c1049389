#!/bin/sh
# sheet: one page of HTML for the phone and the stable door. Names, notes and forecast are
# invented. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

demo() { # FILE ARGUMENT...: the sheet of the demo holding
    page=$1
    shift
    run sheet --holding data/demo/holding.json --date 2025-04-23 --no-log -o "$page" "$@"
}
demo "$scratch/demo.html"
exits 0 "the demo's sheet"
contains "$out" "demo.html: the sheet for 23 April 2025, 4 groups" "says what it wrote"
demo -
exits 0 "on standard output"
same "$out" "$scratch/demo.html" "the same page, byte for byte"
(cd data/demo && LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8 TZ=Asia/Tokyo "$PROGRAM" sheet --date 2025-04-23 --no-log -o - \
    >"$scratch/elsewhere.html")
same "$scratch/elsewhere.html" "$scratch/demo.html" "in another language, zone and folder as well"

# it fetches nothing, runs nothing, tells no place
p=$scratch/demo.html
check "one policy" test "$(grep -c 'http-equiv="Content-Security-Policy" content="default-src' "$p")" -eq 1
for word in '<script' 'http:' 'https:' 'src=' 'href=' ' on[a-z]*=' 'style="' '@import' '<a ' '<link' '<iframe'; do
    check "nothing of $word" sh -c "! grep -qi -e '$word' '$p'"
done
lacks "$p" "url(http" "pictures come from the page itself"
sed 's/<[^>]*>//g' "$p" >"$scratch/words"
check "no coordinates" sh -c "! grep -qE '52\.3|-2\.6|140 m' '$scratch/words'"
no_nan "$p" "every number is one"
hash=$(awk '/<style>/ { on = 1; sub(/.*<style>/, "") } /<\/style>/ { sub(/<\/style>.*/, ""); printf "%s", $0; exit } on' "$p" |
    openssl dgst -sha256 -binary | openssl base64)
contains "$p" "style-src 'sha256-$hash'" "sheet_style_hash is sha256-$hash"
check "sections are closed" test "$(grep -c '<section' "$p")" -eq "$(grep -c '</section' "$p")"

# it says what today says
run today --holding data/demo/holding.json --date 2025-04-23 --no-log
sed -n 's/^  \(TIMED\|BRIEF\|FREE\|NONE\): /\1: /p' "$out" >"$scratch/said"
check "today has four" test "$(grep -c '' "$scratch/said")" -eq 4
while read -r line; do
    contains "$p" "$line</p>" "the same words: $line"
done <"$scratch/said"
contains "$p" "<h2 id=\"do\">This morning</h2>" "what to do"
contains "$p" "All 7: 7.4 kg." "hay for all of a group"
demo - --units us
contains "$out" "% of dry matter" "--units us: in percent"
matches "$out" "[0-9.]+ lb a head for the day" "and pounds"
lacks "$out" "g/kg" "and nothing in grams a kilogram"
run help signs
sed -n 's/^  \[ \] \(.*[^ ]\)   *else:.*/\1/p' "$out" >"$scratch/ticks"
check "signs to look for" test "$(grep -c '' "$scratch/ticks")" -ge 9
while read -r line; do
    contains "$p" "</span> $line</li>" "to tick off: $line"
done <"$scratch/ticks"
for caution in 'Never starve' 'Local rules and your vet come first' 'needs a vet today, whatever'; do
    contains "$p" "$caution" "caution: $caution"
done
lacks "$p" 'id="ahead"' "without a forecast no days ahead"
lacks "$p" 'id="notes"' "nor a complaint about it"

# a holding of its own: diary, reminders, log
mkdir "$scratch/h"
cp data/demo/holding.json data/demo/weather.csv "$scratch/h"
own() {
    run sheet --holding "$scratch/h/holding.json" --date 2025-04-23 -o "$scratch/h/sheet.html" "$@"
}
own
exits 0 "a holding of its own"
check "the advice is logged as today logs it" test "$(wc -l <"$scratch/h/advice-log.csv")" -eq 5
if [ -w /dev/full ]; then
    cp "$scratch/h/advice-log.csv" "$scratch/log"
    rm "$scratch/h/advice-log.csv"
    "$PROGRAM" sheet --holding "$scratch/h/holding.json" --date 2025-04-23 -o "$scratch/full.html" >/dev/full 2>"$err"
    code=$?
    exits 74 "standard output is full"
    check "the page stands" test -s "$scratch/full.html"
    check "and is logged" test "$(wc -l <"$scratch/h/advice-log.csv")" -eq 5
    rm "$scratch/h/advice-log.csv"
    "$PROGRAM" sheet --holding "$scratch/h/holding.json" --date 2025-04-23 -o - >/dev/full 2>"$err"
    check "a page on standard output that nobody can read is not" test ! -e "$scratch/h/advice-log.csv"
    cp "$scratch/log" "$scratch/h/advice-log.csv"
else
    skip "standard output that is full" "no /dev/full"
fi
run today --holding "$scratch/h/holding.json" --date 2025-04-23 --quiet
contains "$out" "grey-pony: now brief" "what stands on a sheet is news all the same, for nobody may have looked"
matches "$out" "^ *Frost: " "its frost, too"
own
run today --holding "$scratch/h/holding.json" --date 2025-04-23 --quiet
empty "$out" "what was told is no news, even with a sheet written since"
cp "$scratch/h/advice-log.csv" "$scratch/log"
own --no-log
same "$scratch/h/advice-log.csv" "$scratch/log" "--no-log: not"
contains "$scratch/h/sheet.html" "Nothing is in the diary yet" "an empty diary"
contains "$scratch/h/sheet.html" "Grass to be tested: pump-field (never), old-bank (never)" "no grass test"
lacks "$scratch/h/sheet.html" "Hay to be tested" "the hay is analysed"
cat >"$scratch/h/diary.csv" <<'D'
date,time,subject,what,value,unit,note
2024-10-01,,pump-field,grass-nsc,180,g/kg,
2025-04-01,,old-bank,grass-wsc,180,g/kg,
2025-03-23,,milkers,weight,64,kg,
2025-03-24,,wethers,weight,71,kg,
2025-03-24,,donkey,girth,118,cm,
2025-04-22,,grey-pony,foot-signs,shifting-weight+hot-feet,,"both fore feet <b>&""x"
D
own --no-log
s=$scratch/h/sheet.html
contains "$s" "Grass to be tested: pump-field (last 2024-10-01). A test" "a test of last autumn is old, one of April is not"
contains "$s" "tape: milkers (last 2025-03-23), grey-pony (never)." "a weight is old after 30 days"
contains "$s" "The diary last said, on 2025-04-22: grey-pony, foot-signs shifting-weight, hot-feet; note: both fore feet &lt;b&gt;&amp;&quot;x" \
    "the last word of the diary"
contains "$s" "Ring the vet today." "foot signs"
check "stand before everything else" test "$(grep -n 'id="signs"' "$s" | cut -d: -f1)" -lt "$(grep -n 'id="do"' "$s" | cut -d: -f1)"
first=$(awk '/class="group"/ { getline; print; exit }' "$s")
check "in the action list, too: $first" test "${first#*grey-pony}" != "$first"
sed 's/"nsc_percent": 9.2, "nsc_is": "wsc+starch"//; s/"bales": 95, "bale_kg": 17, //; s/"feed": "grass-hay-mature", *}/"feed": "grass-hay-mature" }/' \
    data/demo/holding.json >"$scratch/h/holding.json"
own --no-log
contains "$s" "Hay to be tested: grass-hay-mature (a table" "hay without an analysis"
contains "$s" "Nobody has written down how much there is of this hay: grass-hay-mature" "hay without an amount"

# refused as today refuses, and the old page stays
cp "$s" "$scratch/old.html"
run sheet --holding "$scratch/h/holding.json" --date 2025-06-01 --no-log -o "$s"
refused 66 "no advice is given on weather" "weather too old"
same "$s" "$scratch/old.html" "the page of before stays as it was"
run sheet --holding "$scratch/h/holding.json" --date 2025-06-01 --no-log -o "$s" --allow-stale
exits 0 "--allow-stale"
contains "$s" "Provisional: the weather is " "says so on top"
cp "$scratch/old.html" "$s"
printf 'x' >>"$scratch/h/holding.json"
own --no-log
check "a broken holding is refused" test "$code" -eq 78
same "$s" "$scratch/old.html" "and the page stays"
run sheet --holding data/demo/holding.json --date 2025-04-23 --no-log
refused 64 "-o sheet.html" "no file named"
demo "$scratch/h/weather.csv"
refused 64 "ends in .html" "no file but a page is written over"
same "$scratch/h/weather.csv" data/demo/weather.csv "it is as it was"
demo "$scratch/nowhere/sheet.html"
refused 73 "cannot be created" "a folder that is not there"
mkdir "$scratch/folder.html"
demo "$scratch/folder.html"
refused 73 "is a folder, not a file" "a folder of that name"
check "and nothing is left beside it" test -z "$(find "$scratch" -name '*.html.*')"
run today --holding data/demo/holding.json --date 2025-04-23 --no-log -o x.html
refused 64 "no such option" "-o belongs to the sheet"
run sheet --holding data/demo/holding.json -o
refused 64 "needs a value" "-o without a file"

# a forecast, and names that would like to be markup
mkdir "$scratch/x"
cp data/demo/weather.csv "$scratch/x"
cat >"$scratch/x/forecast.json" <<'J'
{"latitude": 52.3, "longitude": -2.6, "utc_offset_seconds": 3600, "timezone": "Europe/London",
 "current": {"time": "2025-04-23T05:00", "temperature_2m": 3.1},
 "daily_units": {"temperature_2m_max": "°C", "temperature_2m_min": "°C", "precipitation_sum": "mm",
                 "shortwave_radiation_sum": "MJ/m²"},
 "daily": {"time": ["2025-04-23", "2025-04-24", "2025-04-25", "2025-04-26", "2025-04-27", "2025-04-28", "2025-04-29"],
   "temperature_2m_max": [13, 14, 16, 15, 12, 11, 11], "temperature_2m_min": [0, 3, 7, 8, 4, 1, 1],
   "precipitation_sum": [0, 0, 3, 5, 0, 0, 0], "shortwave_radiation_sum": [23, 20, 12, 9, 18, 22, 22]}}
J
turned=$(printf '\342\200\256')
long=$(printf '%0150d' 0 | tr 0 W)
id=$(printf '%055d' 0 | tr 0 g)
cat >"$scratch/x/holding.json" <<J
{"sugarlea": 1, "name": "<script>alert(1)</script> & \"it's\" ]]> $turned $long",
 "site": {"latitude": 52.3, "longitude": -2.6, "elevation_m": 140, "timezone": "Europe/London"},
 "weather": [{"file": "weather.csv"}, {"file": "forecast.json"}],
 "paddocks": [{"id": "$id", "area_ha": 1}, {"id": "flip", "area_ha": 1}],
 "animals": [{"id": "Öhi-$id", "class": "pony", "paddock": "$id"},
             {"id": "flip", "class": "equid-acute", "paddock": "flip"}]}
J
hostile() {
    run sheet --holding "$scratch/x/holding.json" --date 2025-04-23 --no-log -o "$scratch/x/hostile.html" "$@"
}
hostile
exits 0 "hostile names"
x=$scratch/x/hostile.html
lacks "$x" "<script" "no script"
lacks "$x" "$turned" "no turn of the writing"
contains "$x" "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;it&#39;s&quot; ]]&gt;" "but the name as it is"
check "four mornings ahead, two groups" test "$(grep -c '<tr><th scope="row">[A-Z][a-z][a-z] [0-9]* Apr</th><td>[fbtn]' "$x")" -eq 8
hostile --days 2
check "--days 2: one more" test "$(grep -c '<tr><th scope="row">[A-Z][a-z][a-z] [0-9]* Apr</th><td>[fbtn]' "$x")" -eq 2
hostile --days 16
contains "$x" "of the 16 mornings asked for" "as far as the forecast reaches"
hostile

# without a holding, and without an animal
run sheet --weather data/real/dublin_airport_2010-2020.csv --latitude 53.43 --longitude -6.24 --elevation 71 \
    --animal donkey --date 2020-05-07 -o -
exits 0 "one weather file, one animal"
contains "$out" "no bounding pulse at the fetlock" "the look-over of a donkey"
lacks "$out" "goats, sheep:" "without what is seen in goats and sheep only"
contains "$out" "assumed, as you did not say" "what was assumed is said"
lacks "$out" 'id="due"' "and nobody is reminded of a diary"
run sheet --weather data/real/dublin_airport_2010-2020.csv --latitude 53.43 --longitude -6.24 --elevation 71 \
    --date 2020-05-07 -o -
exits 0 "no animal"
lacks "$out" 'id="do"' "nothing to do, then"

# in a browser, where there is one
browser=$(command -v chromium || command -v chromium-browser)
if [ -n "$browser" ] && command -v node >/dev/null && [ -d build/page/node_modules ]; then
    mkdir -p build/page/seen
    cp tests/page/check.mjs build/page/
    cp "$scratch/x/hostile.html" "$scratch"
    cp "$scratch/old.html" "$scratch/signs.html"
    node build/page/check.mjs "$browser" build/page/seen "$scratch/demo.html" "$scratch/hostile.html" "$scratch/signs.html" 2>"$err" || bad=1
    check "the browser had nothing to say" test ! -s "$err"
else
    skip "the sheet in a browser" "it needs node, chromium and \"make page-tools\""
fi
finish
