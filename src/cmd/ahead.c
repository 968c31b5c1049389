/* From a morning to an ensemble. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/ahead.h"

#include "cmd/morning.h"
#include "cmd/trust.h"
#include "season/past_years.h"

#include <unistd.h>

#define BYTES_MOST 1e9

static enum err_code no_memory(struct err *e)
{
    return err_set(e, ERR_NOMEM, "out of memory");
}

bool ahead_lay_out(const struct context *c, size_t now, size_t start, size_t days, struct arena *a, struct run_day *day)
{
    struct context joined = *c;
    joined.report = (struct weather_report){0}; /* a past year's small gaps are no doubt about the coming days */
    if (!past_years_join(&c->weather, now, start, days, a, &joined.weather)) {
        return false;
    }
    for (size_t k = 0; k < days; k++) {
        context_day(&joined, PAST_LEAD + k, &day[k]);
    }
    return true;
}

static unsigned cores(void)
{
    long n = sysconf(_SC_NPROCESSORS_ONLN);
    return n < 1 ? 1 : n > ENSEMBLE_THREADS ? ENSEMBLE_THREADS : (unsigned)n;
}

static enum err_code too_few(const struct context *c, size_t years, size_t days, struct err *e)
{
    char first[DATE_TEXT], last[DATE_TEXT];
    return err_set(e, ERR_NOINPUT,
                   "an outlook needs at least %d past years of the coming %zu days, and the record (%s to %s) holds "
                   "%zu: add older weather of the place, %d years or more, or look less far ahead",
                   AHEAD_YEARS_LEAST, days, date_format(c->weather.day0, first), date_format(c->until - 1, last), years,
                   AHEAD_YEARS_WANTED);
}

static enum err_code run_all(struct context *c, const struct ensemble_ask *ask, struct ahead *out, struct err *e)
{
    if (ensemble_bytes(ask) > BYTES_MOST) {
        err_set(e, ERR_USAGE,
                "%zu draws of %zu years for so many paddocks and groups need over a gigabyte: ask for "
                "fewer --draws or --months",
                ask->draws, ask->years);
        return err_at(e, NULL, 0, 0, "--draws");
    }
    return ensemble_run(ask, &c->arena, &out->ensemble) ? ERR_OK : no_memory(e);
}

enum err_code ahead_find(struct context *c, size_t days, size_t draws, unsigned long seed, struct ahead *out,
                         struct err *e)
{
    size_t start[AHEAD_YEARS_MOST], now = (size_t)(c->until - c->weather.day0);
    size_t years = now < PAST_LEAD ? 0 : past_years_find(&c->weather, c->until, days, now, start, AHEAD_YEARS_MOST);
    struct run *r = arena_alloc(&c->arena, 1, sizeof *r);
    if (years < AHEAD_YEARS_LEAST) {
        return too_few(c, years, days, e);
    }
    struct run_day *day = arena_alloc(&c->arena, years * days, sizeof *day);
    if (!day || !r || !context_run(c, false, r)) {
        return no_memory(e);
    }
    mornings_pass(c, 0, now, r);
    r->depth = RUN_HOURS; /* nobody asks why; what the paddocks can give is drawn from them by the feeding plan */
    for (size_t y = 0; y < years; y++) {
        if (!ahead_lay_out(c, now, start[y], days, &c->arena, &day[y * days])) {
            return no_memory(e);
        }
    }
    struct ensemble_ask ask = {.now = r,
                               .years = years,
                               .days = days,
                               .draws = draws,
                               .day = day,
                               .seed = seed,
                               .threads = c->threads ? c->threads : cores()};
    ensemble_doubts(&c->params.list, ask.doubt);
    out->now = r;
    out->years = years;
    out->first_year = date_split(c->weather.day0 + (date_t)start[0]).year;
    out->last_year = date_split(c->weather.day0 + (date_t)start[years - 1]).year;
    return run_all(c, &ask, out, e);
}

void ahead_thin(struct context *c, const struct ahead *h, struct today_view *v)
{
    if (h->years < AHEAD_YEARS_WANTED) {
        trust_warn(c, v,
                   "THIN: only %zu past years of these days are on record (%d or more are wanted). The ranges are no "
                   "more than those of these years; take them as examples.",
                   h->years, AHEAD_YEARS_WANTED);
    }
}
