#!/bin/sh
# What models/METHOD.md points at is there: files, the functions that it says stand in them, keys of
# the model files, and every other name with an underscore. A file without a folder lies in that of
# its chapter, or of the file before it in the same list, as the text says.
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
export LC_ALL=C
bad=0

# defines FILE NAME: does FILE define the function? "name_*": one that begins so?
defines() {
    [ -f "$1" ] || return 0
    name=$(echo "$2" | sed 's/\*$/[a-z0-9_]*/')
    grep -E "^[A-Za-z#][^;]*\b$name\(" "$1" | grep -qv ';$'
}

# check TEXT:LINE FOLDER SPAN: what stands between two back-ticks.
check() {
    text=$1 folder=$2 file=
    set -f
    for word in $(echo "$3" | tr -s ':, ' '\n\n\n'); do
        case $word in
        *.json)
            file=models/${word#models/}
            [ -f "$file" ] || { echo "$text: there is no $file" && bad=1; }
            ;;
        *.[ch])
            case $word in
            tests/*) file=$word ;;
            */*) folder=${word%/*} file=src/$word ;;
            *) file=src/$folder/$word ;;
            esac
            set +f
            ls $file >/dev/null 2>&1 || { echo "$text: there is no $file" && bad=1; }
            set -f
            ;;
        *)
            case $file in
            *.json)
                key=$(echo "${word##*.}" | sed 's/\*$/[a-z0-9_]*/')
                grep -q "\"$key\":" "$file" || { echo "$text: $file has no $word" && bad=1; }
                ;;
            *) defines "$file" "$word" || { echo "$text: $file has no function $word" && bad=1; } ;;
            esac
            ;;
        esac
    done
    set +f
}

for text in models/*.md; do
    spans=$(mktemp) || exit 70
    awk '/^## Physics/ { folder = "physics" } /^## The sward/ { folder = "sward" }
        /^## / && !/^## (Physics|The sward)/ { folder = "(no folder is named)" }
        { n = split($0, span, "`"); for (i = 2; i <= n; i += 2) print FILENAME ":" NR "|" folder "|" span[i] }' "$text" >"$spans"
    while IFS='|' read -r at folder span; do
        if echo "$span" | grep -qE '^[a-z0-9_/*-]+\.([ch]|json)(, [a-z0-9_/*.-]+)*(: [a-z0-9_*., ]+)?$'; then
            check "$at" "$folder" "$span"
        elif echo "$span" | grep -qE '^[a-z0-9]+_[a-z0-9_]+$' && ! grep -rqwIF --exclude-dir=lint "$span" src tests models/*.json && ! ls tests/*/"$span".c >/dev/null 2>&1; then
            echo "$at: nothing is called $span" && bad=1
        fi
    done <"$spans"
    rm -f "$spans"
done
exit "$bad"
