#!/bin/sh
# cppcheck over the program and its tests.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need cppcheck cppcheck
cppcheck --quiet --std=c11 --language=c -j 2 --error-exitcode=1 --inline-suppr \
    --enable=warning,performance,portability \
    --suppress=missingIncludeSystem -D_GNU_SOURCE -DSUGARLEA_VERSION='"lint"' -DSUGARLEA_RELEASED='"lint"' -DSUGARLEA_DATADIR='"lint"' -DSUGARLEA_LIBEXECDIR='"lint"' \
    -Isrc -Itests src tests
