/* Many days of FAO-56 at once: straight loops without calls or branches, which the
 * compiler turns into vector code (the Makefile gives this file the flags for it).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/exp_log.h"
#include "base/vector.h"
#include "physics/et0_inner.h"

#include <assert.h>

struct vapour {
    double es[ET0_BLOCK], ea[ET0_BLOCK];
};

/* Eq. 11; as humidity_saturation. */
static inline double saturation(double t)
{
    return 0.6108 * exp_inline(17.27 * t / (t + 237.3));
}

/* Eq. 19, else Eq. 48. */
VECTOR static void find_vapour(struct vapour *v, const struct et0_block *b, const double *restrict tmin,
                               const double *restrict tmax)
{
    for (size_t i = 0; i < b->n; i++) {
        double e_min = saturation(tmin[i]), es = (e_min + saturation(tmax[i])) / 2, rh = b->rh[i];
        double by_rh = rh / 100 * es;
        v->es[i] = es;
        v->ea[i] = rh == rh ? by_rh : e_min;
    }
}

/* Eq. 14 where there is a dew point. */
VECTOR static void heed_dew(struct vapour *v, size_t n, const double *restrict tdew)
{
    for (size_t i = 0; i < n; i++) {
        double by_dew = saturation(tdew[i]);
        v->ea[i] = by_dew == by_dew ? by_dew : v->ea[i];
    }
}

static inline double of_day(const struct et0_place *place, double tmin, double tmax, double rad, double ra, double es,
                            double ea, double wind)
{
    double t = (tmin + tmax) / 2, per_kelvin_like = 1 / (t + 237.3);
    double at_mean = 0.6108 * exp_inline(17.27 * t * per_kelvin_like);
    struct et0_terms e = {.slope = 4098 * at_mean * per_kelvin_like * per_kelvin_like, /* Eq. 13 */
                          .gamma = place->gamma,
                          .es = es,
                          .ea = ea > es ? es : ea,
                          .ra = ra};
    et0_day_terms(&e, tmin, tmax, rad, wind == wind ? wind : WIND_USUAL, place->clear_share);
    return e.et0;
}

VECTOR static void find_et0(const struct vapour *v, const struct et0_block *b, const struct et0_place *place,
                            const double *restrict tmin, const double *restrict tmax, const double *restrict rad,
                            double *restrict out)
{
    for (size_t i = 0; i < b->n; i++) {
        out[i] = of_day(place, tmin[i], tmax[i], rad[i], b->ra[i], v->es[i], v->ea[i], b->wind[i]);
    }
}

void et0_block_run(const struct et0_block *block, const struct et0_place *place, const double *tmin, const double *tmax,
                   const double *rad, const double *tdew, double *restrict out)
{
    assert(block->n <= ET0_BLOCK);
    struct vapour v;
    find_vapour(&v, block, tmin, tmax);
    if (tdew) {
        heed_dew(&v, block->n, tdew);
    }
    find_et0(&v, block, place, tmin, tmax, rad, out);
}

double et0_block_one(const struct et0_place *place, double tmin, double tmax, double rad, double ra)
{
    double e_min = saturation(tmin), es = (e_min + saturation(tmax)) / 2;
    return of_day(place, tmin, tmax, rad, ra, es, e_min, WIND_USUAL);
}
