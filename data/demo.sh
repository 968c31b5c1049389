#!/bin/sh
# What `make demo` shows: where the model's numbers come from.
# SPDX-License-Identifier: GPL-3.0-or-later
set -e
echo "== Every number of the model with its unit, source and evidence (first lines)"
./sugarlea params | sed -n 1,20p
