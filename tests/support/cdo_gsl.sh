#!/bin/sh
# The growing-season length of a daily record by the Climate Data Operators (Max Planck
# Institute for Meteorology), an implementation that is not ours: for each year one line,
# "YEAR START LENGTH" as that program gives them. Exits 77 when it is not installed.
# Use: cdo_gsl.sh RECORD.csv FIRST-YEAR LAST-YEAR (date,tmin_c,tmax_c,...; whole years)
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
command -v cdo >/dev/null 2>&1 || exit 77
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# Kelvin in, its custom; -b F64, or days of exactly 5.0 C are miscounted.
awk -F, -v first="$2-01-01" -v last="$3-12-31" 'NR > 1 && $1 >= first && $1 <= last {
    if ($2 == "" || $3 == "") exit 1
    printf "%.2f\n", ($2 + $3) / 2 + 273.15 }' "$1" >"$folder/tg.txt"
cdo -s -b F64 -f nc -settaxis,"$2-01-01,12:00:00,1day" -setname,tg -input,r1x1 "$folder/tg.nc" <"$folder/tg.txt"
cdo -s -f nc -setname,lsm -const,1,r1x1 "$folder/lsm.nc"
cdo -s -b F64 eca_gsl "$folder/tg.nc" "$folder/lsm.nc" "$folder/gsl.nc"
# Its years are one row of length and one of start each, in this order; their dates are not to be trusted.
cdo -s -b F64 outputtab,name,value,nohead "$folder/gsl.nc" | awk -v year="$2" '
    $1 == "thermal_growing_season_length" { length_is = $2 }
    $1 == "day_of_year_of_growing_season_start" { print year++, $2, length_is }'
