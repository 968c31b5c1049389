#!/bin/sh
# make install and make uninstall: all is there and works from there, and what others put
# there stays. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

# As this tree was built: another PREFIX would build it anew.
built=${PROGRAM%/*}
[ -e "$built/constants" ] || built=build
prefix=$(sed 's/.* //' "$built/constants")
dest=$scratch/dest
here=$dest$prefix
mkdir -p "$here/share/man/man1" "$here/bin" "$here/share/sugarlea"
echo other | tee "$here/share/man/man1/other.1" "$here/bin/other" >"$here/share/sugarlea/my.json"
installed() {
    (cd "$dest" && find . -type f -exec ls -l {} + | awk '{ print $1, $NF }' | sort -k 2)
}
installed >"$scratch/before"
make_it() { # TARGET
    make -s --no-print-directory "$1" DESTDIR="$dest" PREFIX="$prefix" >"$out" 2>"$err"
    code=$?
}
make_it install
exits 0 "make install"
[ "$code" -eq 0 ] || finish
for path in bin/sugarlea libexec/sugarlea/sugarlea-fetch; do
    check "$path is a program" test -x "$here/$path"
done
for path in share/sugarlea/models/METHOD.md share/sugarlea/plots/common.gp share/man/man1/sugarlea.1 \
    share/bash-completion/completions/sugarlea share/zsh/site-functions/_sugarlea \
    share/fish/vendor_completions.d/sugarlea.fish lib/systemd/user/sugarlea.service lib/systemd/user/sugarlea.timer \
    share/doc/sugarlea/README.md share/doc/sugarlea/examples/daily.conf share/doc/sugarlea/examples/crontab; do
    check "$path is there" test -s "$here/$path"
    check "$path is for all to read" test -n "$(find "$here/$path" -perm -444 ! -perm -111)"
done
for file in models/*.json plots/*.gp; do
    check "$file goes along" cmp -s "$file" "$here/share/sugarlea/$file"
done

# It finds its own models and fetcher, wherever it was put.
unset SUGARLEA_MODELS SUGARLEA_PLOTS
PROGRAM=$here/bin/sugarlea
as_at_home "$scratch/home"
run today --holding "$scratch/home/holding.json" --date 2025-04-23
exits 0 "the installed program advises"
run help manual
same "$here/share/man/man1/sugarlea.1" "$out" "the manual installed is the program's"
check "the manual names the place of the models" grep -qF "$prefix/share/sugarlea/models" "$out"
if command -v gnuplot >/dev/null 2>&1; then
    run season --holding "$scratch/home/holding.json" --paddock old-bank --plot "$scratch/season.svg"
    exits 0 "the installed program draws"
fi
sed 's#"weather": .*#"weather": [ { "service": "open-meteo-forecast", "url": "http://127.0.0.1:9" } ],#' \
    "$scratch/home/holding.json" >"$scratch/home/asked.json"
XDG_CACHE_HOME=$scratch/cache
export XDG_CACHE_HOME
run weather --fetch --holding "$scratch/home/asked.json"
lacks "$err" "is missing" "the installed program finds its fetcher"

# What the timer starts runs as it is written, from a file as the example is.
units=$here/lib/systemd/user
if command -v systemd-analyze >/dev/null 2>&1; then
    mkdir "$scratch/units"
    sed "s#$prefix/bin#$here/bin#" "$units/sugarlea.service" >"$scratch/units/sugarlea.service"
    cp "$units/sugarlea.timer" "$scratch/units"
    XDG_RUNTIME_DIR=$scratch systemd-analyze verify --user --man=no "$scratch/units/sugarlea.timer" \
        "$scratch/units/sugarlea.service" >"$out" 2>&1
    code=$?
    exits 0 "systemd has nothing against the units"
    empty "$out" "and does not warn"
else
    skip "the units" "no systemd-analyze"
fi
contains "$units/sugarlea.service" "ExecStart=$prefix/bin/sugarlea " "the unit names the installed program"
mkdir "$scratch/user"
ln -s "$scratch/home" "$scratch/user/farm"
ln -s "$scratch/home/bin" "$scratch/user/bin"
contains "$units/sugarlea.service" "WorkingDirectory=%h" "and begins in the user's own folder"
line=$(sed -n "s#^ExecStart=$prefix#$here#p" "$units/sugarlea.service")
(
    set -a
    # shellcheck disable=SC1091 # lines NAME=VALUE
    . "$here/share/doc/sugarlea/examples/daily.conf"
    cd "$scratch/user" || exit 70
    SOURCE_DATE_EPOCH=1745384400 sh -c "$line" >"$out" 2>"$err"
)
code=$?
exits 0 "what the timer starts runs"
check "and writes the sheet" test -s "$scratch/home/sheet.html"
# Each line of the crontab, its five fields of time away.
grep -E '^[0-9]' "$here/share/doc/sugarlea/examples/crontab" | sed -E "s#^([^ ]+ +){5}##" >"$scratch/cron"
check "the crontab has lines" test -s "$scratch/cron"
while IFS= read -r line; do
    at_home "$scratch/user" "$line"
    exits 0 "crontab: $line"
    empty "$err" "and has nothing to complain of"
done <"$scratch/cron"

make_it uninstall
exits 0 "make uninstall"
installed >"$scratch/after"
same "$scratch/before" "$scratch/after" "make uninstall leaves what others put there, and nothing of ours"
check "the folders that were ours alone are gone" test ! -e "$here/libexec/sugarlea" -a ! -e "$here/share/doc/sugarlea"
finish
