#!/bin/sh
# What `make demo` shows. Nothing is written: no advice log.
# SPDX-License-Identifier: GPL-3.0-or-later
set -e
echo "== An invented holding with invented weather, on the morning of 23 April 2025"
./sugarlea today --holding data/demo/holding.json --date 2025-04-23 --no-log
echo
echo "== A real record (Dublin Airport), one pony with a history of laminitis, 16 April 2020"
./sugarlea today --weather data/real/dublin_airport_2010-2020.csv \
    --latitude 53.43 --longitude -6.24 --elevation 71 \
    --animal equid-laminitis-history --date 2020-04-16 --no-log
echo
echo "== For your own animals: README.md, \"The first morning\""
