/* The diary: what is read and written again reads the same.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz/fuzz.h"

#include "data/diary.h"
#include "data/params.h"

#include <math.h>

static struct arena forever;
static struct params shipped;
static struct holding holding;

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    struct err e;
    (void)argc;
    (void)argv;
    arena_init(&forever);
    err_clear(&e);
    FUZZ_PROMISE(params_load("models", &forever, &shipped, &e) == ERR_OK);
    FUZZ_PROMISE(holding_load("data/demo/holding.json", &shipped, &forever, &holding, &e) == ERR_OK);
    return 0;
}

static bool same_value(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-9 * fmax(fabs(a), 1.0);
}

static void check_again(const struct diary *d, struct arena *a)
{
    struct diary again;
    struct buf b;
    struct err e;
    buf_init(&b);
    err_clear(&e);
    buf_add(&b, diary_header);
    for (size_t i = 0; i < d->n; i++) {
        diary_write_entry(&d->entry[i], &holding, ',', &b);
    }
    FUZZ_PROMISE(diary_parse(b.text, b.length, "again", &holding, a, &again, &e) == ERR_OK);
    FUZZ_PROMISE(again.n == d->n);
    for (size_t i = 0; i < d->n; i++) {
        const struct diary_entry *x = &d->entry[i], *y = &again.entry[i];
        FUZZ_PROMISE(x->date == y->date && x->minute == y->minute && x->what == y->what && x->subject == y->subject);
        FUZZ_PROMISE(x->words == y->words && same_value(x->value, y->value));
    }
    buf_release(&b);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena a;
    struct diary d;
    struct err e;
    arena_init(&a);
    err_clear(&e);
    enum err_code code = diary_parse((const char *)data, size, "diary.csv", &holding, &a, &d, &e);
    fuzz_error(code, &e);
    if (code == ERR_OK) {
        check_again(&d, &a);
    }
    arena_release(&a);
    return 0;
}
