#!/bin/sh
# Prints a Python that has numpy; says so and fails where there is none.
# SPDX-License-Identifier: GPL-3.0-or-later
for python in python3 /usr/bin/python3; do
    if "$python" -c 'import numpy' 2>/dev/null; then
        echo "$python"
        exit 0
    fi
done
echo "numpy: skipped, no Python with numpy is installed (Debian: python3-numpy)" >&2
exit 1
