#!/bin/sh
# A season of many places: time a site-day, what more sites and more cores bring, and memory.
# Usage: bench_country.sh PROGRAM MAKER [SITES], MAKER being bench_reader, which writes the invented file.
# SPDX-License-Identifier: GPL-3.0-or-later
echo "== bench_country"
folder=$(mktemp -d "${TMPDIR:-/tmp}/bench.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM
sites=${3:-240}
"$2" --make "$folder/few.csv" $((sites / 4)) 30 && "$2" --make "$folder/many.csv" "$sites" 30 || exit 1
if ! python3 - "$1" "$folder" "$sites" <<'EOT'
import os, subprocess, sys, time
program, folder, sites = sys.argv[1], sys.argv[2], int(sys.argv[3])
cores, days = os.cpu_count(), 10957

def season(name, jobs, *more):
    """Seconds, and MB at most, of all days of all sites."""
    start = time.perf_counter()
    child = subprocess.Popen([program, "season", "--csv", "--weather", "%s/%s.csv" % (folder, name), "--latitude", "52",
                              "--from", "1900-01-01", "--jobs", str(jobs), *more], stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    if status:
        sys.exit(1)
    return time.perf_counter() - start, usage.ru_maxrss * 1024 / 1e6

few, little = season("few", cores)
many, much = season("many", cores)
alone, _ = season("many", 1)
advised, _ = season("many", cores, "--animal", "pony")
print("%d sites of 30 years: %.2f s with %d threads, %.2f with one (%.2f times); with the advice for ponies %.2f s"
      % (sites, many, cores, alone, alone / many, advised))
print("four times the sites: %.2f times as long (aim: 4), %.0f MB at most after %.0f (aim: the same)"
      % (many / few, much, little))
print("a site-day: %.2f microseconds; 10,000 sites of 30 years: %.0f s, with advice %.0f (aim: 180 on two cores)"
      % (1e6 * many / sites / days, many / sites * 1e4, advised / sites * 1e4))
EOT
then
    echo "FAILED bench_country"
fi
