#!/bin/sh
# Faults that shellcheck finds in the scripts.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need shellcheck shellcheck
# SC1091: sourced helpers are checked on their own. SC2034, SC2154: variables that
# a helper sets for its users. SC2317: reached by name only.
shellcheck -S warning -s sh -e SC1091,SC2034,SC2154,SC2317 .ci/deps data/demo.sh packaging/*.sh tests/*.sh tests/*/*.sh &&
    shellcheck -S warning .ci/run
