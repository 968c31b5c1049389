#!/bin/sh
# Runs each bench program named: through the script of its name beside this one when
# there is one, else as it is. SPDX-License-Identifier: GPL-3.0-or-later
here=$(dirname "$0")
status=0
for program in "$@"; do
    name=$(basename "$program")
    echo "== $name"
    if [ -f "$here/$name.sh" ]; then
        sh "$here/$name.sh" "$program" || status=1
    else
        "$program" || status=1
    fi
done
exit $status
