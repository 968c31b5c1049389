#!/bin/sh
# Every number of the model that belongs to one struct is used by more than its reader: a number
# that may be set and changes nothing misleads whoever sets it. The compiler says who uses which
# member, in a copy of the headers that calls each of them deprecated; names alone would not do,
# for two structs may have a member of one name.
# SPDX-License-Identifier: GPL-3.0-or-later
export LC_ALL=C
. tests/lint/lib.sh
need gcc gcc
copy=$(mktemp -d) || exit 70
trap 'rm -rf "$copy"' EXIT
mkdir "$copy/data"
for header in src/data/*_limits.h src/data/sward_kind.h src/data/way_back.h; do
    name=${header##*/}
    sed 's/^    double /    __attribute__((deprecated)) double /' "$header" >"$copy/data/$name"
    # FILE.h member; a list of them may go on in a second line
    sed -n 's/^    double \([^;]*\).*/\1/p; s/^        \([a-z0-9_, ]*\);.*/\1/p' "$header" | tr -s ', ' '\n\n' |
        sed "/^\$/d; s/\[.*//; s|^|$name |"
done | sort >"$copy/members"
names=$(cut -d' ' -f2 "$copy/members" | sort -u | paste -sd'|')
# One compiler after the other: two that write into one file cut each other's lines.
# shellcheck disable=SC2046 # the flags are many words
grep -lE "(->|\.)($names)\b" -r src --include='*.c' | sort | xargs gcc -fsyntax-only -Wdeprecated-declarations \
    -fno-diagnostics-show-caret -I"$copy" $(analysis_flags) >"$copy/said" 2>&1
# Neither the row of a reader's table nor an assertion is a use of the number.
awk -F"'" -v folder="$copy/data/" '
    / is deprecated / { member = $2; used = 1 }
    /in expansion of macro/ && $2 ~ /^(ROW|AT|assert)$/ { used = 0 }
    /note: declared here/ && used && index($0, folder) == 1 {
        print substr($0, length(folder) + 1, index($0, ".h:") + 1 - length(folder)), member
    }' "$copy/said" | sort -u >"$copy/used"
grep 'error:' "$copy/said" && exit 70
[ -s "$copy/used" ] || { echo "no number is used anywhere: the compiler's words were not understood" && exit 70; }
dead=$(comm -23 "$copy/members" "$copy/used")
[ -z "$dead" ] && exit 0
echo "$dead" | sed 's|^\([^ ]*\) \(.*\)|src/data/\1: nothing uses \2: take it out, of models/ too|'
exit 1
