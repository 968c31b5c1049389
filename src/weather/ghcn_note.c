/* What was told aside, in sentences. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/buf.h"
#include "weather/ghcn.h"

#define DAY_HOURS_FIRST 3 /* readings before or after these hours are those of a midnight: our judgement */
#define DAY_HOURS_LAST 21
#define NOON 12

static void start_sentence(struct buf *b)
{
    buf_add(b, b->length ? "; " : "");
}

/* The hour at which most maxima were read, or -1 when most were read near midnight, or
 * the file does not say. */
static int hour_of_reading(const struct ghcn *g)
{
    size_t inside = 0;
    int most = DAY_HOURS_FIRST;
    for (int h = DAY_HOURS_FIRST; h <= DAY_HOURS_LAST; h++) {
        inside += g->at_hour[h];
        most = g->at_hour[h] > g->at_hour[most] ? h : most;
    }
    return inside * 2 > g->tmax_values ? most : -1;
}

static void add_hour(struct buf *b, const struct ghcn *g)
{
    int hour = hour_of_reading(g);
    if (hour < 0) {
        return;
    }
    start_sentence(b);
    buf_addf(b,
             "most days are the 24 hours before a reading at about %02d h: %s may be those of the day before; nothing "
             "was moved between days",
             hour, hour <= NOON ? "the maximum and most of the rain" : "the warmth and rain of the evening");
}

static void add_counts(struct buf *b, const struct ghcn_counts *c)
{
    if (c->failed) {
        start_sentence(b);
        buf_addf(b, "values that failed the archive's own checks and are missing: %zu", c->failed);
    }
    if (c->gathered) {
        start_sentence(b);
        buf_addf(b, "rain gathered over several days (MDPR) and not used, for it belongs to no one day: %.0f mm in %zu",
                 c->gathered_sum, c->gathered);
        if (c->gathered_days) {
            buf_addf(b, " (%zu days)", c->gathered_days);
        }
    }
    if (c->presumed) {
        start_sentence(b);
        buf_addf(b, "days whose rain of 0 the archive only presumed (flag P): %zu", c->presumed);
    }
    if (c->crossed) {
        char date[DATE_TEXT];
        start_sentence(b);
        buf_addf(b, "days with a minimum above the maximum, both missing now: %zu, the first %s", c->crossed,
                 date_format(c->crossed_first, date));
    }
}

static const char *take(struct buf *b, struct arena *a)
{
    const char *text = b->failed ? NULL : arena_strdup(a, b->text);
    buf_release(b);
    return text;
}

const char *ghcn_note(struct ghcn *g)
{
    struct buf b;
    buf_init(&b);
    buf_add(&b, g->verdict.text);
    add_counts(&b, &g->counts);
    add_hour(&b, g);
    return take(&b, g->arena);
}

const char *ghcn_ignored(struct ghcn *g)
{
    struct buf b;
    buf_init(&b);
    for (size_t i = 0; i < g->others; i++) {
        buf_addf(&b, "%s%s", i ? ", " : "", g->other[i]);
    }
    return take(&b, g->arena);
}
