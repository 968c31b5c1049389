/* Counterfactual runs over the last days. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/drivers.h"

#include <assert.h>
#include <math.h>

enum which { NIGHTS, DAYS, SUN, RAIN };

static const struct {
    const char *less_id, *less, *more_id, *more; /* less or more than normal */
} words[DRIVERS] = {
    [NIGHTS] = {"cold-nights", "cold nights", "warm-nights", "warm nights"},
    [DAYS] = {"cool-days", "cool days", "warm-days", "warm days"},
    [SUN] = {"dull-days", "little sun", "bright-days", "bright sun"},
    [RAIN] = {"dry-days", "little rain", "wet-days", "much rain"},
};

static void replace(struct sward_weather *w, enum which k, const struct driver_normal *n,
                    const struct driver_normal *before, const struct driver_normal *after)
{
    if (k == NIGHTS) {
        w->tmin = fmin(n->tmin, w->tmax);
        w->tmin_after = after->tmin;
    } else if (k == DAYS) {
        w->tmax = fmax(n->tmax, w->tmin);
        w->tmax_before = before->tmax;
    } else if (k == SUN) {
        w->rad = n->rad;
    } else {
        w->rain = n->rain;
    }
}

/* How much the driver lay above its normal over the days. */
static double excess(const struct run_day *day, const struct driver_normal *normal, size_t n, enum which k)
{
    double sum = 0.0;
    for (size_t i = 0; i < n; i++) {
        const struct sward_weather *w = &day[i].recorded;
        sum += k == NIGHTS ? w->tmin - normal[i].tmin
               : k == DAYS ? w->tmax - normal[i].tmax
               : k == SUN  ? w->rad - normal[i].rad
                           : w->rain - normal[i].rain;
    }
    return sum;
}

/* The grass of that morning with driver k replaced (k < 0: as it was). */
static bool run_with(struct run *r, const struct run *before, const struct run_day *day,
                     const struct driver_normal *normal, size_t n, int k, struct arena *a)
{
    if (!run_copy(r, before, a)) {
        return false;
    }
    r->depth = RUN_HOURS;
    for (size_t i = 0; i <= n; i++) {
        struct run_day d = day[i];
        if (k >= 0) {
            const struct driver_normal *last = &normal[i ? i - 1 : 0], *next = &normal[i < n ? i + 1 : n];
            replace(&d.recorded, (enum which)k, &normal[i], last, next);
            replace(&d.morning, (enum which)k, &normal[i], last, next);
        }
        if (i == n) {
            run_expect(r, &d);
            break;
        }
        if (run_is_stocked(r)) {
            run_morning(r, &d);
        }
        run_evening(r, &d);
    }
    return true;
}

static void sort(struct driver *d)
{
    for (int i = 1; i < DRIVERS; i++) {
        for (int j = i; j > 0 && fabs(d[j].effect) > fabs(d[j - 1].effect); j--) {
            struct driver swap = d[j];
            d[j] = d[j - 1];
            d[j - 1] = swap;
        }
    }
}

bool drivers_find(const struct run *before, const struct run_day *day, const struct driver_normal *normal, size_t n,
                  struct arena *a, struct driver *out)
{
    assert(n >= 1 && n <= DRIVER_DAYS);
    struct run actual, other;
    if (!run_with(&actual, before, day, normal, n, -1, a)) {
        return false;
    }
    for (int k = 0; k < DRIVERS; k++) {
        if (!run_with(&other, before, day, normal, n, k, a)) {
            return false;
        }
        bool more = excess(day, normal, n, (enum which)k) > 0.0;
        for (size_t p = 0; p < before->paddocks; p++) {
            out[p * DRIVERS + (size_t)k] =
                (struct driver){more ? words[k].more_id : words[k].less_id, more ? words[k].more : words[k].less,
                                actual.paddock[p].expected.nsc_mean - other.paddock[p].expected.nsc_mean};
        }
    }
    for (size_t p = 0; p < before->paddocks; p++) {
        sort(&out[p * DRIVERS]);
    }
    return true;
}
