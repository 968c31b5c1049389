/* The inner loop of runs of many members (the Makefile gives this file the flags for vector
 * code). SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/lanes.h"

#include "base/exp_log.h"
#include "base/vector.h"

#include <assert.h>

/* A at no sugar, of one lit hour; as canopy_supply. */
static inline double supply_of(const struct lanes_part *p, double photo, double par, size_t l)
{
    double most = p->pm[l] * photo, caught = p->light[l] * par, through = p->through * most;
    return p->supply_scale * most * log_inline((caught + through) / (caught * p->shade[l] + through));
}

/* One hour of all lanes; as balance_hour. */
VECTOR static void step_hour(struct lanes_part *restrict p, size_t n, int h, double *restrict content,
                             struct lanes_ground *restrict ground)
{
    const double photo = p->photo[h], par = p->par[h], upkeep_rate = p->upkeep[h], growth_rate = p->growth[h];
    double *green_sum = ground->green[h], *sugar_sum = ground->sugar[h];
    double supply[LANES];
    for (size_t l = 0; l < n; l++) {
        supply[l] = 0.0;
    }
    if (par > 0.0 && photo > 0.0) {
        for (size_t l = 0; l < n; l++) {
            double c = content[l], fill = exp_inline(p->sugar_exponent * log_inline(c * p->sugar_max_inverse));
            double left = fill < 1.0 ? 1.0 - fill : 0.0;
            supply[l] = supply_of(p, photo, par, l) * (c > 0.0 ? left : 1.0);
        }
    }
    for (size_t l = 0; l < n; l++) {
        double above = content[l] - p->sugar_min, sugar = p->sugar[l], structure = p->structure[l];
        above = above > 0.0 ? above : 0.0;
        double ramp = above * p->ramp_inverse;
        double upkeep = upkeep_rate * structure * (ramp < 1.0 ? ramp : 1.0);
        double grown = growth_rate * p->growth_most[l] * above / (above + p->half_sugar[l]);
        double need = upkeep + grown * p->yield_inverse, most = sugar + supply[l] - p->sugar_floor * structure;
        double held = most > 0.0 ? most / need : 0.0, part = need > most ? held : 1.0;
        upkeep *= part;
        grown *= part;
        sugar += supply[l] - upkeep - grown * p->yield_inverse;
        structure += grown;
        double green = structure + sugar, c = sugar / green, own = p->share[l] * green;
        p->sugar[l] = sugar;
        p->structure[l] = structure;
        p->supplied[l] += supply[l];
        p->kept_up[l] += upkeep;
        p->grown[l] += grown;
        p->nsc[l] += c;
        content[l] = c;
        green_sum[l] += own;
        sugar_sum[l] += own * c;
    }
}

void lanes_hours(struct lanes_part *p, size_t n, bool first, struct lanes_ground *ground)
{
    assert(n <= LANES);
    double content[LANES];
    for (size_t l = 0; l < n; l++) {
        content[l] = p->sugar[l] / (p->structure[l] + p->sugar[l]);
        p->supplied[l] = p->kept_up[l] = p->grown[l] = p->nsc[l] = 0.0;
    }
    for (int h = 0; h < 24; h++) {
        for (size_t l = 0; first && l < n; l++) {
            ground->green[h][l] = ground->sugar[h][l] = 0.0;
        }
        step_hour(p, n, h, content, ground);
    }
    for (size_t l = 0; l < n; l++) {
        p->nsc[l] *= 1000.0 / 24.0;
    }
}

VECTOR void lanes_sugar(const struct lanes_ground *ground, size_t n, struct lanes_report *r)
{
    for (size_t l = 0; l < n; l++) {
        r->nsc_min[l] = 1000.0; /* more is not possible: g/kg */
        r->nsc_max[l] = r->nsc_mean[l] = 0.0;
    }
    for (int h = 0; h < 24; h++) {
        const double *sugar = ground->sugar[h], *green = ground->green[h];
        double *hour = r->nsc_hour[h];
        for (size_t l = 0; l < n; l++) {
            double nsc = 1000.0 * sugar[l] / green[l];
            hour[l] = nsc;
            r->nsc_min[l] = nsc < r->nsc_min[l] ? nsc : r->nsc_min[l];
            r->nsc_max[l] = nsc > r->nsc_max[l] ? nsc : r->nsc_max[l];
            r->nsc_mean[l] += nsc / 24.0;
        }
    }
}

void lanes_pick(const struct lanes_report *r, size_t lane, double nsc_hour[24])
{
    assert(lane < LANES);
    for (int h = 0; h < 24; h++) {
        nsc_hour[h] = r->nsc_hour[h][lane];
    }
}
