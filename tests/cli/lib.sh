# Helpers of the command tests; read with `. tests/cli/lib.sh`, end with `finish`.
# A test is: run the program, then assert on $code, $out (file) and $err (file).
# Each assertion prints "ok - name" or "not ok - name". Tests run from the top of
# the tree with PROGRAM set. SPDX-License-Identifier: GPL-3.0-or-later
: "${PROGRAM:=$PWD/sugarlea}"
LC_ALL=C
export LC_ALL
unset SUGARLEA_HOLDING SUGARLEA_UNITS NO_COLOR
scratch=$(mktemp -d) || exit 70
trap 'rm -rf "$scratch"' EXIT
out=$scratch/out
err=$scratch/err
code=0
bad=0

# run ARGUMENT...: the program with these, standard input empty.
run() {
    "$PROGRAM" "$@" </dev/null >"$out" 2>"$err"
    code=$?
}

# run_in FOLDER ARGUMENT...: the same, started in another folder.
run_in() {
    folder=$1
    shift
    (cd "$folder" && "$PROGRAM" "$@" </dev/null >"$out" 2>"$err")
    code=$?
}

pass() {
    echo "ok - $1"
}

fail() { # NAME WHY
    echo "not ok - $1"
    echo "# $2"
    shown out "$out"
    shown err "$err"
    bad=1
}

shown() { # WORD FILE: its first 2000 bytes, a last line that is cut ended all the same
    if [ -s "$2" ]; then head -c 2000 "$2" | awk -v word="$1" '{ print "# " word ": " $0 }'; fi
}

# check NAME COMMAND...: the command must succeed.
check() {
    name=$1
    shift
    if "$@"; then pass "$name"; else fail "$name" "failed: $*"; fi
}

exits() { # CODE NAME
    if [ "$code" -eq "$1" ]; then pass "$2"; else fail "$2" "exit code $code, expected $1"; fi
}

contains() { # FILE TEXT NAME: fixed text, case counts
    if grep -qF -- "$2" "$1"; then pass "$3"; else fail "$3" "nowhere: $2"; fi
}

words() { # FILE: gets the words of standard output on one line, those of a page without its tags
    sed 's/<[^>]*>//g; s/&quot;/"/g; s/&#39;/'"'"'/g' "$out" | tr -s ' \n' ' ' >"$1"
}

says() { # TEXT NAME: standard output does, however its lines are wrapped
    tr -s ' \n' ' ' <"$out" >"$scratch/flat"
    contains "$scratch/flat" "$1" "$2"
}

lacks() { # FILE TEXT NAME
    if grep -qF -- "$2" "$1"; then fail "$3" "should not be there: $2"; else pass "$3"; fi
}

no_nan() { # FILE NAME: no number that is none (the word pregnant is no number)
    if grep -qiE '(^|[^a-z])(nan|inf)([^a-z]|$)' "$1"; then fail "$2" "holds nan or inf"; else pass "$2"; fi
}

matches() { # FILE REGEX NAME: extended regular expression on one line
    if grep -qE -- "$2" "$1"; then pass "$3"; else fail "$3" "no line matches: $2"; fi
}

empty() { # FILE NAME
    if [ -s "$1" ]; then fail "$2" "not empty"; else pass "$2"; fi
}

same() { # FILE FILE NAME
    if cmp -s "$1" "$2"; then pass "$3"; else fail "$3" "$(diff "$1" "$2" | head -20)"; fi
}

# refused CODE TEXT NAME: this exit code, TEXT on standard error, no advice on output.
refused() {
    if [ "$code" -ne "$1" ]; then
        fail "$3" "exit code $code, expected $1"
    elif ! grep -qF -- "$2" "$err"; then
        fail "$3" "standard error does not say: $2"
    elif [ -s "$out" ]; then
        fail "$3" "something was printed on standard output"
    else
        pass "$3"
    fi
}

# record FILE FIRST LAST: the header and these days of the De Bilt record.
record() {
    awk -F, -v first="$2" -v last="$3" 'NR == 1 || ($1 >= first && $1 <= last)' data/real/de_bilt_2005-2019.csv >"$1"
}

# today FILE ARGUMENT...: the advice for a pony at De Bilt on FILE's weather.
today() {
    file=$1
    shift
    run today --weather "$file" --latitude 52.1 --longitude 5.18 --elevation 2 --animal equid-at-risk --no-log "$@"
}

# The place where written commands run: a copy of the data with the demo's files on top too,
# so that "./sugarlea ... data/demo/holding.json" and "sugarlea today" both work there.
as_at_home() { # FOLDER
    mkdir -p "$1/data/real" "$1/bin"
    cp -R data/demo "$1/data/demo"
    cp data/demo/holding.json data/demo/weather.csv "$1"
    cp data/real/dublin_airport_2010-2020.csv "$1/data/real"
    ln -s "$PROGRAM" "$1/sugarlea"
    ln -s "$PROGRAM" "$1/bin/sugarlea"
}

# A line as a shell takes it, typed there on the morning of the demo, 23 April 2025 at 06:00 of its clock;
# what it asks is answered by Enter.
at_home() { # FOLDER LINE
    yes '' | head -100 >"$scratch/enter"
    (cd "$1" && PATH=$1/bin:$PATH SOURCE_DATE_EPOCH=1745384400 sh -c "$2" <"$scratch/enter" >"$out" 2>"$err")
    code=$?
}

# answers LINE NAME: it printed something, if it was not told to be quiet.
answers() {
    case $1 in *--quiet*) ;; *) check "$2" test -s "$out" ;; esac
}

# number KEY FILE: the first number of that key in JSON output; nothing when there is none.
number() {
    tr -d ' \n' <"$2" | grep -oE "\"$1\":-?[0-9.]+" | head -1 | sed 's/.*://'
}

skip() { # NAME WHY
    echo "# skipped: $1: $2"
}

finish() {
    exit "$bad"
}
