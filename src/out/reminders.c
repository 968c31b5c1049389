/* One list of what is due for each kind. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/reminders.h"

#include "data/diary.h"

#include <math.h>
#include <stdio.h>

enum { NAMED_MOST = 4 }; /* more are counted: a sheet is read in passing */

struct due { /* names gathered into a sentence */
    struct buf *b;
    const char *begin;
    size_t n;
};

static void add_name(struct due *d, const char *id, const char *note)
{
    if (d->n == 0) {
        buf_add(d->b, d->begin);
    }
    if (d->n < NAMED_MOST) {
        buf_addf(d->b, "%s%s%s", d->n ? ", " : "", id, note);
    }
    d->n++;
}

static bool finish(struct due *d, const char *end)
{
    if (d->n > NAMED_MOST) {
        buf_addf(d->b, " and %zu more", d->n - NAMED_MOST);
    }
    buf_add(d->b, d->n ? end : "");
    return d->n > 0;
}

/* Adds the name when the last date is longer ago than `days`, or never was. */
static void add_when_old(struct due *d, const struct today_view *v, const char *id, date_t last, double days)
{
    char date[DATE_TEXT], note[32];
    if (last == DATE_NONE) {
        add_name(d, id, " (never)");
    } else if (v->day->date - last > days) {
        snprintf(note, sizeof note, " (last %s)", date_format(last, date));
        add_name(d, id, note);
    }
}

/* The later of what the diary has of two kinds; DATE_NONE never. */
static date_t last_of(const struct today_view *v, enum diary_what one, enum diary_what other, size_t subject)
{
    const struct run *r = v->day->run;
    const struct diary_entry *a = diary_latest(r->event, r->events, one, subject);
    const struct diary_entry *b = diary_latest(r->event, r->events, other, subject);
    date_t first = a ? a->date : DATE_NONE, second = b ? b->date : DATE_NONE;
    return first > second ? first : second;
}

static bool is_used(const struct today_view *v, size_t paddock)
{
    size_t i = 0;
    while (i < v->holding->animals && v->holding->animal[i].paddock != paddock) {
        i++;
    }
    return i < v->holding->animals;
}

static bool is_fed(const struct today_view *v, const struct hay_lot *lot)
{
    size_t i = 0;
    while (i < v->holding->animals && run_hay_of(v->holding, &v->holding->animal[i]) != lot) {
        i++;
    }
    return i < v->holding->animals;
}

static bool signs(const struct today_view *v, struct buf *b)
{
    struct due d = {b, "Foot signs stand in the diary: ", 0};
    for (size_t i = 0; i < v->day->run->animals; i++) {
        const struct run_animal *a = &v->day->run->animal[i];
        if (a->seen.words) {
            add_name(&d, a->group->id, "");
        }
    }
    return finish(&d, ". Look again and write down what you see; when all are gone: \"sugarlea record foot-signs "
                      "ANIMAL none\".");
}

static bool hay_test(const struct today_view *v, struct buf *b)
{
    struct due d = {b, "Hay to be tested: ", 0};
    for (size_t i = 0; i < v->holding->lots; i++) {
        const struct hay_lot *lot = &v->holding->lot[i];
        date_t last = last_of(v, DIARY_HAY_TEST, DIARY_HAY_TEST, i);
        if (!is_fed(v, lot)) {
            continue;
        }
        if (last != DATE_NONE) {
            add_when_old(&d, v, lot->id, last, v->day->run->params->limits.remind_hay_test_days);
        } else if (isnan(lot->nsc_pct)) {
            add_name(&d, lot->id, " (a table's average stands for it)");
        } else if (hay_lot_is_esc(lot)) {
            add_name(&d, lot->id, " (only ESC + starch is known)");
        }
    }
    return finish(&d, ".");
}

static bool grass_test(const struct today_view *v, struct buf *b)
{
    struct due d = {b, "Grass to be tested: ", 0};
    for (size_t i = 0; i < v->holding->paddocks; i++) {
        const struct tuning *tuned = &v->holding->paddock[i].tuned;
        date_t last = last_of(v, DIARY_GRASS_NSC, DIARY_GRASS_WSC, i);
        last = tuned->tests > 0 && tuned->date > last ? tuned->date : last;
        if (is_used(v, i)) {
            add_when_old(&d, v, v->holding->paddock[i].id, last, v->day->run->params->limits.remind_grass_test_days);
        }
    }
    return finish(&d, ". A test of your own grass takes away doubt, and doubt costs hours.");
}

static bool weights(const struct today_view *v, struct buf *b)
{
    struct due d = {b, "To weigh, by scales or tape: ", 0};
    for (size_t i = 0; i < v->holding->animals; i++) {
        add_when_old(&d, v, v->holding->animal[i].id, last_of(v, DIARY_WEIGHT, DIARY_GIRTH, i),
                     v->day->run->params->limits.remind_weight_days);
    }
    return finish(&d, ".");
}

static bool condition(const struct today_view *v, struct buf *b)
{
    struct due d = {b, "Body condition to be looked at: ", 0};
    for (size_t i = 0; i < v->holding->animals; i++) {
        add_when_old(&d, v, v->holding->animal[i].id, last_of(v, DIARY_CONDITION, DIARY_CONDITION, i),
                     v->day->run->params->limits.remind_weight_days);
    }
    return finish(&d, ".");
}

static bool heights(const struct today_view *v, struct buf *b)
{
    struct due d = {b, "Height of the grass to be measured: ", 0};
    for (size_t i = 0; i < v->day->run->paddocks; i++) {
        enum kept_how how = v->day->run->paddock[i].now.how;
        if (is_used(v, i) && (how == KEPT_GRAZED || how == KEPT_STOCKED)) {
            add_when_old(&d, v, v->holding->paddock[i].id, last_of(v, DIARY_SWARD_HEIGHT, DIARY_PLATE_HEIGHT, i),
                         v->day->run->params->limits.remind_height_days);
        }
    }
    return finish(&d, ".");
}

static bool stock(const struct today_view *v, struct buf *b)
{
    struct due d = {b, "Nobody has written down how much there is of this hay: ", 0};
    for (size_t i = 0; i < v->holding->lots; i++) {
        const struct hay_lot *lot = &v->holding->lot[i];
        if (is_fed(v, lot) && isnan(lot->bales) && isnan(lot->kg) && isnan(lot->m3)) {
            add_name(&d, lot->id, "");
        }
    }
    return finish(&d, ". With the bales in the holding file \"sugarlea hay\" says when it runs out.");
}

static void add_value(const struct diary_entry *e, struct buf *b)
{
    const struct diary_kind *kind = &diary_kinds[e->what];
    char words[LIMIT_TEXT];
    if (e->words) {
        buf_addf(b, " %s", diary_words_text(kind, e->words, ", ", words, sizeof words));
    } else if (!isnan(e->value) && e->unit >= 0) {
        buf_add_char(b, ' ');
        buf_add_number(b, e->value / kind->unit[e->unit].scale, 2);
        buf_addf(b, " %s", kind->unit[e->unit].name);
    }
}

static bool last_word(const struct today_view *v, struct buf *b)
{
    const struct run *r = v->day->run;
    char date[DATE_TEXT];
    if (r->events == 0) {
        buf_add(b, "Nothing is in the diary yet. \"sugarlea help record\" says what can be written there.");
        return true;
    }
    const struct diary_entry *e = &r->event[r->events - 1];
    buf_addf(b, "The diary last said, on %s: %s, %s", date_format(e->date, date), diary_subject_id(e, v->holding),
             diary_kinds[e->what].name);
    add_value(e, b);
    buf_addf(b, "%s%s", e->note[0] ? "; note: " : ".", e->note);
    return true;
}

bool reminders_text(const struct today_view *v, enum reminder which, struct buf *b)
{
    static bool (*const write[REMINDERS])(const struct today_view *, struct buf *) = {
        [REMIND_SIGNS] = signs,    [REMIND_HAY_TEST] = hay_test,   [REMIND_GRASS_TEST] = grass_test,
        [REMIND_WEIGHT] = weights, [REMIND_CONDITION] = condition, [REMIND_HEIGHT] = heights,
        [REMIND_STOCK] = stock,    [REMIND_LAST] = last_word};
    return v->holding->path[0] != 0 && write[which](v, b);
}
