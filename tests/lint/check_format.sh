#!/bin/sh
# Every C file looks as .clang-format says (`make format` lays it out).
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need clang-format clang-format
bad=0
for file in $(c_files src tests); do
    clang-format --dry-run -Werror "$file" 2>/dev/null || { echo "$file: make format would change it" && bad=1; }
done
exit "$bad"
