#!/bin/sh
# The whole process of the morning's advice on two years of weather: median of 20 runs, and
# the most memory. Usage: bench_today.sh PROGRAM. SPDX-License-Identifier: GPL-3.0-or-later
echo "== bench_today"
folder=$(mktemp -d "${TMPDIR:-/tmp}/bench.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM
record=data/real/de_bilt_2005-2019.csv
awk -F, 'NR == 1 || $1 ~ /^201[67]/' "$record" >"$folder/weather.csv"
if ! python3 - "$1" "$folder/weather.csv" <<'EOT'
import os, statistics, subprocess, sys, time
command = [sys.argv[1], "today", "--weather", sys.argv[2], "--latitude", "52.1", "--elevation", "2",
           "--animal", "pony", "--date", "2017-12-30"]
took, worked, most = [], [], 0
for _ in range(20):
    start = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    took.append(time.perf_counter() - start)
    worked.append(usage.ru_utime + usage.ru_stime)
    if status:
        sys.exit(1)
    most = max(most, usage.ru_maxrss)
print("today, two years of weather: %.1f ms from start to end, %.1f ms of processor time (medians of 20; aim: at most 15)"
      % (1e3 * statistics.median(took), 1e3 * statistics.median(worked)))
print("memory: %.1f MB at most (aim: at most 16)" % (most * 1024 / 1e6))
EOT
then
    echo "FAILED bench_today"
fi
