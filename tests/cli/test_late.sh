#!/bin/sh
# A record that ends some days before the morning: how far off the sugar then is, against the same model on the whole
# record (De Bilt, KNMI), and what is allowed for it (models/METHOD.md). SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
record=data/real/de_bilt_2005-2019.csv
place='--latitude 52.1 --longitude 5.18 --elevation 2'

# shellcheck disable=SC2086 # several words
run season --csv --weather $record $place --from 2007-01-01 --to 2019-12-31
cp "$out" "$scratch/whole.csv"

# late DAYS: mornings over the years, each with the record cut so many days before it.
late() {
    i=0
    : >"$scratch/said"
    while [ "$i" -lt 48 ]; do
        morning=$(awk -F, -v n=$((40 + 97 * i)) 'NR == n { print $1 }' "$scratch/whole.csv")
        end=$(date -u -d "$morning -$(($1 + 1)) days" +%F)
        awk -F, -v end="$end" 'NR == 1 { print; next } $1 <= end { row[n++] = $0 }
            END { for (i = n > 600 ? n - 600 : 0; i < n; i++) print row[i] }' $record >"$scratch/cut.csv"
        # shellcheck disable=SC2086 # several words
        run today --weather "$scratch/cut.csv" $place --animal equid-at-risk --date "$morning" --json --no-log --allow-stale
        printf '%s ' "$morning" >>"$scratch/said"
        tr -d '\n' <"$out" >>"$scratch/said"
        echo >>"$scratch/said"
        i=$((i + 1))
    done
    python3 - "$scratch" "$1" <<'P'
import csv, json, math, sys
folder, days = sys.argv[1], int(sys.argv[2])
whole = {r["date"]: float(r["nsc_mean"]) for r in csv.DictReader(open(folder + "/whole.csv"))}
off, wide = [], []
for line in open(folder + "/said"):
    morning, told = line.split(" ", 1)
    sugar = json.loads(told)["paddocks"][0]["nsc_g_per_kg"]
    off.append(math.log(sugar["mean"] / whole[morning]))
    wide.append(math.log(sugar["high80"] / sugar["mean"]) / 1.28155)  # the normal quantile of 0.9 (any table)
rms = math.sqrt(sum(x * x for x in off) / len(off))
allowed = 0.10 * math.sqrt(1 + 2 * days)
least = math.sqrt(min(wide) ** 2 - allowed ** 2) if min(wide) > allowed else 0
print(f"# {days} days lacking: off by {rms:.3f} (RMS of ln, {len(off)} mornings), allowed {allowed:.3f}; the rest of the doubt {least:.3f}")
ok = len(off) == 48 and 0.6 * allowed < rms < 1.4 * allowed and 0.43 < least < 0.47
sys.exit(not ok)
P
}
for days in 0 1 3 7; do
    if late "$days" >"$scratch/score"; then pass "$days days late: as far off as is allowed"; else fail "$days days late" "$(cat "$scratch/score")"; fi
    cat "$scratch/score"
done

finish
