/* Latin hypercubes of standard normals. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/ensemble_draw.h"

#include "base/num.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define RANGE_SD 2.0 /* low and high of models/ stand so many SD from the value: our judgement */

/* One variable: each member gets its own n-th of the normal, in an order of chance. */
static void fill(gsl_rng *rng, size_t *order, size_t members, struct ensemble_draw *draw, size_t offset)
{
    assert(offset + sizeof(double) <= sizeof *draw);
    for (size_t m = 0; m < members; m++) {
        order[m] = m;
    }
    gsl_ran_shuffle(rng, order, members, sizeof *order);
    for (size_t m = 0; m < members; m++) {
        double z = gsl_cdf_ugaussian_Pinv(((double)order[m] + gsl_rng_uniform_pos(rng)) / (double)members);
        memcpy((char *)&draw[m] + offset, &z, sizeof z);
    }
}

bool ensemble_draws(unsigned long seed, size_t paddocks, size_t members, struct arena *a, struct ensemble_draw **draw)
{
    assert(draw != NULL);
    static const size_t offset[] = {offsetof(struct ensemble_draw, level), offsetof(struct ensemble_draw, test),
                                    offsetof(struct ensemble_draw, source), offsetof(struct ensemble_draw, sink)};
    size_t *order = arena_alloc(a, members, sizeof *order);
    *draw = arena_alloc(a, paddocks * members, sizeof **draw);
    gsl_rng *rng = order && *draw ? gsl_rng_alloc(gsl_rng_mt19937) : NULL;
    if (members > 0 && rng) { /* GSL's shuffle does not bear none */
        gsl_rng_set(rng, seed);
        for (size_t p = 0; p < paddocks; p++) {
            for (size_t v = 0; v < sizeof offset / sizeof offset[0]; v++) {
                fill(rng, order, members, &(*draw)[p * members], offset[v]);
            }
        }
    }
    gsl_rng_free(rng);
    return rng != NULL;
}

void ensemble_vary(struct sward *s, const struct ensemble_draw *d, const struct ensemble_doubt doubt[SWARD_TYPES])
{
    for (size_t i = 0; i < s->parts; i++) {
        const struct ensemble_doubt *of_kind = &doubt[s->kind[i]->type];
        s->own[i].pm20 *= exp(num_clip(d->source, -RANGE_SD, RANGE_SD) * of_kind->pm20);
        s->own[i].growth_max *= exp(num_clip(d->sink, -RANGE_SD, RANGE_SD) * of_kind->growth_max);
    }
}

double ensemble_level(const struct ensemble_draw *d, double level_sd)
{
    return level_sd * d->level;
}

/* The level is drawn whole, so that its spread is exact; what a test shows, given it. */
double ensemble_shown(const struct ensemble_draw *d, const struct advice_limits *l, double level_sd)
{
    assert(level_sd > 0.0);
    double left = fmin(l->spread_tested / level_sd, 1.0), share = 1.0 - left * left;
    return level_sd * (share * d->level + sqrt(share * (1.0 - share)) * d->test);
}

static double doubt_of(const struct param_list *list, enum sward_type type, const char *name)
{
    char path[LIMIT_TEXT];
    snprintf(path, sizeof path, "kinds.%s.growth.%s", sward_type_name(type), name);
    for (size_t i = 0; i < list->n; i++) {
        if (strcmp(list->entry[i].path, path) == 0 && list->entry[i].low > 0.0) {
            return log(list->entry[i].high / list->entry[i].low) / (2.0 * RANGE_SD);
        }
    }
    return 0.0;
}

void ensemble_doubts(const struct param_list *list, struct ensemble_doubt doubt[SWARD_TYPES])
{
    for (int t = 0; t < SWARD_TYPES; t++) {
        doubt[t].pm20 = doubt_of(list, (enum sward_type)t, "pm20");
        doubt[t].growth_max = doubt_of(list, (enum sward_type)t, "growth_max");
    }
}
