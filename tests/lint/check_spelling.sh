#!/bin/sh
# Common misspellings in code, documents and model files.
# Words that are right here: tests/lint/words.txt.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need codespell codespell
set --
for path in README.md DEVELOPERS.md Makefile .ci src tests models packaging debian plots data/*.md data/*.sh data/demo/*.py data/demo/*.json; do
    [ -e "$path" ] && set -- "$@" "$path"
done
codespell --skip "*package-lock.json" --ignore-words=tests/lint/words.txt --skip=tests/fuzz/corpus --check-hidden "$@"
