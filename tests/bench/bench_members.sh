#!/bin/sh
# Growth and sugar of many members against numpy (400 days; 1000 members, so that numpy's
# arrays stay in the cache and its calls cost little).
# Usage: bench_members.sh PROGRAM. SPDX-License-Identifier: GPL-3.0-or-later
sh "$(dirname "$0")/against_numpy.sh" "$1" sward_numpy.py "growth and sugar" 5 400 1000
