/* Command lines (a word a line), dates and numbers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz/fuzz.h"

#include "base/date.h"
#include "base/num.h"
#include "cmd/options.h"

#include <math.h>

enum { WORDS_MOST = 40, TEXT_MOST = 4096 };

static void check_date(const char *text, size_t n)
{
    char again[DATE_TEXT];
    date_t d = date_parse_iso(text, n);
    if (d != DATE_NONE) {
        FUZZ_PROMISE(n == DATE_TEXT - 1 && memcmp(date_format(d, again), text, n) == 0);
    }
}

static void check_number(const char *text, size_t n)
{
    double x = 0.0;
    long whole = 0;
    if (num_parse(text, n, '.', &x)) {
        FUZZ_PROMISE(isfinite(x));
    }
    if (num_parse_long(text, n, -1000, 1000, &whole)) {
        FUZZ_PROMISE(whole >= -1000 && whole <= 1000 && num_parse(text, n, '.', &x) && (long)x == whole);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char text[TEXT_MOST + 1], *word[WORDS_MOST + 2] = {NULL};
    struct options o;
    struct err e;
    int n = 0;
    if (size < 1 || size > TEXT_MOST) {
        return -1;
    }
    memcpy(text, data, size);
    text[size] = 0;
    char command[] = "command";
    word[n++] = command;
    for (char *at = text + 1, *next = at; next && n <= WORDS_MOST; at = next) {
        next = strchr(at, '\n');
        if (next) {
            *next++ = 0;
        }
        check_date(at, strlen(at));
        check_number(at, strlen(at));
        word[n++] = at;
    }
    err_clear(&e);
    enum err_code code = options_read(n, word, 1u << (data[0] % 13u), &o, &e);
    fuzz_error(code, &e);
    FUZZ_PROMISE(code == ERR_OK || code == ERR_USAGE);
    if (code == ERR_OK) {
        FUZZ_PROMISE(!(o.latitude < -90.0 || o.latitude > 90.0) && o.words <= (size_t)n);
    }
    return 0;
}
