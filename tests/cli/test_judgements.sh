#!/bin/sh
# Numbers of our own judgement that stand in models/ and that a morning goes by: each one changed, the advice says
# something else. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
cp data/demo/holding.json data/demo/weather.csv "$scratch/"
diary=$scratch/diary.csv
head='date,time,subject,what,value,unit,note'

# said FILE KEY VALUE: KEY is VALUE from now on, in a copy of models/ that has nothing else changed.
said() {
    rm -rf "$scratch/models"
    cp -R models "$scratch/models"
    sed "s/\"$2\": {\"value\": [0-9.]*, \"unit\": \"\([^\"]*\)\", \"low\": [0-9.]*/\"$2\": {\"value\": $3, \"unit\": \"\1\", \"low\": 0/" \
        "models/$1" >"$scratch/models/$1"
    cmp -s "models/$1" "$scratch/models/$1" && fail "$2 is in $1" "nothing was changed"
    SUGARLEA_MODELS=$scratch/models
    export SUGARLEA_MODELS
}
as_shipped() {
    SUGARLEA_MODELS=$PWD/models
    export SUGARLEA_MODELS
}
advice() {
    run today --holding "$scratch/holding.json" --date 2025-04-23 --no-log
}
as_shipped

# an insulin reading is said for 60 days
for date in 2025-02-22 2025-02-21; do
    printf '%s\n%s,,grey-pony,insulin,62,uIU/ml,\n' "$head" "$date" >"$diary"
    advice
    cp "$out" "$scratch/insulin-$date"
done
contains "$scratch/insulin-2025-02-22" 'insulin of grey-pony on 2025-02-22: 62' "an insulin reading of 60 days ago is said"
lacks "$scratch/insulin-2025-02-21" 'insulin of grey-pony' "one of 61 days ago no longer is"
said limits.json insulin_days 61
advice
exits 0 "the advice with insulin_days 61"
contains "$out" 'insulin of grey-pony on 2025-02-21: 62' "insulin_days says how long"
as_shipped

# a hay test is said when it differs from the holding file by 0.05 % or more; the demo's first hay has 9.2 %
printf '%s\n2025-04-10,,grass-hay-mature,hay-test,9.24,%%,\n' "$head" >"$diary"
advice
lacks "$out" 'still reckons with' "a hay test of 9.24 % where the holding file says 9.2 % is the same"
said limits.json hay_test_same_pct 0.03
advice
contains "$out" 'still reckons with another figure' "hay_test_same_pct says how near is the same"
as_shipped

# advised hours of the last 400 days take the way back to grass on: signs of last summer lie behind
printf '%s\n2024-06-01,,grey-pony,foot-signs,hot-feet,,\n2024-06-03,,grey-pony,foot-signs,none,,\n' "$head" >"$diary"
advice
lacks "$out" 'way back to grass, day' "the way back that began last June is over"
said limits.json way_back_followed_days 5
advice
exits 0 "the advice with way_back_followed_days 5"
contains "$out" 'way back to grass, day' "way_back_followed_days says how many past mornings are followed"
as_shipped
rm "$diary"

# more sun than reaches the latitude: 4 in 100 days are an instrument's, 6 in 100 a wrong latitude
too_bright() { # EVERY-nTH-DAY
    awk -F, -v OFS=, -v n="$1" 'NR > 1 && NR % n == 0 { $5 = 48 } 1' data/demo/weather.csv >"$scratch/weather.csv"
    advice
}
too_bright 25
exits 0 "too much sun on 4 in 100 days"
said weather-limits.json impossible_sun 0.03
too_bright 25
exits 78 "impossible_sun says on how many days the latitude is doubted"
contains "$err" 'more sun was recorded than reaches this latitude' "and the latitude is named"
as_shipped
too_bright 16
exits 78 "too much sun on 6 in 100 days"

# doubts about the weather of the last 14 days are said one by one
awk -F, -v OFS=, '$1 == "2025-04-08" { $3 = 38 } 1' data/demo/weather.csv >"$scratch/weather.csv"
advice
cp "$out" "$scratch/doubt"
said weather-limits.json doubt_days 20
advice
contains "$out" 'Note: 8 April 2025' "doubt_days says how long a doubt about the weather is said"
lacks "$scratch/doubt" '8 April 2025' "one of 15 days ago is not"
# white grass thaws when the air has 3 C; what that means for the hours (Dublin Airport, as shipped)
frost() { # DATE CLASS
    run today --weather data/real/dublin_airport_2010-2020.csv --latitude 53.43 --longitude -6.24 --elevation 71 \
        --animal "$2" --date "$1" --short --no-log
    tr -s ' \n' ' ' <"$out" >"$scratch/flat"
}
as_shipped
frost 2010-12-25 equid-laminitis-history
matches "$scratch/flat" 'if the grass is white at [0-9:]+, no grass today: [0-9.]+ kg of hay a head in all\. It hardly thaws today\.' "a day that stays white is a day on hay"
frost 2010-12-25 mare-pregnant
matches "$scratch/flat" 'white grass will hardly thaw today: until it does, hay: 1[0-9.]+ kg a head in all for a whole day' "for those on grass day and night, too"
frost 2019-12-01 mare-pregnant
matches "$scratch/flat" 'keep who is in until it has thawed, about 09:50' "the free wait for the thaw"
frost 2019-12-01 equid-laminitis-history
matches "$scratch/flat" 'if the grass is white at 06:30, wait for the thaw, about 09:50, and still bring them in at 12:30' "waiting does not move the end"
said limits.json thaw_c 1
frost 2019-12-01 equid-laminitis-history
matches "$scratch/flat" 'wait for the thaw, about 09:00' "colder air will do where the file says so"
as_shipped

finish
