#!/bin/sh
# The model is pure: its objects call nothing but arithmetic, memory and each
# other, and keep no data that can change. What they may call from outside stands
# in tests/lint/model_may_call.txt: an allow-list, so that a new way to reach the
# clock or a file fails without anybody having thought of it.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need nm binutils
need objdump binutils
"${MAKE:-make}" -s build/libsugarlea.a || exit 1

allowed=$(mktemp) || exit 70
trap 'rm -f "$allowed"' EXIT

object_of() { # src/x/y.c -> build/src/x/y.o
    echo "build/${1%.c}.o"
}

# Our own functions are as good as the model's, but for those that reach outside.
for source in $(find src -name '*.c' | sort); do
    case $source in
    src/main.c | src/base/child.c | src/base/clock.c | src/base/file.c | src/base/json.c | src/base/term.c | src/fetch/* | src/weather/* | src/out/* | src/setup/* | src/cmd/*) ;;
    *) nm --defined-only -g --format=posix "$(object_of "$source")" ;;
    esac
done | awk '$1 !~ /_load$/ { print $1 }' >"$allowed" # what loads reads a file
grep -v '^#' tests/lint/model_may_call.txt | tr -s ' ' '\n' >>"$allowed"

bad=0
seen=0
for source in src/physics/*.c src/sward/*.c src/animal/*.c src/advice/*.c src/hay/*.c src/season/*.c; do
    [ -e "$source" ] || continue
    seen=$((seen + 1))
    object=$(object_of "$source")
    for name in $(nm --undefined-only --format=posix "$object" | awk '{ print $1 }' | grep -vxF -f "$allowed"); do
        echo "$source: the model must not use $name"
        bad=1
    done
    # Writable sections. (.data.rel.ro holds constants with addresses in them.)
    for name in $(objdump -t "$object" | awk '
        / O / && /[ \t](\.data|\.data\.rel|\.data\.rel\.local|\.bss|\.tdata|\.tbss|\*COM\*)[ \t]/ { print $NF }'); do
        echo "$source: the model must not keep data that can change: $name"
        bad=1
    done
done
[ "$seen" -gt 0 ] || { echo "no source of the model found" && bad=1; }
exit "$bad"
