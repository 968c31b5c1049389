#!/bin/sh
# Reference evapotranspiration against numpy, on the same arrays (50 sites of 30 years, a
# site at a time, so that both keep theirs in the cache).
# Usage: bench_et0.sh PROGRAM. SPDX-License-Identifier: GPL-3.0-or-later
sh "$(dirname "$0")/against_numpy.sh" "$1" et0_numpy.py ET0 4 50 30
