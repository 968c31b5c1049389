#!/bin/sh
# Help, manual page, completions and README tell of the same commands and options, and the
# examples of every help run. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

run help
exits 0 "help"
sed -n 's/^  sugarlea \([a-z]*\)  .*/\1/p' "$out" >"$scratch/commands"
sed -n 's/^  sugarlea help \([a-z-]*\)  .*/\1/p' "$out" >"$scratch/topics"
check "help lists commands" test "$(grep -c '' "$scratch/commands")" -ge 10
check "and topics" test "$(grep -c '' "$scratch/topics")" -ge 5
for topic in $(cat "$scratch/topics"); do
    run help "$topic"
    exits 0 "help $topic"
    check "help $topic answers" test -s "$out"
    cp "$out" "$scratch/$topic"
done
run help completion bash
same "$scratch/completion-bash" "$out" "help completion bash is help completion-bash"
run help manuel
refused 64 'manual' "a mistyped topic is answered with the right one"
run
contains "$out" "sugarlea help" "sugarlea alone says where there is more"
contains "$out" "sugarlea setup" "and how to begin"
check "in ten lines" test "$(grep -c '' "$out")" -le 10

# Version and day stand in the Makefile, and nowhere else.
version=$(sed -n 's/^VERSION *:= //p' Makefile)
released=$(sed -n 's/^RELEASED *:= //p' Makefile)
run --version
check "the version is the Makefile's" grep -qx "sugarlea $version" "$out"
contains "$scratch/manual" ".TH SUGARLEA 1 $released \"sugarlea $version\"" "the manual has the Makefile's version and day"

# The manual page is sound, by two readers of such pages.
man=$scratch/manual
if command -v mandoc >/dev/null 2>&1; then
    mandoc -T lint <"$man" >"$out" 2>&1 # a name with a dot in its folder would pass for a section
    empty "$out" "mandoc finds nothing to say of the manual"
else
    skip "the manual by mandoc" "no mandoc"
fi
if command -v groff >/dev/null 2>&1; then
    groff -ww -man -Tutf8 "$man" 2>"$err" >"$out"
    empty "$err" "groff warns of nothing in the manual"
    check "groff makes a page of it" test "$(grep -c '' "$out")" -ge 300
else
    skip "the manual by groff" "no groff"
fi
sed 's/\\-/-/g; s/\\(aq/'"'"'/g; s/\\f.//g' "$man" >"$scratch/manual.text"
for name in $(grep -rhoE 'getenv\("[A-Z_]+"\)' src | sed 's/.*("//; s/")//' | sort -u); do
    case $name in
    SUGARLEA_TEST_*) ;; # for the tests of the fetcher alone
    *) check "the manual names $name of the environment" grep -qw "$name" "$scratch/manual.text" ;;
    esac
done
for number in $(sed -n 's/^ *ERR_[A-Z]* = \([0-9]*\).*/\1/p' src/base/err.h); do
    check "the manual tells of exit code $number" grep -qx "$number" "$scratch/manual.text"
done
for path in holding.json diary.csv advice-log.csv tuning.json .cache/sugarlea; do
    contains "$scratch/manual.text" "$path" "the manual tells of $path"
done

# The shells take the completions.
syntax() { # SHELL OPTION TOPIC
    if command -v "$1" >/dev/null 2>&1; then
        check "$1 reads $3" "$1" "$2" "$scratch/$3"
    else
        skip "$3" "no $1"
    fi
}
syntax bash -n completion-bash
syntax zsh -n completion-zsh
syntax fish --no-execute completion-fish

# typed WORD...: what bash offers for the last of these words, one a line, into $out.
typed() {
    bash --norc -c '. "$1" && shift && COMP_WORDS=("$@") COMP_CWORD=$(($# - 1)) && _sugarlea &&
        [[ ${COMPREPLY[0]+set} ]] && printf "%s\n" "${COMPREPLY[@]}"' bash "$scratch/completion-bash" sugarlea "$@" >"$out" 2>"$err"
}
offers() { # TEXT NAME
    if grep -qxF -e "$1" "$out"; then pass "$2"; else fail "$2" "not offered: $1"; fi
}

# of_options: names like --holding from standard input, sorted.
of_options() {
    grep -oE -- '--[a-z][a-z-]*' | sort -u
}

: >"$scratch/all"
for command in $(cat "$scratch/commands"); do
    run help "$command"
    exits 0 "help $command"
    check "help $command: no line over 80 columns" test -z "$(awk 'length > 80' "$out")"
    sed -n 's/^  \(-.,\|   \) \(--[a-z-]*\).*/\2/p' "$out" | sort >"$scratch/options"
    check "help $command: its options are listed" grep -qx -e --help "$scratch/options"
    cat "$scratch/options" >>"$scratch/all"
    cp "$scratch/options" "$scratch/$command.options"
    contains README.md "| \`sugarlea $command" "the README's table has $command"

    awk -v from=".SS \"sugarlea $command:" 'index($0, from) == 1 { on = 1; next } /^\.S/ { on = 0 }
        on && /^Options:/ { print; list = 1; next } on && list { print }' "$scratch/manual.text" | of_options >"$out"
    same "$scratch/options" "$out" "the manual has the options of $command"
    sed -n "/^        $command)/,/^            ;;/s/^ *'\(([^)]*)'{-[^,]*,\)\{0,1\}\(--[a-z-]*\).*/\2/p" "$scratch/completion-zsh" |
        of_options >"$out"
    same "$scratch/options" "$out" "zsh offers the options of $command"
    sed -n "s/.*-n '__fish_seen_subcommand_from \([a-z ]*\)' -l \([a-z-]*\).*/ \1 --\2/p" "$scratch/completion-fish" |
        grep " $command " | of_options >"$out"
    same "$scratch/options" "$out" "fish offers the options of $command"
    contains "$scratch/completion-zsh" "'$command:" "zsh offers $command"
    contains "$scratch/completion-fish" "-a $command -d" "fish offers $command"
    if command -v bash >/dev/null 2>&1; then
        typed "$command" --
        sort "$out" >"$scratch/offered"
        same "$scratch/options" "$scratch/offered" "bash offers the options of $command"
        typed "$(printf %.3s "$command")"
        offers "$command" "bash completes the word $command"
    fi
done
sort -u -o "$scratch/all" "$scratch/all"
awk '/^\.SH OPTIONS|^\.SH "OPTIONS"/ { on = 1; next } /^\.SH/ { on = 0 } on && /^\.TP/ { getline; print }' \
    "$scratch/manual.text" | of_options >"$out"
same "$scratch/all" "$out" "the manual explains each option"

# Words and files behind options.
if command -v bash >/dev/null 2>&1; then
    typed today --animal goat-l
    offers goat-lactating "bash offers classes"
    check "and no other" test "$(grep -c '' "$out")" -eq 3 # late-pregnant, lactating, laminitis-history
    typed today --animal = pon
    offers pony "bash offers them behind = too"
    typed season --picture =
    offers hours "and right behind it"
    typed today --grass rye
    offers ryegrass-high-sugar "bash offers grasses"
    typed today --soil s
    offers silt-loam "bash offers soils"
    typed today --nitrogen ''
    offers heavy "bash offers nitrogen"
    typed weather --layout swiss
    offers swiss-daily "bash offers layouts"
    typed weather --file-units t
    offers tenths "bash offers units"
    typed today --units u
    offers us "bash offers systems of units"
    typed today --holding data/demo/h
    offers data/demo/holding.json "bash offers files"
    : >"$scratch/two words.csv"
    typed today --weather "$scratch/two"
    offers "$scratch/two words.csv" "and a file whose name has a blank"
    typed today --latitude ''
    empty "$out" "bash offers nothing where a number is meant"
    typed record grass-
    offers grass-nsc "bash offers what the diary takes"
    typed record foot-signs grey-pony hot-feet shi
    offers shifting-weight "bash offers foot signs"
    typed record weight grey-pony ''
    empty "$out" "and none where a weight is meant"
    typed help man
    offers manual "bash offers topics of help"
else
    skip "the words that bash offers" "no bash"
fi
if command -v fish >/dev/null 2>&1; then
    HOME=$scratch fish -c ". $scratch/completion-fish; complete -C 'sugarlea today --animal goat-la'" >"$scratch/by-fish" 2>"$err"
    contains "$scratch/by-fish" goat-lactating "fish completes a class"
    HOME=$scratch fish -c ". $scratch/completion-fish; complete -C 'sugarlea record vet grey-pony cle'" >"$scratch/by-fish" 2>"$err"
    contains "$scratch/by-fish" cleared "fish completes a word of the diary"
else
    skip "the words that fish offers" "no fish"
fi
for word in goat-dry red-fescue silty-clay-loam canadian-daily tenths hours foot-signs will-not-move completion-zsh; do
    for shell in bash zsh fish; do
        check "$shell offers $word" grep -qw -e "$word" "$scratch/completion-$shell"
    done
done

# Options that the README names are there: of the command where one stands beside them.
grep -oE '`(\./)?sugarlea [^`]*`|^(\./)?sugarlea .*' README.md | tr -d '`' | sed 's#^\./##' >"$scratch/named"
while read -r name command rest; do
    for option in $(echo "$name $rest" | of_options); do
        check "the README's $command takes $option" grep -qx -e "$option" "$scratch/$command.options"
    done
done <"$scratch/named"
for option in $(grep -oE '`--[a-z][a-z-]*' README.md | of_options); do
    check "the README's $option is an option" grep -qx -e "$option" "$scratch/all"
done

# Examples of the help run, each command's in a holding of its own; a test of the grass, and
# for what needs past years a longer record, are there before.
for command in $(cat "$scratch/commands"); do
    run help "$command"
    sed -n 's/^  \(sugarlea .*\)/\1/p' "$out" >"$scratch/examples"
    check "help $command: an example" test -s "$scratch/examples"
    home=$scratch/home-$command
    as_at_home "$home"
    at_home "$home" 'sugarlea record grass-nsc old-bank 190 --date 2025-04-20 --at 09:00'
    exits 0 "a grass test for $command"
    if [ "$command" = outlook ]; then # the invented weather once more, as of two years before
        awk -F, -v OFS=, 'NR > 1 { $1 = substr($1, 1, 4) - 2 substr($1, 5) } $1 !~ /2022-02-29/' data/demo/weather.csv \
            >"$home/weather.csv"
        sed 1d data/demo/weather.csv >>"$home/weather.csv"
    fi
    while IFS= read -r line; do
        at_home "$home" "$line"
        exits 0 "help $command: $line"
        answers "$line" "help $command: $line: it answers"
    done <"$scratch/examples"
done
finish
