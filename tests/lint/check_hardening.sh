#!/bin/sh
# The programs as they are built: loaded at addresses of chance (PIE), the table of functions
# sealed at start (full RELRO), no stack that can be run, canaries on the stack, and the C
# library's checks of lengths (FORTIFY). SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need readelf binutils
"${MAKE:-make}" -s all || exit 1

bad=0
wants() { # PROGRAM WHAT TEXT REGEX: a line of the text matches
    echo "$3" | grep -qE -- "$4" && return
    echo "$1: $2"
    bad=1
}

for program in sugarlea sugarlea-fetch; do
    head=$(readelf -hW "$program") segments=$(readelf -lW "$program") dynamic=$(readelf -dW "$program")
    needed=$(readelf -W --dyn-syms "$program")
    wants "$program" "is not position-independent (-fPIE -pie)" "$head" 'Type: +DYN'
    wants "$program" "has no part that is read-only after start (-z relro)" "$segments" GNU_RELRO
    wants "$program" "finds functions when they are called, not at start (-z now)" "$dynamic" 'BIND_NOW|Flags:.* NOW'
    wants "$program" "has a stack that can be run" "$segments" 'GNU_STACK +([0-9a-fx]+ +){5}RW +'
    wants "$program" "has no canaries on the stack (-fstack-protector-strong)" "$needed" __stack_chk_fail
    wants "$program" "calls the C library without checks of lengths (-D_FORTIFY_SOURCE=2)" "$needed" '__[a-z]+_chk'
    if echo "$dynamic" | grep -qE 'RPATH|RUNPATH|TEXTREL'; then
        echo "$program: looks for libraries in folders of its own, or is changed where it is code (RPATH, TEXTREL)"
        bad=1
    fi
done
exit "$bad"
