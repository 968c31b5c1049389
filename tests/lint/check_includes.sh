#!/bin/sh
# Includes point one way. Each module may include itself and the ones named here.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh

model="base data physics sward animal advice"
may_include() {
    case $1 in
    base) echo "" ;;
    data) echo "base" ;;
    physics) echo "base data" ;;
    weather) echo "base data physics" ;;
    fetch) echo "base data weather" ;;
    sward) echo "base data physics" ;;
    animal) echo "base data physics sward" ;;
    advice) echo "base data physics sward animal" ;;
    season) echo "$model" ;;
    hay) echo "$model season" ;;
    out) echo "$model hay season weather" ;;
    setup) echo "base data weather out" ;;
    cmd) echo "$model hay season weather out setup" ;;
    main) echo "$model hay season weather out setup cmd" ;;
    *) return 1 ;;
    esac
}

module_of() { # of a file: its folder below src, or "main"
    case $1 in
    src/main.c) echo main ;;
    src/*/*) part=${1#src/} && echo "${part%%/*}" ;;
    *) echo "unknown" ;;
    esac
}

bad=0
for file in $(c_files src); do
    module=$(module_of "$file")
    allowed=$(may_include "$module") || {
        echo "$file: no module of that name; add it to tests/lint/check_includes.sh"
        bad=1
        continue
    }
    for include in $(sed -n 's/^[[:space:]]*#[[:space:]]*include[[:space:]]*"\([^"]*\)".*/\1/p' "$file"); do
        case $include in
        */*) ;;
        *) echo "$file: \"$include\": write it with its module in front" && bad=1 && continue ;;
        esac
        case " $module $allowed " in
        *" ${include%%/*} "*) ;;
        *) echo "$file: $module must not include \"$include\" (only itself and: $allowed)" && bad=1 ;;
        esac
    done
done
exit "$bad"
