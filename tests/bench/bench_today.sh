#!/bin/sh
# The whole process of the morning's advice on two years of weather: median of 20 runs, and
# the most memory. Usage: bench_today.sh PROGRAM. SPDX-License-Identifier: GPL-3.0-or-later
echo "== bench_today"
folder=$(mktemp -d "${TMPDIR:-/tmp}/bench.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM
record=data/real/de_bilt_2005-2019.csv
awk -F, 'NR == 1 || $1 ~ /^201[67]/' "$record" >"$folder/weather.csv"
set -- "$1" today --weather "$folder/weather.csv" --latitude 52.1 --elevation 2 --animal pony --date 2017-12-30
if ! python3 - "$@" <<'EOT'
import os, statistics, subprocess, sys, time

def median_of_20(command):
    took, worked = [], []
    for _ in range(20):
        start = time.perf_counter()
        child = subprocess.Popen(command, stdout=subprocess.DEVNULL)
        _, status, usage = os.wait4(child.pid, 0)
        took.append(1e3 * (time.perf_counter() - start))
        worked.append(1e3 * (usage.ru_utime + usage.ru_stime))
        if status:
            sys.exit(1)
    return "%.1f ms from start to end, %.1f ms of processor time" % (statistics.median(took), statistics.median(worked))

demo = [sys.argv[1], "today", "--holding", "data/demo/holding.json", "--date", "2025-04-23", "--no-log"]
print("today, two years of weather: %s (medians of 20; aim: at most 15)" % median_of_20(sys.argv[1:]))
print("today, the demo's holding, 400 mornings followed for four groups: %s" % median_of_20(demo))
EOT
then
    echo "FAILED bench_today"
fi
# Not by the script above: a process begins with the memory of whoever starts it, and python's is more than ours.
if [ -x /usr/bin/time ]; then
    /usr/bin/time -f %M "$@" 2>&1 >/dev/null |
        awk '{ printf "memory: %.1f MB at most (aim: at most 16)\n", $1 * 1024 / 1e6 }'
else
    echo "# memory not measured: /usr/bin/time is not installed (Debian: time)"
fi
