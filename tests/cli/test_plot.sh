#!/bin/sh
# Pictures of the season: every one in every format, whole; safe with hostile names;
# and nothing spoilt when gnuplot is missing or misbehaves.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
demo=data/demo/holding.json

# ---- refused before anything is drawn
run season --holding $demo --plot "$scratch/x.gif"
refused 64 ".svg, .png or .pdf" "an unknown ending names the three"
run season --holding $demo --plot "$scratch/x"
refused 64 ".svg, .png or .pdf" "no ending names the three"
run season --holding $demo --plot -
refused 64 "--plot" "standard output is no picture file"
run season --holding $demo --plot "$scratch/x.svg" --picture day
refused 64 'did you mean days' "a picture misspelt"
run season --holding $demo --picture years
refused 64 "--plot FILE or --term" "a picture that is drawn nowhere"
run season --holding $demo --term --csv
refused 64 "--csv" "letters and a table at once"
run season --holding $demo --plot "$scratch/x.svg" --paddock old-bnak
refused 64 'did you mean "old-bank"' "a paddock misspelt"
run season --holding $demo --plot "$scratch/x.svg" --picture hours --from 2024-05-01 --to 2025-04-01
refused 64 "62 days" "more days than the hours have room for"
check "nothing was written" test -z "$(find "$scratch" -type f ! -name out ! -name err)"

# ---- in letters: needs no gnuplot
for picture in days years hours; do
    PATH=/nowhere "$PROGRAM" season --holding $demo --paddock old-bank --term --picture $picture </dev/null >"$out" 2>"$err"
    code=$?
    exits 0 "$picture in letters"
    contains "$out" "Larkhanger (invented), paddock old-bank: " "$picture in letters name place and paddock"
    contains "$out" "not a diagnosis" "$picture in letters say what they are not"
    check "$picture in letters fit 80 columns" awk 'length($0) > 80 { exit 1 }' "$out"
    no_nan "$out" "$picture in letters hold no nan"
done

# ---- no gnuplot at all
echo "as it was" >"$scratch/old.svg"
plot_without() { # the program with another PATH, drawing over old.svg
    PATH=$1 "$PROGRAM" season --holding $demo --plot "$scratch/old.svg" </dev/null >"$out" 2>"$err"
    code=$?
}
old_stands() {
    check "$1: the old file stands as it was" test "$(cat "$scratch/old.svg")" = "as it was"
    check "$1: nothing is left beside it" test "$(find "$scratch" -name '*old.svg*' | wc -l)" -eq 1
}
plot_without /nowhere
refused 66 "gnuplot-nox" "without gnuplot the package to install is named"
old_stands "without gnuplot"
PATH=/nowhere "$PROGRAM" season --holding $demo --plot "$scratch/new.svg" </dev/null >"$out" 2>"$err"
check "without gnuplot no new file" test ! -e "$scratch/new.svg"

if ! command -v gnuplot >/dev/null 2>&1; then
    skip "pictures" "gnuplot is not installed"
    finish
fi

# ---- a gnuplot that misbehaves
fake() { # SCRIPT: a program of that name
    mkdir -p "$scratch/fake"
    printf '#!/bin/sh\n%s\n' "$1" >"$scratch/fake/gnuplot"
    chmod 755 "$scratch/fake/gnuplot"
    plot_without "$scratch/fake:$PATH"
}
fake 'cat >/dev/null; echo "line 0: it is raining" >&2; exit 1'
refused 73 "it is raining" "a gnuplot that fails is quoted"
old_stands "a gnuplot that fails"
fake 'exit 0'
refused 73 "no whole svg picture" "a gnuplot that draws nothing"
old_stands "a gnuplot that draws nothing"
fake "cat >/dev/null; printf '<?xml version=\"1.0\"?><svg><title>x</title><g>'"
refused 73 "no whole svg picture" "a gnuplot that draws half a picture"
old_stands "a gnuplot that draws half a picture"
fake 'kill -9 $$'
refused 73 "signal 9" "a gnuplot that dies"
old_stands "a gnuplot that dies"
fake 'exec yes'
refused 73 "was stopped" "a gnuplot that never stops drawing"
old_stands "a gnuplot that never stops drawing"

# One that hangs is waited for while the rest of this file runs: see the end.
mkdir "$scratch/hang"
printf '#!/bin/sh\ncat >/dev/null; sleep 300\n' >"$scratch/hang/gnuplot"
chmod 755 "$scratch/hang/gnuplot"
echo "as it was" >"$scratch/hang/kept.svg"
(
    before=$(date +%s)
    PATH=$scratch/hang:$PATH "$PROGRAM" season --holding $demo --plot "$scratch/hang/kept.svg" </dev/null \
        >"$scratch/hang/out" 2>"$scratch/hang/err"
    echo "$? $(($(date +%s) - before))" >"$scratch/hang/end"
) &

# ---- templates missing or broken, and what surrounds gnuplot
SUGARLEA_PLOTS=$scratch/nowhere "$PROGRAM" season --holding $demo --plot "$scratch/old.svg" </dev/null >"$out" 2>"$err"
code=$?
refused 66 "common.gp" "templates that are not there"
mkdir "$scratch/plots"
cp plots/*.gp "$scratch/plots"
echo 'plot nothing_of_that_name' >>"$scratch/plots/days.gp"
SUGARLEA_PLOTS=$scratch/plots "$PROGRAM" season --holding $demo --plot "$scratch/old.svg" </dev/null >"$out" 2>"$err"
code=$?
refused 73 "nothing_of_that_name" "a template that is wrong is quoted"
old_stands "a template that is wrong"
mkdir "$scratch/home"
echo "system 'touch $scratch/marker'" >"$scratch/home/.gnuplot"
(HOME=$scratch/home GNUPLOT_LIB=$scratch/home GNUTERM=dumb && export HOME GNUPLOT_LIB GNUTERM &&
    "$PROGRAM" season --holding $demo --plot "$scratch/home.svg" </dev/null >"$out" 2>"$err")
code=$?
exits 0 "with a start-up file of the user's"
check "which is not read" test ! -e "$scratch/marker"
run season --holding $demo --plot "$scratch/no/such/folder/x.svg"
exits 73 "a folder that is not there"

# ---- every picture in every format
whole() { # FILE: what its format begins and ends with
    case $1 in
    *.svg) head -c 5 "$1" | grep -q '<?xml' && tail -c 20 "$1" | grep -q '</svg>' ;;
    *.png) test "$(head -c 8 "$1" | od -An -tx1 | tr -d ' ')" = 89504e470d0a1a0a && tail -c 8 "$1" | grep -qa IEND ;;
    *.pdf) head -c 5 "$1" | grep -q '%PDF-' && tail -c 8 "$1" | grep -q '%%EOF' ;;
    esac
}
for picture in days years hours; do
    for format in svg png pdf; do
        file=$scratch/$picture.$format
        run season --holding $demo --plot "$file" --picture $picture
        exits 0 "$picture as $format"
        check "$picture as $format is whole" whole "$file"
        check "$picture as $format is not small" test "$(wc -c <"$file")" -gt 5000
        contains "$out" "paddock pump-field" "$picture as $format: the caption says which paddock"
        contains "$out" "not a diagnosis" "$picture as $format: and what it is not"
        cp "$file" "$scratch/first"
        if [ $format = pdf ]; then sleep 1; fi # else it may hold the second of its making
        run season --holding $demo --plot "$file" --picture $picture
        check "$picture as $format is the same each time" cmp -s "$scratch/first" "$file"
    done
    file=$scratch/$picture.svg
    matches "$file" 'viewBox="0 0 540 [3-9][0-9][0-9]"' "$picture has the page's size"
    lacks "$file" "Gnuplot" "$picture is not titled by its maker"
    contains "$file" "<title>Sugar in the grass" "$picture has a title of its own"
    contains "$file" "Planning help, not a diagnosis" "$picture says in itself what it is not"
    check "$picture has each id once" test -z "$(grep -oE " id=['\"][^'\"]*" "$file" | sort | uniq -d)"
    if command -v xmllint >/dev/null 2>&1; then
        check "$picture is XML" xmllint --noout "$file"
    elif command -v python3 >/dev/null 2>&1; then
        check "$picture is XML" python3 -c 'import sys, xml.dom.minidom as d; d.parse(sys.argv[1])' "$file"
    fi
done
check "the pictures have no id in common" test -z "$(cat "$scratch"/days.svg "$scratch"/years.svg "$scratch"/hours.svg |
    grep -oE " id=['\"][^'\"]*" | sort | uniq -d)"
run season --holding $demo --paddock old-bank --plot "$scratch/x.svg" --csv --from 2025-04-20
contains "$out" "old-bank,2025-04-22" "a table and a picture at once"
lacks "$out" "pump-field" "both of the paddock asked for"
for word in wethers grey-pony donkey timed brief; do
    contains "$scratch/x.svg" "$word" "the picture names $word"
done
run season --weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --plot "$scratch/x.svg" --from 2019-12-31
exits 0 "a single day without any animal"
run season --weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --plot "$scratch/x.svg" --picture hours
exits 0 "hours without an animal or a time zone"
contains "$scratch/x.svg" "by the sun" "whose clock is the sun"
run season --weather data/real/de_bilt_2005-2019.csv --latitude 78 --longitude 15 --plot "$scratch/x.svg" --picture hours
exits 0 "hours of a polar night"
lacks "$scratch/x.svg" "sunrise" "in which no sun rises"
run season --weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --animal pony --plot "$scratch/x.svg" --from 2005-01-01
exits 0 "fifteen years day by day"
contains "$out" "7 days" "which says that days are drawn together"
check "and stays small" test "$(wc -c <"$scratch/x.svg")" -lt 400000
run season --weather data/real/de_bilt_2005-2019.csv --latitude -42 --animal pony --plot "$scratch/x.svg" --picture years
contains "$scratch/x.svg" "2005/06" "years of the south begin in July"

# ---- hostile names
mkdir "$scratch/hostile"
cp data/demo/weather.csv "$scratch/hostile"
hostile() { # NAME-AS-JSON [PADDOCK]
    cat >"$scratch/hostile/holding.json" <<JSON
{ "sugarlea": 1, "name": "$1", "site": { "latitude": 52.3, "longitude": -2.6, "timezone": "Europe/London" },
  "weather": [ { "file": "weather.csv" } ],
  "paddocks": [ { "id": "${2:-home}", "area_ha": 1 } ],
  "animals": [ { "id": "${2:-home}", "class": "pony", "paddock": "${2:-home}" } ] }
JSON
}
draw_hostile() { # FILE ARGUMENT...: in the folder of the hostile files
    file=$1
    shift
    rm -f "$scratch/hostile/$file"
    run_in "$scratch/hostile" season --from 2025-04-01 "--plot=$file" "$@"
    [ "$code" -eq 0 ] && whole "$scratch/hostile/$file"
}
draw_all() { # ARGUMENT...: each picture in each format
    for picture in days years hours; do
        for format in svg png pdf; do
            draw_hostile "h.$format" --picture $picture "$@" || return 1
        done
    done
}
nothing_started() { # NAME
    check "$1: nothing was started" test -z "$(find "$scratch/hostile" -name 'marker*')"
}
tried=0
while IFS= read -r name; do
    tried=$((tried + 1))
    hostile "$name"
    check "a holding named $name is drawn" draw_all --holding holding.json
    nothing_started "a holding named $name"
done <<'NAMES'
`touch marker`
\"`touch marker`\"
' . system('touch marker') . '
'; system 'touch marker'; x = '
< touch marker
| touch marker
$(touch marker)
@touch ''`touch marker`'
\\
\\'
x'; !touch marker
%s %d %n {/Bold x}_2 ~a{b}
NAMES
check "all the hostile names were tried" test "$tried" -eq 12
hostile '\nsystem \"touch marker\"\n'
run_in "$scratch/hostile" season --holding holding.json --plot h.svg
refused 78 "line break" "a name with a line break is refused by the holding"

# A file's name may hold anything: without a holding it is what the picture is of.
for name in '`touch marker`' "' . system('touch marker') . '" '$(touch marker)' "x
system 'touch marker'
EOD" "'
!touch marker
" "$(printf 'a\rb\tc\033[31md\377\302\205e')" '<b>&amp;"</title>'; do
    cp "$scratch/hostile/weather.csv" "$scratch/hostile/w.csv"
    (cd "$scratch/hostile" && mv w.csv "$(printf '%s' "$name" | tr '/' '_').csv")
    check "weather named $(printf '%s' "$name" | tr -c ' -~' '?') is drawn" draw_all --weather "$(printf '%s' "$name" | tr '/' '_').csv" --latitude 52 --animal pony
    nothing_started "weather named $(printf '%s' "$name" | tr -c ' -~' '?')"
done

hostile 'A <b>&amp; \"end'
check "a name with marks of XML is drawn" draw_hostile h.svg --holding holding.json
matches "$scratch/hostile/h.svg" '<title>.*A &lt;b&gt;&amp;amp; "end' "and escaped in the title"
lacks "$scratch/hostile/h.svg" '<b>' "and is nowhere a tag"

# the longest that a holding may have, and beyond
long() {
    awk -v n="$1" 'BEGIN { for (i = 0; i < n; i++) printf "W"; print "" }'
}
hostile "$(long 255)" "$(long 63)"
check "names as long as they may be are drawn" draw_all --holding holding.json
matches "$scratch/hostile/h.svg" '<title>.*WWW\.\.\., paddock W.* to 22 April 2025<' "and leave room for paddock and period"
hostile "$(long 10000)"
run season --holding "$scratch/hostile/holding.json" --plot "$scratch/long.svg"
refused 78 "name" "a name of 10,000 letters is refused"
check "and nothing is drawn" test ! -e "$scratch/long.svg"

# A picture may have any name that a file may have.
hostile "x"
for name in '`touch marker`.svg' "< touch marker.svg" "|touch marker.svg" "a'b\"c.svg" '$(touch marker).svg' '-x.svg'; do
    check "a picture named $name is written under that name" draw_hostile "$name" --holding holding.json
    nothing_started "a picture named $name"
done

wait
read -r code seconds <"$scratch/hang/end"
cp "$scratch/hang/err" "$err"
cp "$scratch/hang/out" "$out"
refused 73 "was stopped" "a gnuplot that hangs"
check "a gnuplot that hangs: the old file stands as it was" test "$(cat "$scratch/hang/kept.svg")" = "as it was"
# 20 s is its limit (plot_draw.c); the rest is for a busy machine
check "it was not waited for long" test "$seconds" -lt 60
finish
