#!/bin/sh
# sugarlea setup: dialogues as people have them, each way an answer goes wrong, and what
# stands there is never lost. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
case $PROGRAM in /*) ;; *) PROGRAM=$PWD/$PROGRAM ;; esac
unset TZ
SOURCE_DATE_EPOCH=1745388000 # 23 April 2025, 06:00 UTC: the day after the invented weather ends
export SOURCE_DATE_EPOCH
weather=$PWD/data/demo/weather.csv

yard() { # NAME: a new folder with weather, as $yard
    yard=$scratch/$1
    mkdir -p "$yard"
    cp "$weather" "$yard/weather.csv"
}

# typed FORMAT [VALUE...]: what is answered, for `answers <"$lines"`.
lines=$scratch/lines
typed() {
    # shellcheck disable=SC2059 # the lines are a format of our own
    printf "$@" >"$lines"
}

# answers ARGUMENT...: setup in $yard, answered by standard input, a line each.
answers() {
    (cd "$yard" && "$PROGRAM" setup "$@" >"$out" 2>"$err")
    code=$?
}

untouched() { # NAME: nothing was written
    if [ -e "$yard/holding.json" ]; then fail "$1" "holding.json is there"; else pass "$1"; fi
}

field() { # FILE EXPRESSION: of the holding h, by python
    python3 -c 'import json, sys; h = json.load(open(sys.argv[1])); print(eval(sys.argv[2]))' "$1" "$2"
}

holds() { # EXPRESSION VALUE NAME
    got=$(field "$yard/holding.json" "$1")
    if [ "$got" = "$2" ]; then pass "$3"; else fail "$3" "$1 is $got, expected $2"; fi
}

# --- a goat keeper: two fields, milkers, one wether that broke into the feed room
yard goats
answers <<'A'
Sallow End

52°18'00"N 2°36'00"W
460 ft
london

top field
0,8
old
some
sticky
low

3 in
add
Bank

fine

5
none
stocked

Goats
milking

milkers
7
64
top-field
beet pulp plain 0,2; oats 100 g
add
goat

2
wether

71 kg
2


grass-hay-mature
95
17 kg
9.2 %
wsc

1
keyhole
6

A
exits 0 "a goat keeper"
for next in today 'sheet -o sheet.html' 'help record'; do
    matches "$out" "^  sugarlea $next +" "what to do next: $next"
done
matches "$out" "^  Soil +silty-clay-loam$" "the last look has each answer as it was understood"
matches "$out" "^  Height above the sea +460 ft$" "or as it was typed"
lacks "$out" "(assumed)" "and nothing of it was assumed"
lacks "$out" "Why, for" "a list to act on, the reasons later"
contains "$out" "milkers: 7 x goat-lactating, 64 kg, on top-field" "the first advice"
contains "$out" "wether: 1 x goat-laminitis-history" "of both groups"
holds 'h["site"]' "{'latitude': 52.3, 'longitude': -2.6, 'elevation_m': 140.208, 'timezone': 'Europe/London'}" "degrees and minutes, feet, a city alone"
holds 'h["paddocks"][0]["kept"]' "{'how': 'grazed', 'height_cm': 7.6}" "inches"
holds 'h["paddocks"][0]["grass"]["white-clover"]' 0.15 "clover"
holds 'round(sum(h["paddocks"][0]["grass"].values()), 6)' 1.0 "shares add up to 1"
holds 'h["paddocks"][0]["soil"], h["paddocks"][1]["soil"]' "('silty-clay-loam', 'loam')" "soil by feel, by word and number"
holds 'h["paddocks"][1]["id"], h["paddocks"][1]["kept"]' "('bank', {'how': 'stocked'})" "an id in small letters; stocked"
holds 'h["animals"][0]["fed_daily"]' "[{'feed': 'beet-pulp-plain', 'kg': 0.2}, {'feed': 'oats', 'kg': 0.1}]" "feeds by part of their name"
holds 'h["animals"][1]["paddock"], h["animals"][1]["history"]' "('bank', ['laminitis'])" "where, and history"
holds 'h["hay"]["stock"]' "[{'feed': 'grass-hay-mature', 'bales': 95, 'bale_kg': 17, 'nsc_percent': 9.2, 'nsc_is': 'wsc+starch'}]" "hay"
holds 'h["hay"]["fed_from"], h["hay"]["price_per_bale"]' "('default-goat-keyhole', 6)" "feeder and price"
for command in today ration hay weather 'sheet -o sheet.html'; do
    # shellcheck disable=SC2086 # a command and its options
    run_in "$yard" $command
    exits 0 "$command takes the file"
done

# --- a pony owner in the United States: pounds, acres, feet, weather elsewhere on the machine
alabama=$PWD/data/real/shorter_al_us_2010-2019.csv
yard=$scratch/pony
mkdir -p "$yard/far"
cp "$alabama" "$yard/far/my weather.csv"
SOURCE_DATE_EPOCH=1577880000 # 1 January 2020
answers --holding far/pony.json <<'A'

'far/my weather.csv'
32.4 N 85.9 W
200 feet
chicago


2.5 acres
runners

clay

stocked

pony

laminitis, fat
Big Red

610 lb
none

teff
40
45 lb
no

2
hay rack


A
SOURCE_DATE_EPOCH=1745388000
exits 0 "a pony owner in the United States"
contains "$out" "Big Red" "the answers stand in what a pipe prints"
contains "$out" "warm country" "grasses of warm country are shown at 32 degrees"
contains "$out" "Each with --holding far/pony.json" "what to do next names the file"
contains "$out" "big-red: 1 x equid-laminitis-history, 277 kg" "the first advice, of 610 lb"
cp "$yard/far/pony.json" "$yard/holding.json"
holds 'h["weather"][0]["file"]' "my weather.csv" "a file beside the holding file is named from there"
holds 'h["site"]["timezone"], h["site"]["elevation_m"]' "('America/Chicago', 60.96)" "a zone by its city; feet"
holds 'h["paddocks"][0]["area_ha"], h["paddocks"][0]["grass"]' "(1.0117, {'bermuda': 1})" "acres; running grass"
holds 'h["animals"][0]["history"]' "['laminitis', 'overweight']" "two troubles"
holds 'h["hay"]["stock"][0]["bale_kg"], h["hay"]["stored"], h["hay"]["fed_from"]' "(20.4, 'in-ground', 'sq-rack')" "bales in pounds; store; rack"
contains "$out" "551 lb" "the usual weight of a pony is told in pounds too"

# --- back, ?, quit, the end of the answers
yard back
answers <<'A'
One
back
?

none
back
none
52.3, -2.6
quit
A
exits 66 "quit leaves"
contains "$out" "[One] >" "after back the last answer is offered"
contains "$out" "They stay on this machine" "? explains"
untouched "quit writes nothing"
contains "$err" "nothing was written" "and says so"
answers </dev/null
exits 66 "no answer at all"
untouched "nothing written without answers"
typed 'back\nquit\n'
answers <"$lines"
contains "$out" "This is the first question" "back at the first question"
typed 'My place\n\n52.3,-2.6\n'
answers <"$lines"
exits 66 "the answers end early"
untouched "nothing written when they do"
contains "$err" "Height above the sea" "the question is named"

# back over a whole group: the group is gone again, and nothing stands twice
answers <<'A'


52.3, -2.6












goat
back
sheep
milking

back
back
grown

ewes
4





A
exits 0 "back through several questions"
holds '[(a["id"], a["class"], a["count"]) for a in h["animals"]]' "[('ewes', 'sheep-dry', 4)]" "what was taken back is gone"
rm "$yard/holding.json"

# --- a machine that nobody told its place
yard utc
typed 'Yard\n\n52.3, -2.6\n\n'
TZ=Etc/UTC answers <"$lines"
says "This machine's clock is UTC, which knows no summer time" "UTC is not taken for the keeper's clock unsaid"
yard london
TZ=Europe/London answers <"$lines"
lacks "$out" "clock is UTC" "a zone that was set is not doubted"

# --- wrong answers are answered with what to type
wrong() { # LINES-BEFORE ANSWER TEXT NAME
    yard=$scratch/wrong
    mkdir -p "$yard"
    cp "$weather" "$yard/weather.csv"
    typed "$1"
    printf '%s\n' "$2" >>"$lines"
    answers <"$lines"
    tr -s ' \n' ' ' <"$out" >"$scratch/flat"
    if [ "$code" -ne 66 ] || [ -e "$yard/holding.json" ]; then
        fail "$4" "exit code $code, expected 66 and no file"
    else
        contains "$scratch/flat" "$3" "$4"
    fi
}
wrong '\n' nowhere.csv 'there is no file "nowhere.csv" here: copy it' "a weather file that is not there"
wrong '\n' . 'is a folder' "a folder as weather"
wrong '\n' - 'needs a file with a name' "standard input as weather"
printf 'date,tmin_c,tmax_c\n2025-04-21,1,9\n2025-04-22,2,9\n' >"$scratch/dry.csv"
wrong '\n' "$scratch/dry.csv" 'no column with the rain of past days was found: name it rain_mm' "weather without rain"
printf 'Date,Night,Day,Rain\n21/04/2025,1.4,9.1,0\n22/04/2025,2.3,9.6,1\n' >"$scratch/own.csv"
wrong '\n' "$scratch/own.csv" 'not understood: Night, Day: name it tmin_c' "columns with names of one's own"
printf 'hello\n' >"$scratch/words.csv"
wrong '\n' "$scratch/words.csv" 'That will not do' "a file that is no weather"
wrong '\n\n' '52,19' 'not clear' "a latitude alone, with a decimal comma"
wrong '\n\n' '152.3, 2' 'longitude first' "the longitude first"
wrong '\n\n52.3, -2.6\n' '9000' '6000' "higher than any pasture"
wrong '\n\n52.3, -2.6\n\n' 'Atlantis' 'no time zone that this machine knows' "an unknown zone"
wrong '\n\n52.3, -2.6\n\n' 'Asia/Tokyo' 'lost its minus' "a zone far from the sun"
wrong '\n\n52.3, -2.6\n\n\n' 'weather-man' 'not one of them' "an unknown service"
wrong '\nnone\n52.3, -2.6\n\n\n' 'met-norway' 'a forecast alone will not do' "a forecast alone"
wrong '\nnone\n52.3, -2.6\n\n\n' 'none, nasa-power' 'do not go together' "none and a service"
wrong '\nnone\n52.3, -2.6\n\n\nncei-daily\n' 'a b?' 'is no station' "a station with a blank"
paddock='\n\n52.3, -2.6\n\n\n\n'
wrong "$paddock" 'a/b' 'is no id' "a slash in an id"
wrong "$paddock" '-x' 'no hyphen in front' "a hyphen in front of an id"
wrong "$paddock\n" '0' 'out of range' "a paddock without ground"
wrong "$paddock\n" 'big' 'is not an amount' "an area in words"
wrong "$paddock\n" '3 miles' 'is not understood' "an unknown unit"
wrong "$paddock\n" '1,250' 'read in two ways' "a comma before three digits"
wrong "$paddock\n\n" 'moss' 'not one of them' "a grass that is none"
wrong "$paddock\n\n" 'bermudagrass' 'White clover' "bermuda grass in one word"
wrong "$paddock\n\n\n\n" 'chalk' 'not one of them' "a soil that is none"
wrong "$paddock\n\n\n\n" 'short ribbon' 'could be' "words that fit several soils"
wrong "$paddock\n\n\n\n\n\n" 'mown' 'not one of them' "kept in no known way"
wrong "$paddock\n\n\n\n\n\n\n" '3 m' 'is not understood' "a height in metres"
wrong "$paddock\n\n\n\n\n\n\n" '90' 'out of range' "grass as high as a house"
wrong "$paddock\n\n\n\n\n\ncut\n" '20 June' 'MM-DD' "a day in words"
wrong "$paddock\n\n\n\n\n\ncut\n" '08-01 06-20' 'follow one another' "days that do not follow"
animal="$paddock\n\n\n\n\n\n\n\n\n"
wrong "$animal" 'unicorn' 'type the one that is nearest' "an animal that is none"
wrong "$animal" 'goat-dri' 'goat-dry' "a class mistyped"
wrong "$animal" '' 'needs an answer' "no animal"
wrong "$animal" 'cows' 'Has one of the group' "cattle by another name"
wrong "${animal}goat\n" 'old' 'not one of them' "a stage that is none"
wrong "${animal}goat\n\n" 'none, teeth' 'does not go with' "none and a trouble"
wrong "${animal}goat\n\n\n\n" '0' 'out of range' "no animals in a group"
wrong "${animal}goat\n\n\n\n" '2.5' 'whole number' "half an animal"
wrong "${animal}goat\n\n\n\n\n" '400' 'out of range' "a goat as heavy as a pony"
wrong "${animal}pony\n\n\n\n\n" '610' 'That is 610 kg (1345 lb), and such animals weigh about 250 kg' "pounds without the word"
wrong "${animal}goat\n\n\n\n\n" 'girth 90' 'is not an amount' "a girth without a length"
wrong "${animal}goat\nyoung\n\n\n\n" 'girth 60 length 55' 'for grown animals' "a kid by tape"
wrong "${animal}alpaca\n\n\n\n" 'girth 90 length 80' 'no tape formula' "an alpaca by tape"
fed="${animal}goat\n\n\n\n\n\n"
wrong "$fed" 'oats' 'how much of it' "a feed without a weight"
wrong "$fed" 'beet pulp 200 g' 'could be beet-pulp-plain, beet-pulp-molassed' "a feed that could be two"
wrong "$fed" 'dragonfruit 1 kg' 'type part of one of oats' "a feed that is none"
wrong "$fed" 'goat nuts 200 g' 'could be goat-pellet-low, goat-pellet-high: type more of it; those are the ends' "a feed known by its ends"
wrong "$fed" 'alfalfa pellets 1 lb' 'Is there another group' "a feed by our word and the one of several"
wrong "$fed" 'oats 500 kg' 'out of range' "a cartload of oats"
hay="$fed\n\n"
wrong "$hay" 'hay from Bob' 'not one of them' "hay that is none"
wrong "${hay}2\n" 'many' 'is not an amount' "bales in words"
wrong "${hay}2\n10\n" 'light' 'is not an amount' "no weight of a bale"
wrong "${hay}2\n10\n" '' 'Laboratory test' "a weight of bales that nobody knows"
wrong "${hay}" 'bermuda' 'How many of it' "of hays that fit, the one that was shown"
wrong "${hay}2\n10\n" '0.5 kg' 'out of range' "a bale of half a kilo"
wrong "${hay}2\n\n" '80' 'out of range' "hay of sugar"
wrong "${hay}2\n\n9\n" 'starch' 'could be' "which sum it is"
wrong "${hay}2\n10\n15\n\n\n" 'attic' 'not one of them' "a store that is none"
wrong "${hay}2\n10\n15\n\n\n\n" 'bathtub' 'not one of them' "a feeder that is none"
wrong "${hay}2\n10\n15\n\n\n\n\n" 'cheap' 'is not an amount' "a price in words"
wrong '' "$(printf 'x%.0s' $(seq 300))" 'longer than' "a name too long"
wrong '' "$(printf 'x%.0s' $(seq 3000))" 'too long' "a line too long"
wrong '\n\n52.3, -2.6\n\n\n\n' "$(printf 'X%.0s' $(seq 60))" 'Written as x' "a paddock with a name of 60 letters is taken"
wrong '\n\n52.3, -2.6\n\n\n\n' "$(printf 'é%.0s' $(seq 40))" "Written as $(printf 'é%.0s' $(seq 31))." "one of 40 letters of two bytes is cut at the end of a letter"
wrong '' "$(printf 'a\033[31mb')" 'control character' "a control character"
yard=$scratch/wrong
typed '\n\nx\nx\nx\nx\nx\n52.3, -2.6\n'
answers <"$lines"
exits 64 "five wrong answers in a row through a pipe end it"
untouched "and nothing is written"
typed '\n\n52.3, -2.6\n\n\n\n\n\n\n\n\n\n\n\n\ngoat\n\n\n\n\n\n\n\n\nno\n'
answers <"$lines"
exits 66 "no to the last question"
untouched "writes nothing"

# --- every class by its own answers
while read -r class kind stage trouble; do
    yard "class-$class"
    typed '\n\n52.3, -2.6\n\n\n\n\n\n\n\n\n\n\n\n\n%s\n%s\n%s\n\n\n\n\n\n\n\n\n' "$kind" "$stage" "$trouble"
    sed '/^-$/d' "$lines" >"$lines.all"
    answers <"$lines.all"
    exits 0 "$class: the answers are taken"
    holds 'h["animals"][0]["class"]' "$class" "$class by answers"
done <<'A'
goat-dry goat grown none
goat-late-pregnant goat pregnant none
goat-lactating goat milking none
goat-growing goat young none
goat-laminitis-history goat grown laminitis
sheep-dry sheep grown none
ewe-late-pregnant sheep pregnant none
sheep-lactating sheep milking none
pony pony grown none
horse horse grown none
equid-at-risk horse grown ppid
equid-laminitis-history pony grown insulin
equid-acute pony grown now
mare-pregnant pony pregnant none
mare-lactating horse milking none
donkey donkey grown none
donkey-laminitis-history donkey grown laminitis
alpaca alpaca - none
cattle cattle - none
A

# --- a mixed yard: run again, go through what is there, add to it; what is not asked stays
yard mixed
cp data/demo/holding.json "$yard/holding.json"
python3 - "$yard/holding.json" <<'P'
import json, sys
h = json.load(open(sys.argv[1]))
h["animals"][2]["limits"] = {"max_hours": 2}
h["animals"][2]["note"] = "as agreed with the vet"
h["weather"].append({"service": "nasa-power", "cache_days": 7})
json.dump(h, open(sys.argv[1], "w"))
P
cp "$yard/holding.json" "$scratch/before.json"
yes '' | head -60 >"$lines"
answers --offline <"$lines"
exits 0 "Enter all the way through what is there"
check "changes nothing" python3 -c 'import json, sys; a, b = [json.load(open(f)) for f in sys.argv[1:]]; sys.exit(a != b)' \
    "$scratch/before.json" "$yard/holding.json"
same "$scratch/before.json" "$yard/holding.json.old" "the old file is kept as it was"
answers --offline <<'A'
change







grey-pony
pony


1
290


add
horse


cob

540
old-bank







A
exits 0 "an animal changed and one added"
holds '[a["id"] for a in h["animals"]]' "['milkers', 'wethers', 'grey-pony', 'donkey', 'cob']" "all groups stand"
holds 'h["animals"][2]["class"], h["animals"][2]["weight_kg"], h["animals"][2]["limits"]' "('equid-laminitis-history', 290, {'max_hours': 2})" "Enter does not heal an animal, and the vet's limits stay"
holds 'h["weather"][1]["cache_days"]' 7 "what is not asked stays"
check "the file before that one is kept too" test -e "$yard/holding.json.old-2"
lacks "$out" "The diary's weight" "nothing of a diary that is not there"

# Another weight than the diary's may be typed; who does must see that it does not count.
printf 'date,time,subject,what,value,unit,note\n2025-04-20,,grey-pony,weight,271,kg,\n2025-04-20,,cob,weight,540,kg,\n' >"$yard/diary.csv"
yes '' | head -60 >"$lines"
answers --offline <"$lines"
exits 0 "with a diary"
contains "$out" "The diary's weight is the one that counts for grey-pony:" "the animal whose weight is another"
contains "$out" "271 kg, of 2025-04-20. If that is old: sugarlea record weight ANIMAL KG" "the weight that counts, its day, and the way out"
lacks "$out" "counts for cob" "nothing of one that is the same"
printf 'date,time,subject,what,value,unit,note\n2099-05-22,,grey-pony,weight,310,kg,\n' >"$yard/diary.csv"
answers --offline <"$lines"
exits 0 "with a weight of a day to come"
lacks "$out" "The diary's weight" "which counts neither there nor in the advice"

cp "$yard/holding.json" "$scratch/before.json"
answers --offline --latitude 52.3 --longitude -2.6 --weather weather.csv --animal sheep-dry --timezone Europe/London <<'A'
another



















A
exits 0 "another one beside it"
same "$scratch/before.json" "$yard/holding.json" "the first is untouched"
check "under the next name" test -e "$yard/holding-2.json"
contains "$out" "--holding holding-2.json" "and it is said how to use it"
echo '{ "sugarlea": 1, "site": }' >"$yard/holding.json"
cp "$yard/holding.json" "$scratch/before.json"
typed 'quit\n'
answers <"$lines"
contains "$out" "cannot be gone through" "a broken holding is named"
lacks "$out" "go through it: what" "and not offered"
same "$scratch/before.json" "$yard/holding.json" "it is left alone"

# --- the short way: a dozen questions, the rest assumed and said, and asked by the next run
yard=$scratch/short
mkdir -p "$yard"
cp "$weather" "$yard/weather.csv"
printf '\n52.3, -2.6\nnone\n\npony\n\nlaminitis\n2\n240 kg\nback\n250 kg\n\n' >"$scratch/few"
(cd "$yard" && "$PROGRAM" setup --short --no-log <"$scratch/few" >"$out" 2>"$err")
code=$?
exits 0 "--short"
check "asks no more than a dozen questions" test "$(grep -c '^  .*> ' "$out")" -le 12
matches "$out" "^  Soil +unknown \(assumed\)$" "shows what it assumed"
matches "$out" "^  Weight of one +250 kg$" "and what was answered, corrections too"
contains "$out" "Weather services" "asks for a service, for the file is old"
holds '(h["animals"][0]["class"], h["animals"][0]["count"], h["animals"][0]["weight_kg"], h["paddocks"][0]["soil"])' "('equid-laminitis-history', 2, 250, 'unknown')" "writes both; back goes to what was asked"
{
    yes '' | head -n 7
    echo paddock
    yes '' | head -n 50
} >"$scratch/enters"
(cd "$yard" && "$PROGRAM" setup --no-log <"$scratch/enters" >"$out" 2>"$err")
contains "$out" "Wet a handful" "and the long way asks the rest of a paddock that is named"
rm "$yard/holding.json"
printf '\n52.3, -2.6\n\npony\n\nlaminitis\n2\n250 kg\n\n' >"$scratch/few"
(cd "$yard" && SOURCE_DATE_EPOCH=1745388000 "$PROGRAM" setup --short --no-log <"$scratch/few" >"$out" 2>"$err")
code=$?
exits 0 "--short with weather that is new"
matches "$out" "^  Weather services +none \(assumed\)$" "asks for no service"
contains "$out" '"sugarlea today" says why' "and tells what to do this morning"
lacks "$out" 'warm country' "shows no grasses of warm country at 52 degrees"

# --- without questions
yard=$scratch/script
mkdir -p "$yard"
cp "$weather" "$yard/weather.csv"
run_in "$yard" setup --no-input --name 'Script "A"' --latitude 52.3 --longitude -2.6 --weather weather.csv \
    --animal equid-at-risk --count 2 --weight 300 --grass timothy --soil clay --nitrogen low --cover 2100 --area 1.5 \
    --timezone Europe/London
exits 0 "--no-input"
contains "$out" "Assumed" "what was assumed is listed"
matches "$out" '^  --elevation +unknown' "with the option that says otherwise"
lacks "$out" "--soil" "what was given is not assumed"
holds '(h["name"], h["paddocks"][0]["grass"], h["paddocks"][0]["soil"], h["paddocks"][0]["nitrogen"], h["paddocks"][0]["area_ha"])' "('Script \"A\"', {'timothy': 1}, 'clay', 'low', 1.5)" "options are the answers"
holds '(h["animals"][0]["class"], h["animals"][0]["count"], h["animals"][0]["weight_kg"], h["paddocks"][0]["kept"])' "('equid-at-risk', 2, 300, {'how': 'grazed', 'cover_kg_dm_ha': 2100})" "of the animals too"
cp "$yard/holding.json" "$scratch/before.json"
run_in "$yard" setup --no-input --latitude 52.3 --longitude -2.6 --animal pony
refused 73 '--replace' "no overwriting unasked"
same "$scratch/before.json" "$yard/holding.json" "what stands there is left"
run_in "$yard" setup --no-input --replace --latitude 52.3 --longitude -2.6 --animal pony
exits 0 "--replace; and no weather is no error"
same "$scratch/before.json" "$yard/holding.json.old" "the old one is kept"
contains "$out" "No advice yet" "why there is no advice"
contains "$out" "there is no weather" "is said"
run_in "$yard" setup --no-input --holding s.json --latitude 52.3 --longitude -2.6 --animal pony --service nasa-power,met-norway --offline
exits 0 "services by option"
contains "$out" "No advice yet" "services that were not asked yet give no advice"
check "both stand in the file" grep -q '{ "service": "nasa-power" }, { "service": "met-norway" }' "$yard/s.json"
run_in "$yard" setup --no-input --holding n.json --animal pony
code_was=$code
contains "$err" "--latitude" "a place is needed"
check "with the code of a wrong command line" test "$code_was" -eq 64
run_in "$yard" setup --no-input --holding n.json --latitude 52.3 --longitude -2.6
contains "$err" "--animal" "an animal is needed"
run_in "$yard" setup --no-input --holding n.json --latitude 52.3 --animal pony
refused 64 '--longitude' "a latitude alone"
run_in "$yard" setup --no-input --holding n.json --latitude 52.3 --longitude -2.6 --animal ponny
contains "$err" "--animal" "a class mistyped"
run_in "$yard" setup --no-input --holding n.json --latitude 52.3 --longitude -2.6 --animal pony --weather none.csv
exits 66 "a weather file that is not there"
contains "$err" "none.csv" "is named"
run_in "$yard" setup --no-input --holding n.json --latitude 52.3 --longitude -2.6 --animal pony --weight 1800
contains "$err" "--weight" "a weight out of range"
run_in "$yard" setup --no-input --holding n.json --latitude 52.3 --longitude -2.6 --animal pony --service nasa-pover
contains "$err" "--service" "a service mistyped"
check "none of these wrote anything" test ! -e "$yard/n.json"
run_in "$yard" setup --replace
refused 64 '--replace' "--replace with questions"
run_in "$yard" setup --holding -
refused 64 '--holding' "no file to write"
run_in "$yard" setup --holding nowhere/h.json
refused 73 'nowhere/h.json' "a folder that is not there, before any question"
run_in "$yard" setup --no-input --holding /proc/h.json --latitude 52.3 --longitude -2.6 --animal pony
exits 73 "a folder that cannot be written to"
lacks "$out" "Written" "and nothing else is claimed"
check "no half-written file is left" test -z "$(find "$yard" -name '*.json.??????')"

# --- on a terminal
if command -v python3 >/dev/null 2>&1; then
    yard terminal
    python3 - "$PROGRAM" "$yard" >"$out" 2>"$err" <<'P'
import os, pty, sys, time
program, yard = sys.argv[1:]
answers = ["My yard", "", "x", "y", "z", "x", "y", "z", "52.3, -2.6", "", "", ""] + [""] * 9 + ["donkey"] + [""] * 12
child, master = pty.fork()
if child == 0:
    os.chdir(yard)
    os.execv(program, [program, "setup"])
got = b""
def until(mark):
    global got
    start = len(got)
    while mark not in got[start:]:
        try:
            got += os.read(master, 4096)
        except OSError:
            return False
    return True
n = 0
while until(b"> ") and n < len(answers):
    os.write(master, answers[n].encode() + b"\n")
    n += 1
until(b"Local rules")
os.close(master)
_, status = os.waitpid(child, 0)
sys.stdout.buffer.write(got)
sys.exit(os.WEXITSTATUS(status))
P
    code=$?
    exits 0 "on a terminal six wrong answers in a row are borne"
    contains "$out" "donkey: 1 x donkey" "the first advice on a terminal"
    holds 'h["name"]' "My yard" "and the file"
    python3 - "$PROGRAM" "$yard" >"$out" 2>"$err" <<'P'
import os, pty, sys
program, yard = sys.argv[1:]
child, master = pty.fork()
if child == 0:
    os.chdir(yard)
    os.execv(program, [program, "setup", "--holding", "other.json"])
got = b""
while b"> " not in got:
    got += os.read(master, 4096)
os.write(master, b"\x04")
while True:
    try:
        if not os.read(master, 4096):
            break
    except OSError:
        break
_, status = os.waitpid(child, 0)
sys.exit(os.WEXITSTATUS(status))
P
    code=$?
    exits 66 "Ctrl-D leaves"
    check "and writes nothing" test ! -e "$yard/other.json"
fi

# --- a locale with a decimal comma changes nothing
yard locale
(cd "$yard" && LC_ALL=de_DE.UTF-8 "$PROGRAM" setup --no-input --latitude 52.3 --longitude -2.6 --weather weather.csv \
    --animal pony --area 1.5 >"$out" 2>"$err")
code=$?
exits 0 "a German locale"
holds 'h["paddocks"][0]["area_ha"]' 1.5 "writes decimal points"

run help setup
exits 0 "help setup"
contains "$out" "--no-input" "lists its options"
finish
