#!/bin/sh
# Every C file looks as .clang-format says.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need clang-format clang-format
c_files src tests | xargs clang-format --dry-run -Werror
