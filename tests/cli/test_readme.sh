#!/bin/sh
# Every command of the README runs, says what the README shows of it, and every path it
# names is real. Commands run in order, in a copy of the demo holding, on its morning.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
as_at_home "$scratch/tree"

# One "KIND<tab>TEXT" a line: sh and quoted commands as they come, and what is shown of the
# one sh command before it (a block in which there is none).
awk '
/^#/ && !on { shown = 0 }
/^```/ && !on { on = 1; language = substr($0, 4); quiet = language != "" && language != "sh"; next }
/^```/ { on = 0; if (language == "sh") shown = commands == 1; else if (!spoken) shown = 0; commands = spoken = 0; next }
on && language == "sh" && /^\.\/sugarlea / { commands++; print "command\t" $0; next }
on && !quiet && /^sugarlea / { spoken = 1; print "command\t" $0; next }
on && !quiet && shown { print "shows\t" $0; next }
!on {
    while (match($0, /`(\.\/)?sugarlea [^`]*`/)) {
        command = substr($0, RSTART + 1, RLENGTH - 2)
        $0 = substr($0, RSTART + RLENGTH)
        if (command !~ /[A-Z][A-Z]|[ =]N$/) print "aside\t" command # else it is a pattern
    }
}' README.md >"$scratch/lines"
check "the README shows commands" test "$(grep -c '^command' "$scratch/lines")" -ge 15
check "and what they answer" test "$(grep -c '^shows' "$scratch/lines")" -ge 80

# The lines shown must be among those printed, in that order.
tab=$(printf '\t')
: >"$scratch/shown"
among() {
    [ -s "$scratch/shown" ] || return 0
    grep -v '^(shortened' "$scratch/shown" >"$scratch/wanted"
    awk 'NR == FNR { wanted[++n] = $0; next }
         $0 == wanted[i + 1] { i++ }
         END { if (i < n) { print "# not printed there: " wanted[i + 1]; exit 1 } }' "$scratch/wanted" "$scratch/answer"
    code=$?
    check "README: $shown_by: it prints what the README shows" test "$code" -eq 0
    : >"$scratch/shown"
}
while IFS= read -r line; do
    text=${line#*"$tab"}
    case $line in
    shows*) printf '%s\n' "$text" >>"$scratch/shown" ;;
    *)
        among
        at_home "$scratch/tree" "$text"
        exits 0 "README: $text"
        answers "$text" "README: $text: it answers"
        case $line in command*) cp "$out" "$scratch/answer" && shown_by=$text ;; esac
        ;;
    esac
done <"$scratch/lines"
among

for path in $(grep -oE '`(data|models|packaging|tests|src)/[A-Za-z0-9_./-]+`' README.md DEVELOPERS.md | sed 's/.*:`//; s/`$//' | sort -u); do
    case $path in
    *NAME* | *test_\*) ;;
    *) check "$path, named in the documents, is there" test -e "$path" ;;
    esac
done

# Every grass, soil and class of the models is in the README. (Rows of a table
# stand one a line and start with their id.)
ids() { # FILE KEY: ids of the rows that hold this key
    sed -n "s/^ *\"\([a-z-]*\)\": {\"$2\":.*/\1/p" "$1"
}
tr -s ' ,;.`()' '\n' <README.md >"$scratch/words"
: >"$out"
for id in $(ids models/animals.json species) $(ids models/swards.json type) $(ids models/swards.json capacity_mm); do
    check "the README names $id" grep -qxF -e "$id" "$scratch/words"
    echo "$id" >>"$scratch/ids"
done
# 19 classes, 18 grasses, 9 soils when this was written
check "the ids of the models were found" test "$(grep -c '' "$scratch/ids")" -ge 46

# What it says of the days before a morning is what the program asks for.
days=$("$PROGRAM" params | sed -n 's/^limits\..*min_days = \([0-9]*\) .*/\1/p')
contains README.md "At least $days days before the morning" "the README has the days that are asked for"

# The holding of the README is read as it stands.
awk '/^```json$/ { on = 1; next } /^```/ { on = 0 } on' README.md >"$scratch/holding.json"
cp data/demo/weather.csv "$scratch/weather.csv"
run today --holding "$scratch/holding.json" --date 2025-04-23 --no-log
exits 0 "README: the holding file works"
contains "$out" "grey-pony" "README: the holding's pony is advised"
finish
