#!/bin/sh
# The shipped weather files are what data/SOURCES.md says: every day there once and
# in order, real dates, values that a day can have.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

cat >"$scratch/sane.awk" <<'AWK'
# Given: first and last date, holes = days without radiation. Prints what is wrong, at most five lines.
function days(date,    y, m, d) { # a running number; years begin in March
    y = substr(date, 1, 4) + 0; m = substr(date, 6, 2) + 0; d = substr(date, 9, 2) + 0
    if (m < 3) { y--; m += 12 }
    return 365 * y + int(y / 4) - int(y / 100) + int(y / 400) + int((153 * (m - 3) + 2) / 5) + d
}
function wrong(why) { if (++n <= 5) print FILENAME ":" NR ": " why }
BEGIN { FS = "," }
NR == 1 {
    if ($0 !~ /^date,tmin_c,tmax_c,rain_mm,rad_mj_m2,rh_pct,wind_(m_s|10m)$/) wrong("header " $0)
    next
}
{
    if (NF != 7) wrong(NF " fields")
    if ($1 !~ /^[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]$/) wrong("date " $1)
    if (NR == 2 && $1 != first) wrong("starts " $1)
    if (NR > 2 && days($1) != before + 1) wrong("day after " previous " is " $1)
    before = days($1); previous = $1
    if ($2 == "" || $3 == "" || $2 + 0 > $3 + 0) wrong("tmin " $2 " tmax " $3)
    if ($2 < -25 || $3 > 45) wrong("temperature " $2 " " $3)
    if ($4 == "" || $4 < 0 || $4 > 200) wrong("rain " $4)
    if ($5 != "" && ($5 < 0 || $5 > 35)) wrong("radiation " $5)
    if ($6 != "" && ($6 < 5 || $6 > 100)) wrong("humidity " $6)
    if ($7 == "" || $7 < 0 || $7 > 30) wrong("wind " $7)
    if ($5 == "") no_rad++
    rad += $5; rain += $4
}
END {
    if (previous != last) wrong("ends " previous)
    years = (NR - 1) / 365.25
    # Yearly rain of moist pasture climates, and a mean radiation in MJ rather than kWh or J/cm2.
    if (rain / years < 400 || rain / years > 1800) wrong("rain a year " rain / years)
    rad /= NR - 1 - no_rad
    if (rad < 8 || rad > 20) wrong("mean radiation " rad)
    if (no_rad != holes) wrong(no_rad + 0 " days without radiation")
    exit n > 0
}
AWK

sane() { # FILE FIRST LAST DAYS-WITHOUT-RADIATION
    if awk -v first="$2" -v last="$3" -v holes="$4" -f "$scratch/sane.awk" "$1" >"$out"; then
        pass "$1 is whole and sane"
    else
        fail "$1 is whole and sane" "see below"
    fi
}
sane data/demo/weather.csv 2023-05-01 2025-04-22 0
sane data/real/dublin_airport_2010-2020.csv 2010-01-01 2020-10-31 24
sane data/real/de_bilt_2005-2019.csv 2005-01-01 2019-12-31 0
sane data/real/shorter_al_us_2010-2019.csv 2010-01-01 2019-12-31 0
: >"$out"

for file in $(git ls-files data 2>/dev/null || find data -type f); do
    case $file in
    data/demo.sh | data/SOURCES.md) ;;
    *) contains data/SOURCES.md "${file#data/}" "data/SOURCES.md tells where ${file#data/} comes from" ;;
    esac
done
contains data/SOURCES.md "invented weather" "data/SOURCES.md says that the demo weather is invented"

if command -v python3 >/dev/null 2>&1; then
    python3 data/demo/make_weather.py >"$scratch/again.csv" 2>"$err"
    same data/demo/weather.csv "$scratch/again.csv" "the invented weather comes out the same again"
else
    skip "the invented weather comes out the same again" "no python3"
fi
finish
