#!/bin/sh
# Runs each bench program named: through the script of its name beside this one when
# there is one, else as it is. SPDX-License-Identifier: GPL-3.0-or-later
here=$(dirname "$0")
echo "# $(uname -sm), $(nproc) processors, $("${CC:-cc}" --version | head -n 1); what else runs: $(uptime | sed 's/.*load/load/')"
for program in "$@"; do
    name=$(basename "$program")
    echo "== $name"
    if [ -f "$here/$name.sh" ]; then
        sh "$here/$name.sh" "$program" || echo "FAILED $name"
    else
        "$program" || echo "FAILED $name"
    fi
done
