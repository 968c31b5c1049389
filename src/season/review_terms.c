/* Days to terms of scores. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/review_terms.h"

#include "season/verify.h"

#include <assert.h>
#include <math.h>

#define YEAR_DAYS 365.25

double review_normal(const double *x, size_t n, size_t i)
{
    assert(i < n);
    double sum = 0.0;
    int found = 0, years = (int)((double)n / YEAR_DAYS) + 1;
    for (int k = -years; k <= years; k++) {
        long centre = (long)i + lround(YEAR_DAYS * k);
        for (long d = centre - REVIEW_HALF_WINDOW; k != 0 && d <= centre + REVIEW_HALF_WINDOW; d++) {
            if (d >= 0 && d < (long)n && !isnan(x[d])) {
                sum += x[d];
                found++;
            }
        }
    }
    return found < 2 * REVIEW_HALF_WINDOW + 1 ? (double)NAN : sum / found;
}

/* The last full day before the morning that spoke of day i; NaN: before the record. */
static double day_before(const struct replay_series *s, size_t lead, size_t i)
{
    assert(lead < REPLAY_LEADS);
    size_t back = replay_lead[lead] + 1;
    return i >= back ? s->truth[i - back] : (double)NAN;
}

bool review_days_find(const struct replay_series *s, const double *normal, size_t step, size_t lead, size_t first,
                      size_t last, struct arena *a, struct review_days *out)
{
    assert(first <= last);
    assert(step > 0);
    size_t all = 0, with_normals = 0;
    *out = (struct review_days){.lead = lead, .day = arena_alloc(a, last - first + 1, sizeof *out->day)};
    for (size_t i = first; out->day && i <= last; i++) {
        if (!isnan(s->truth[i] + s->said[lead][i] + day_before(s, lead, i))) {
            out->day[all++] = i;
            with_normals += !isnan(normal[i * step]);
        }
    }
    out->normals = all > 0 && (double)with_normals >= REVIEW_NORMALS_LEAST * (double)all;
    for (size_t k = 0; k < all; k++) {
        if (!out->normals || !isnan(normal[out->day[k] * step])) {
            out->day[out->n++] = out->day[k];
        }
    }
    return out->day != NULL;
}

/* Empty rows for the days, with their count. */
static bool make_rows(const struct review_days *d, size_t columns, struct arena *a, struct review_terms *out)
{
    size_t width = 1 + REVIEW_RIVALS * columns;
    *out = (struct review_terms){arena_alloc(a, d->n * width, sizeof *out->row), d->n, columns, d->normals};
    for (size_t k = 0; out->row && k < d->n; k++) {
        out->row[k * width + REVIEW_N] = 1.0;
    }
    return out->row != NULL;
}

/* The columns of one of the three on row k, so that LEVEL_ERROR and the like index them. */
static double *columns_of(const struct review_terms *t, size_t k, enum review_rival who)
{
    assert(k < t->days && who < REVIEW_RIVALS);
    return t->row + k * (1 + REVIEW_RIVALS * t->columns) + (size_t)who * t->columns;
}

static void level_columns(double level, double truth, double ln_sd, double *column)
{
    assert(ln_sd >= 0.0);
    double error = level - truth, low, high;
    run_band(level, ln_sd, &low, &high);
    column[LEVEL_ERROR] = error;
    column[LEVEL_ABSOLUTE] = fabs(error);
    column[LEVEL_SQUARE] = error * error;
    column[LEVEL_CRPS] = level > 0.0 ? verify_crps_ln_normal(log(level), ln_sd, truth) : fabs(error);
    column[LEVEL_IN_BAND] = truth >= low && truth <= high;
}

bool review_level_terms(const struct replay_series *s, const double *normal, double ln_sd, const struct review_days *d,
                        struct arena *a, struct review_terms *out)
{
    bool ok = make_rows(d, LEVEL_COLUMNS, a, out);
    for (size_t k = 0; ok && k < d->n; k++) {
        size_t i = d->day[k];
        level_columns(s->said[d->lead][i], s->truth[i], ln_sd, columns_of(out, k, REVIEW_OURS));
        level_columns(day_before(s, d->lead, i), s->truth[i], 0.0, columns_of(out, k, REVIEW_PERSISTENCE));
        if (d->normals) {
            level_columns(normal[i], s->truth[i], 0.0, columns_of(out, k, REVIEW_NORMALS));
        }
    }
    return ok;
}

static double chance_above(const struct review_shares *share, enum turnout above)
{
    double chance = 0.0;
    for (size_t t = above + 1; t < REPLAY_TURNOUTS; t++) {
        chance += share->of[t];
    }
    return chance;
}

static struct review_shares our_shares(const struct replay_group *g, size_t lead, size_t i)
{
    struct review_shares share;
    for (size_t t = 0; t < REPLAY_TURNOUTS; t++) {
        share.of[t] = (double)g->members[lead][i].of[t] / REPLAY_MEMBERS;
    }
    return share;
}

static double our_chance(const struct replay_group *g, enum turnout above, size_t lead, size_t i)
{
    const struct review_shares share = our_shares(g, lead, i);
    return chance_above(&share, above);
}

static void event_columns(bool called, double chance, bool happened, double *column)
{
    assert(chance >= 0.0 && chance <= 1.0 + 1e-9);
    column[called ? (happened ? EVENT_HIT : EVENT_FALSE_ALARM) : (happened ? EVENT_MISS : EVENT_REJECTION)] = 1.0;
    column[EVENT_SQUARE] = (chance - happened) * (chance - happened);
}

bool review_event_terms(const struct replay_group *g, const struct review_shares *normal, enum turnout above,
                        const struct review_days *d, struct arena *a, struct review_terms *out)
{
    const struct replay_series *s = &g->turnout;
    bool ok = make_rows(d, EVENT_COLUMNS, a, out);
    for (size_t k = 0; ok && k < d->n; k++) {
        size_t i = d->day[k];
        bool happened = s->truth[i] > above, before = day_before(s, d->lead, i) > above;
        event_columns(s->said[d->lead][i] > above, our_chance(g, above, d->lead, i), happened,
                      columns_of(out, k, REVIEW_OURS));
        event_columns(before, before, happened, columns_of(out, k, REVIEW_PERSISTENCE));
        if (d->normals) {
            double usual = chance_above(&normal[i], above);
            event_columns(usual >= 0.5, usual, happened, columns_of(out, k, REVIEW_NORMALS));
        }
    }
    return ok;
}

bool review_bin_terms(const struct replay_group *g, enum turnout above, const struct review_days *d, struct arena *a,
                      struct review_terms *out)
{
    *out = (struct review_terms){.days = d->n, .columns = 2 * REVIEW_BINS};
    out->row = arena_alloc(a, d->n * out->columns, sizeof *out->row);
    for (size_t k = 0; out->row && k < d->n; k++) {
        size_t bin = (size_t)lround(our_chance(g, above, d->lead, d->day[k]) * REPLAY_MEMBERS);
        assert(bin < REVIEW_BINS);
        out->row[k * out->columns + 2 * bin] = 1.0;
        out->row[k * out->columns + 2 * bin + 1] = g->turnout.truth[d->day[k]] > above;
    }
    return out->row != NULL;
}

static size_t most_frequent(const struct review_shares *share)
{
    size_t best = 0;
    for (size_t t = 1; t < REPLAY_TURNOUTS; t++) {
        best = share->of[t] > share->of[best] ? t : best;
    }
    return best;
}

static void turnout_columns(const struct review_shares *share, double called, double truth, double *column)
{
    assert(truth >= 0.0 && truth < REPLAY_TURNOUTS);
    column[TURNOUT_RPS] = verify_rps(share->of, REPLAY_TURNOUTS, (size_t)truth);
    column[TURNOUT_SAME] = called == truth;
}

bool review_turnout_terms(const struct replay_group *g, const struct review_shares *normal, const struct review_days *d,
                          struct arena *a, struct review_terms *out)
{
    const struct replay_series *s = &g->turnout;
    bool ok = make_rows(d, TURNOUT_COLUMNS, a, out);
    for (size_t k = 0; ok && k < d->n; k++) {
        size_t i = d->day[k];
        double before = day_before(s, d->lead, i);
        struct review_shares ours = our_shares(g, d->lead, i), sure = {{0}};
        sure.of[(size_t)before] = 1.0;
        turnout_columns(&ours, s->said[d->lead][i], s->truth[i], columns_of(out, k, REVIEW_OURS));
        turnout_columns(&sure, before, s->truth[i], columns_of(out, k, REVIEW_PERSISTENCE));
        if (d->normals) {
            turnout_columns(&normal[i], (double)most_frequent(&normal[i]), s->truth[i],
                            columns_of(out, k, REVIEW_NORMALS));
        }
    }
    return ok;
}
