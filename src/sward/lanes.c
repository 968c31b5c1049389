/* The inner loop of runs of many members (the Makefile gives this file the flags for vector
 * code). SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/lanes.h"

#include "base/exp_log.h"
#include "base/vector.h"

#include <assert.h>
#include <string.h>

/* What the hours hand on beside sugar and structure; from both of them. */
struct contents {
    double share[LANES];  /* of sugar in green matter, g/g */
    double growth[LANES]; /* of G at endless sugar */
    double shade[LANES];  /* canopy_shade, the same all day */
};

static inline void find_content(const struct lanes_kind *k, const struct lanes_part *p, size_t l, double green,
                                struct contents *c)
{
    double above = p->sugar[l] - k->sugar_min * green;
    above = above > 0.0 ? above : 0.0;
    double felt = above + p->half_sugar[l] * green, inverse = 1.0 / (felt * green); /* one division for two */
    c->share[l] = p->sugar[l] * felt * inverse;
    c->growth[l] = above * green * inverse;
}

/* A of one lit hour: as canopy_supply, held back as in balance_hour. Three short loops: the processor sees
 * several turns of each at once, and of one long loop hardly two. */
VECTOR static void find_supply(const struct lanes_kind *restrict k, const struct lanes_part *restrict p, size_t n,
                               int h, const struct contents *restrict content, double *restrict supply)
{
    const double photo = k->photo[h], par = k->par[h];
    double filled[LANES];
    for (size_t l = 0; l < n; l++) {
        double most = p->pm[l] * photo, caught = p->light[l] * par, through = k->through * most;
        supply[l] = k->supply_scale * most * log_inline((caught + through) / (caught * content->shade[l] + through));
    }
    for (size_t l = 0; l < n; l++) {
        filled[l] = k->sugar_exponent * log_inline(content->share[l] * k->sugar_max_inverse);
    }
    for (size_t l = 0; l < n; l++) {
        double fill = exp_inline(filled[l]), left = fill < 1.0 ? 1.0 - fill : 0.0;
        supply[l] *= content->share[l] > 0.0 ? left : 1.0;
    }
}

struct flows { /* of an hour, g/m2 */
    double supply[LANES], upkeep[LANES], grown[LANES];
};

/* Upkeep and growth; how many lanes have too little sugar for both. */
VECTOR static uint64_t find_flows(const struct lanes_kind *restrict k, const struct lanes_part *restrict p, size_t n,
                                  int h, const struct contents *restrict content, struct flows *restrict f)
{
    const double upkeep_rate = k->upkeep[h], growth_rate = k->growth[h];
    uint64_t lacking = 0;
    for (size_t l = 0; l < n; l++) {
        double ramp = (content->share[l] - k->sugar_min) * k->ramp_inverse;
        ramp = ramp > 0.0 ? ramp : 0.0;
        double upkeep = upkeep_rate * p->structure[l] * (ramp < 1.0 ? ramp : 1.0);
        double grown = growth_rate * p->growth_most[l] * content->growth[l];
        double need = upkeep + grown * k->yield_inverse;
        lacking += need > p->sugar[l] + f->supply[l] - k->sugar_floor * p->structure[l];
        f->upkeep[l] = upkeep;
        f->grown[l] = grown;
    }
    return lacking;
}

/* Both are held back alike rather than empty the pool. */
VECTOR static void hold_back(const struct lanes_kind *restrict k, const struct lanes_part *restrict p, size_t n,
                             struct flows *restrict f)
{
    for (size_t l = 0; l < n; l++) {
        double need = f->upkeep[l] + f->grown[l] * k->yield_inverse;
        double most = p->sugar[l] + f->supply[l] - k->sugar_floor * p->structure[l];
        double held = most > 0.0 ? most / need : 0.0, part = need > most ? held : 1.0;
        f->upkeep[l] *= part;
        f->grown[l] *= part;
    }
}

VECTOR static void flow(const struct lanes_kind *restrict k, struct lanes_part *restrict p, size_t n,
                        const struct flows *restrict f, struct contents *restrict content)
{
    for (size_t l = 0; l < n; l++) {
        p->sugar[l] += f->supply[l] - f->upkeep[l] - f->grown[l] * k->yield_inverse;
        p->structure[l] += f->grown[l];
        p->supplied[l] += f->supply[l];
        p->kept_up[l] += f->upkeep[l];
        p->grown[l] += f->grown[l];
        find_content(k, p, l, p->structure[l] + p->sugar[l], content);
        p->nsc[l] += content->share[l];
    }
}

/* Onto the ground; first: nothing is there yet. */
VECTOR static void lay_down(const struct lanes_part *restrict p, size_t n, const struct contents *restrict content,
                            bool first, double *restrict whole, double *restrict green)
{
    for (size_t l = 0; first && l < n; l++) {
        whole[l] = content->share[l];
        green[l] = p->share[l] * (p->structure[l] + p->sugar[l]);
    }
    for (size_t l = 0; !first && l < n; l++) {
        double own = p->share[l] * (p->structure[l] + p->sugar[l]), both = green[l] + own;
        whole[l] = (green[l] * whole[l] + own * content->share[l]) / both;
        green[l] = both;
    }
}

VECTOR static void begin(const struct lanes_kind *restrict k, struct lanes_part *restrict p, size_t n,
                         struct contents *restrict content)
{
    for (size_t l = 0; l < n; l++) {
        find_content(k, p, l, p->structure[l] + p->sugar[l], content);
        p->growth_most[l] *= (1.0 - exp_inline(-k->sink_extinction * p->slow_lai[l])) / k->sink_full_area;
        content->shade[l] = exp_inline(-k->extinction * p->lai[l]);
        p->supplied[l] = p->kept_up[l] = p->grown[l] = p->nsc[l] = 0.0;
    }
}

void lanes_hours(const struct lanes_kind *k, struct lanes_part *p, size_t n, bool first, struct lanes_ground *ground)
{
    assert(n <= LANES);
    struct contents content;
    struct flows f;
    begin(k, p, n, &content);
    for (int h = 0; h < 24; h++) {
        if (k->par[h] > 0.0 && k->photo[h] > 0.0) {
            find_supply(k, p, n, h, &content, f.supply);
        } else {
            memset(f.supply, 0, n * sizeof *f.supply);
        }
        if (find_flows(k, p, n, h, &content, &f) > 0) {
            hold_back(k, p, n, &f);
        }
        flow(k, p, n, &f, &content);
        lay_down(p, n, &content, first, ground->content[h], ground->green[h]);
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
        const double *content = ground->content[h];
        double *hour = r->nsc_hour[h];
        for (size_t l = 0; l < n; l++) {
            double nsc = 1000.0 * content[l];
            hour[l] = nsc;
            r->nsc_min[l] = nsc < r->nsc_min[l] ? nsc : r->nsc_min[l];
            r->nsc_max[l] = nsc > r->nsc_max[l] ? nsc : r->nsc_max[l];
            r->nsc_mean[l] += nsc;
        }
    }
    for (size_t l = 0; l < n; l++) {
        r->nsc_mean[l] *= 1.0 / 24.0;
    }
}

void lanes_pick(const struct lanes_report *r, size_t lane, double nsc_hour[24])
{
#pragma GCC unroll 24
    for (int h = 0; h < 24; h++) {
        nsc_hour[h] = r->nsc_hour[h][lane];
    }
}
