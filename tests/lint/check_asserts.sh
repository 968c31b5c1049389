#!/bin/sh
# In base, data and each folder of the model at least one assertion for 40 lines of code (blank lines
# and those that begin with a comment not counted). SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
bad=0
for folder in base data physics sward animal advice season hay; do
    cat src/"$folder"/*.c | awk -v folder="$folder" '
        /^ *(\/?\*|$)/ { next }
        { lines++ }
        /(^|[^a-z])assert\(/ { asserts++ }
        END { if (40 * asserts < lines) {
            print "src/" folder ": " asserts + 0 " assertions in " lines " lines of code, at least 1 in 40"; exit 1 } }' || bad=1
done
exit "$bad"
