# The loopback weather service for tests; read after tests/cli/lib.sh.
# SPDX-License-Identifier: GPL-3.0-or-later
: "${FETCHER:=$(dirname "$PROGRAM")/sugarlea-fetch}"
case $FETCHER in /*) ;; *) FETCHER=$PWD/$FETCHER ;; esac
service_folder=$scratch/service
SUGARLEA_TEST_LOOPBACK=1
SUGARLEA_TEST_CAINFO=$service_folder/authority.crt
SUGARLEA_FETCH=$FETCHER
export SUGARLEA_TEST_LOOPBACK SUGARLEA_TEST_CAINFO SUGARLEA_FETCH
unset SUGARLEA_CONTACT SOURCE_DATE_EPOCH
now=$(date +%s)
today=$((now / 86400))

# service_start: runs it until the test ends (it waits on a pipe that ends with us).
service_start() {
    mkdir -p "$service_folder"
    sh tests/server/certs.sh "$service_folder" || return 1
    mkfifo "$service_folder/alive"
    python3 tests/server/server.py "$service_folder" <"$service_folder/alive" >"$service_folder/said" 2>&1 9>&- &
    exec 9>"$service_folder/alive"
    tries=0
    while [ ! -e "$service_folder/ports" ] && [ "$tries" -lt 100 ]; do
        sleep 0.1
        tries=$((tries + 1))
    done
    [ -e "$service_folder/ports" ]
}

port() { # NAME
    awk -v name="$1" '$1 == name { print $2 }' "$service_folder/ports"
}

asked() { # TEXT: how many questions to the service held it
    touch "$service_folder/log"
    grep -cF -- "$1" "$service_folder/log"
}

# request SERVICE: one request as the fetcher reads it.
request() {
    case $1 in
    nasa-power | open-meteo-archive | ncei-daily) span="\"from\":$((today - 731)),\"to\":$((today - 1))" ;;
    *) span='"from":null,"to":null' ;;
    esac
    printf '{"service":"%s","latitude":52.19,"longitude":-2.71,"elevation":120,"timezone":"",' "$1"
    printf '"station":"USW00093820","today":%s,%s,"url":"","key_file":"","cache_days":1}' "$today" "$span"
}

# fetch CACHE BASE [DEADLINE]: asks the forecast service there; the fetcher's line on standard output.
fetch() {
    request open-meteo-forecast | sed 's/^/[/; s/$/]/' |
        XDG_CACHE_HOME=$1 SUGARLEA_URL_OPEN_METEO_FORECAST=$2 "$FETCHER" --deadline "${3:-8}" 2>&1
}
