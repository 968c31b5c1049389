#!/bin/sh
# Every place where the program starts another, touches files, or writes text of a form that has
# signs of its own stands in tests/lint/doors.txt with a test that tries it with hostile text; and
# what stands there is still so. (Reading, by file_view, harms nothing and is not listed.)
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
table=tests/lint/doors.txt
programs='popen|exec[lv]p?e?|system|posix_spawnp?|fork|wordexp|dlopen|child_run'
files='open|openat|creat|fopen|freopen|mkstemp|mkostemp|mkdtemp|rename|renameat|unlink|unlinkat|remove|mkdir|rmdir|link|symlink'
files="$files|chmod|chown|truncate|mknod|mkfifo|glob|scandir|opendir|ftw|nftw|fts_open|file_replace|file_append|file_update"
forms='html_text|html_element|html_name|svg_begin|svg_text|calendar_text|buf_add_csv_field|buf_add_json_string|buf_add_clean'
forms="$forms|plot_title|plot_caption|plot_texts?"
found=$(mktemp) listed=$(mktemp) || exit 70
trap 'rm -f "$found" "$listed"' EXIT
# Calls and definitions, not what comments speak of.
grep -rE --include='*.c' "\b($programs|$files|$forms)\(" src | grep -vE '^[^:]*: *(/\*|\*)' |
    grep -oE "^[^:]*:|\b($programs|$files|$forms)\(" |
    awk '/:$/ { file = substr($0, 1, length($0) - 1); next } { print file, substr($0, 1, length($0) - 1) }' |
    sort -u >"$found"
grep -v '^#' "$table" | awk 'NF { n = split($2, call, ","); for (i = 1; i <= n; i++) print $1, call[i] }' | sort -u >"$listed"
bad=0
new=$(comm -23 "$found" "$listed") gone=$(comm -13 "$found" "$listed")
[ -z "$new" ] ||
    { echo "$new" | sed "s|\$|: stands in no line of $table: name the test that tries it with hostile text|" && bad=1; }
[ -z "$gone" ] || { echo "$gone" | sed "s|\$|: stands in $table and no longer in the program|" && bad=1; }
while read -r file call test words; do
    case $file in '' | '#'*) continue ;; esac
    if [ ! -f "$test" ]; then
        echo "$file $call: there is no test $test" && bad=1
    elif [ -z "$words" ] || ! grep -qF -e "$words" "$test"; then
        echo "$file $call: $test says nowhere: $words" && bad=1
    fi
done <"$table"
exit "$bad"
