#!/bin/sh
# Shows that each lint check can fail: breaks a copy of the tree in one way per
# case and expects the check to say so. Run it when a check is changed.
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
copy=$(mktemp -d) || exit 70
trap 'rm -rf "$copy"' EXIT
git ls-files -z --cached --others --exclude-standard | xargs -0 tar -cf - | tar -xf - -C "$copy"
cd "$copy" || exit 70
failed=0

# expect CHECK WORDS FILE: FILE holds what standard input says; CHECK must fail with WORDS.
expect() {
    mkdir -p "$(dirname "$3")"
    cat >"$3"
    if found=$(sh "tests/lint/check_$1.sh" 2>&1); then
        echo "not ok - $1 passes in spite of: $2" && failed=1
    elif echo "$found" | grep -q -- "$2"; then
        echo "ok - $1 fails: $(echo "$found" | grep -m 1 -- "$2")"
    else
        echo "not ok - $1 fails, but not with: $2" && echo "$found" && failed=1
    fi
    rm -f "$3"
}
lines() { # N lines of C that declare nothing twice
    awk -v n="$1" 'BEGIN { for (i = 0; i < n; i++) print "    x += " i ";" }'
}

expect format bad_layout.c src/base/bad_layout.c <<'C'
int  f( void ){return 1;}
C
expect spelling '==> receive' src/base/bad_words.c <<C
/* We rec$(printf 'ie%s' ve) rain. */
C
{ echo 'int f(int x)' && echo '{' && lines 90 && echo '    return x;' && echo '}'; } |
    expect size '94 lines, at most 80' src/base/bad_size.c
{ echo 'int f(int x)' && echo '{' && awk 'BEGIN { for (i = 0; i < 20; i++) print "    if (x == " i ") return 1;" }' &&
    echo '    return x;' && echo '}'; } | expect size 'complexity 21, at most 15' src/base/bad_size.c
awk 'BEGIN { for (i = 0; i < 501; i++) print "/* " i " */" }' | expect size '501 lines, at most 500' src/base/bad_size.c
awk 'BEGIN { for (i = 0; i < 3000; i++) { print "int f" i "(int x)\n{"; for (k = 0; k < 20; k++) print "x++;"; print "}" } }' |
    expect size 'the median function has' src/base/bad_size.c
{ echo 'int f(int x)' && echo '{' && lines 3000 && echo '    return x;' && echo '}'; } |
    expect asserts 'src/animal: 4 assertions in' src/animal/bad_trust.c
expect includes 'sward must not include' src/sward/bad_include.c <<'C'
#include "weather/weather.h"
C
expect includes 'with its module in front' src/sward/bad_include.c <<'C'
#include "sward.h"
C
expect includes 'no module of that name' src/misc/bad_include.c <<'C'
#include "base/err.h"
C
expect purity 'must not use puts' src/physics/bad_call.c <<'C'
#include <stdio.h>
int bad_call(void);
int bad_call(void)
{
    return puts("");
}
C
expect purity 'must not use time' src/physics/bad_call.c <<'C'
#include <time.h>
int bad_call(void);
int bad_call(void)
{
    return (int)time(NULL);
}
C
expect purity 'must not use getenv' src/physics/bad_call.c <<'C'
#include <stdlib.h>
int bad_call(void);
int bad_call(void)
{
    return getenv("A") != NULL;
}
C
expect purity 'must not use file_view' src/physics/bad_call.c <<'C'
#include "base/file.h"
int bad_call(void);
int bad_call(void)
{
    return (int)file_view("a", 1, NULL, NULL);
}
C
expect purity 'must not use cJSON_Parse' src/physics/bad_call.c <<'C'
#include "base/json.h"
int bad_call(void);
int bad_call(void)
{
    return cJSON_Parse("1") != NULL;
}
C
expect purity 'data that can change: count' src/physics/bad_data.c <<'C'
int bad_data(void);
int bad_data(void)
{
    static int count;
    return ++count;
}
C
expect purity 'data that can change: names' src/physics/bad_data.c <<'C'
const char *bad_data(int i);
const char *bad_data(int i)
{
    static const char *names[] = {"a", "b"};
    names[i] = "c";
    return names[1 - i];
}
C
expect live 'bad_limits.h: nothing uses nobody' src/data/bad_limits.h <<'C'
struct bad_limits {
    double nobody;
};
C
for pointer in 'src/sward/step.c has no function nowhere|step.c: day_factors, nowhere' 'no src/sward/gone.c|gone.c' \
    'src/season/run.c has no function sward_step|season/run.c: sward_step' 'swards.json has no doubt.half|swards.json: doubt.half' \
    'nothing is called lost_name|lost_name'; do
    { echo '## The sward' && echo "| a rule | \`${pointer#*|}\` |"; } | expect method "${pointer%%|*}" models/BAD.md
done
expect doors 'bad_door.c popen: stands in no line' src/base/bad_door.c <<'C'
#include <stdio.h>
FILE *bad_door(const char *command);
FILE *bad_door(const char *command)
{
    return popen(command, "r");
}
C
expect leftovers bad_note.c src/base/bad_note.c <<C
/* $(printf 'TO%s' DO): later */
C
expect shell SC20 tests/cli/bad_script.sh <<'S'
#!/bin/sh
[ $1 = a ] && cd "$2" ; read x < "$x" ; rm -rf "$x/"* ; echo $( ls [ab] | grep a* )
S
expect cppcheck 'Uninitialized variable' src/base/bad_value.c <<'C'
int bad_value(void)
{
    int x;
    return x + 1;
}
C
expect tidy 'Division by zero' src/base/bad_divide.c <<'C'
int bad_divide(int a);
int bad_divide(int a)
{
    int zero = 0;
    return a / zero;
}
C
expect analyzer 'leak of' src/base/bad_leak.c <<'C'
#include <stdlib.h>
#include <string.h>
int bad_leak(const char *text);
int bad_leak(const char *text)
{
    char *copy = strdup(text);
    if (!copy || copy[0] == 'a') {
        return 1;
    }
    free(copy);
    return 0;
}
C
# A program that finds functions only when they are called.
sed 's/,-z,now//' Makefile >Makefile.lazy && mv Makefile.lazy Makefile
rm -f sugarlea
found=$(sh tests/lint/check_hardening.sh 2>&1) && failed=1
case $found in
*"not at start (-z now)"*) echo "ok - hardening fails: $found" ;;
*) echo "not ok - hardening: $found" && failed=1 ;;
esac
# A missing tool fails and names its package.
found=$(PATH=$copy/none "$(command -v sh)" tests/lint/check_tidy.sh 2>&1) && failed=1
case $found in
*"apt-get install clang-tidy"*) echo "ok - tidy without its tool fails: $found" ;;
*) echo "not ok - tidy without its tool: $found" && failed=1 ;;
esac
exit "$failed"
