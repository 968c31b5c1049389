#!/bin/sh
# stress.sh [SECONDS [KILLS]]: many fetchers on one entry of the cache, then fetchers killed
# at random moments; `make stress` runs it at full length (30 s, 500). What is read in
# between must be whole, and never worse. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
. tests/server/lib.sh
: >"$out"
: >"$err"
service_start || { fail "the loopback service starts" "$(cat "$service_folder/said")"; finish; }
request open-meteo-forecast >"$scratch/request"
python3 tests/server/stress.py "$FETCHER" "$scratch" "$(port http)" "${1:-30}" "${2:-500}" || bad=1
finish
