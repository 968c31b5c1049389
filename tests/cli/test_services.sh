#!/bin/sh
# A holding whose weather comes from services: the commands with a service that works,
# one that fails, one that comes back, and none at all.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
. tests/server/lib.sh
: >"$out"
: >"$err"
service_start || { fail "the loopback service starts" "$(cat "$service_folder/said")"; finish; }
http=http://127.0.0.1:$(port http)
export XDG_CACHE_HOME="$scratch/cache"
holding=$scratch/holding.json

holding_with() { # ENTRIES of "weather"
    cat >"$holding" <<JSON
{ "sugarlea": 1, "name": "Sallow End",
  "site": { "latitude": 52.1912, "longitude": -2.7149, "elevation_m": 120, "timezone": "Europe/London" },
  "weather": [ $1 ],
  "paddocks": [ { "id": "brook", "area_ha": 1 } ],
  "animals": [ { "id": "pony", "class": "equid-at-risk", "paddock": "brook" } ] }
JSON
}
serve() { # BEHAVIOUR of both services
    export SUGARLEA_URL_NASA_POWER="$http/$1" SUGARLEA_URL_OPEN_METEO_FORECAST="$http/$1"
}
both='{ "service": "nasa-power" }, { "service": "open-meteo-forecast" }'

# Nothing kept, nothing to be had.
holding_with "$both"
serve broken!first
run weather --holding "$holding" --offline
refused 69 "nothing of nasa-power is kept yet" "offline with nothing kept"
check "offline asks nobody" [ "$(asked "broken!first")" -eq 0 ]
serve forbidden
run today --holding "$holding" --no-log
refused 69 "nasa-power: it turns us away" "no service and nothing kept"

# A first fetch, two hours ago.
serve ok
SOURCE_DATE_EPOCH=$((now - 7 * 3600))
export SOURCE_DATE_EPOCH
run weather --holding "$holding" --fetch
exits 0 "a first fetch"
contains "$out" "nasa-power" "the record is shown"
contains "$out" "NASA Langley Research Center POWER Project" "with its credit"
contains "$out" "Weather data by Open-Meteo.com" "and the forecast's"
lacks "$service_folder/log" 52.191 "the place leaves the machine rounded"
run weather --holding "$holding" --json --offline
exits 0 "offline afterwards"
matches "$out" '"forecast":1[0-9]' "days of forecast"
unset SOURCE_DATE_EPOCH
cp -R "$XDG_CACHE_HOME" "$scratch/old"
run today --holding "$holding" --no-log --offline --json
exits 0 "advice offline"
cp "$out" "$scratch/advice"
check "no service was asked for it" [ "$(asked "ok/")" -eq 2 ]

# The services fail: the advice is the same, with the reason.
for behaviour in html forbidden wrong-place closes; do
    rm -rf "$XDG_CACHE_HOME"
    cp -R "$scratch/old" "$XDG_CACHE_HOME"
    serve "$behaviour"
    run today --holding "$holding" --no-log --json
    exits 0 "advice from what is kept: $behaviour"
    contains "$out" "nasa-power: " "it says which failed: $behaviour"
    sed 's/"warnings":.*//' "$scratch/advice" >"$scratch/a"
    sed 's/"warnings":.*//' "$out" >"$scratch/b"
    same "$scratch/a" "$scratch/b" "and is the same: $behaviour"
done
rm -rf "$XDG_CACHE_HOME"
cp -R "$scratch/old" "$XDG_CACHE_HOME"
SUGARLEA_FETCH=$scratch/none run today --holding "$holding" --no-log --json
exits 0 "advice without a fetcher"
contains "$out" "SUGARLEA_FETCH" "which is said"

SUGARLEA_FETCH=$scratch/none run weather --holding "$holding" --fetch --quiet
contains "$out" "Not renewed: " "--quiet tells what was not renewed"
lacks "$out" "Recorded to" "and nothing else"

# They come back.
serve ok!back
run weather --holding "$holding" --fetch
exits 0 "asked again"
check "both were" [ "$(asked "ok!back/")" -eq 2 ]
run today --holding "$holding" --no-log
exits 0 "advice right after it"
lacks "$out" "min ago" "being up to date is no news"
check "without asking again" [ "$(asked "ok!back/")" -eq 2 ]
run weather --holding "$holding" --fetch --quiet
exits 0 "asked quietly"
empty "$out" "nothing to tell when all is well"

# A damaged entry.
entry=$XDG_CACHE_HOME/sugarlea/nasa-power_52.19,-2.71.weather
printf x | dd of="$entry" bs=1 seek=2000 conv=notrunc 2>/dev/null
run weather --holding "$holding" --offline
exits 0 "a damaged entry does not stop the rest"
contains "$out" "damaged (its checksum is wrong) and ignored" "and is named"
run weather --holding "$holding"
exits 0 "with a network"
contains "$out" "nasa-power (reanalysis-json)" "it is fetched anew"

# A key file beside the holding; the key shows nowhere.
secret=Rw3-hidden_key.57
echo "$secret" >"$scratch/key.txt"
holding_with "{ \"service\": \"nasa-power\" }, { \"service\": \"open-meteo-forecast\", \"key_file\": \"key.txt\" }"
rm -rf "$XDG_CACHE_HOME"
run weather --holding "$holding" --fetch --verbose
exits 0 "with a key"
contains "$service_folder/log" "apikey=$secret" "the key is sent"
check "and shows nowhere" sh -c "! grep -rqF '$secret' '$out' '$err' '$XDG_CACHE_HOME'"

# Wrong entries.
holding_with '{ "service": "open-meteo-forcast" }'
run weather --holding "$holding"
refused 78 'did you mean "open-meteo-forecast"?' "an unknown service"
holding_with '{ "service": "ncei-daily" }'
run weather --holding "$holding"
refused 78 'add "station"' "a station is needed"
# A round of neighbours: without --fetch nobody is asked; with it one question a service does for all.
rm -rf "$XDG_CACHE_HOME"
holding_with "$both"
for neighbour in 1 2 3; do
    mkdir -p "$scratch/clients/$neighbour"
    cp "$holding" "$scratch/clients/$neighbour/"
done
serve ok
unasked=$(asked "ok/")
run round "$scratch/clients" --csv
exits 0 "a round with nothing kept"
check "says of each that there is no weather" test "$(grep -c ',weather-missing,' "$out")" -eq 3
check "and asks nobody" test "$(asked "ok/")" -eq "$unasked"
run round "$scratch/clients" --csv --jobs 1 --fetch
check "with --fetch each has its advice" test "$(grep -cE ',(free|timed|brief|none),' "$out")" -eq 3
check "for one question a service" test "$(asked "ok/")" -eq $((unasked + 2))
run round "$scratch/clients"
contains "$out" "Open-Meteo.com" "with the credits that the licences want"
finish
