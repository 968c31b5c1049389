/* What the parts of a sward share. Water is one bucket of the soil's capacity;
 * the soil follows the air at a lag (Schapendonk et al. 1998; ours is fitted).
 * Constants of the ground are those of the first part's kind.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/mixture.h"

#include "base/num.h"
#include "physics/soil.h"
#include "sward/canopy.h"
#include "sward/season.h"

#include <string.h>

#define KG_HA_OF_G_M2 10.0

double mixture_lai(const struct sward *s)
{
    double lai = 0.0;
    for (size_t i = 0; i < s->parts; i++) {
        lai += s->share[i] * canopy_lai(s->kind[i], s->part[i].leaf, s->part[i].stem);
    }
    return lai;
}

double mixture_mass(const struct sward *s, enum mixture_of what)
{
    double sum = 0.0;
    for (size_t i = 0; i < s->parts; i++) {
        const struct sward_part *p = &s->part[i];
        sum += s->share[i] * (p->leaf + p->stem + p->sugar + (what == MIXTURE_ALL ? p->dead : 0.0));
    }
    return KG_HA_OF_G_M2 * sum;
}

static void remember_temperature(struct sward *s, double t)
{
    size_t known = s->days_seen < 7 ? s->days_seen + 1 : 7;
    double sum = t;
    memmove(&s->t_last[1], &s->t_last[0], 6 * sizeof s->t_last[0]);
    s->t_last[0] = t;
    for (size_t i = 1; i < known; i++) {
        sum += s->t_last[i];
    }
    s->t7 = sum / (double)known;
}

static void step_soil(struct sward *s, double t, bool covered)
{
    const struct sward_kind *k = s->kind[0];
    s->soil_t += (covered ? k->snow_soil_lag : k->soil_lag) * (t - s->soil_t);
    if (covered) {
        s->soil_t = num_most(s->soil_t, k->snow_soil_floor);
    }
}

struct ground mixture_wet(const struct sward *s, const struct sward_day *d, double lai)
{
    const struct sward_kind *k = s->kind[0];
    double t = 0.5 * (d->tmin + d->tmax), water_in = d->rain;
    struct ground g = {.st = season_sum(k, s->st, d, t), .snow_mm = s->snow_mm};
    if (d->snow_rule) {
        g.snow_mm = soil_snow_step(s->snow_mm, t, d->rain, &water_in);
        g.covered = g.snow_mm > k->snow_cover_mm;
    }
    double drawn = g.covered ? num_least(d->et0, k->snow_et_mm) : d->et0 * num_least(1.0, lai / k->full_cover_lai);
    g.water = num_clip(s->water + (water_in - drawn) / s->capacity_mm, 0.0, 1.0);
    return g;
}

bool mixture_ground(struct sward *s, const struct sward_day *d, double lai)
{
    struct ground g = mixture_wet(s, d, lai);
    double t = 0.5 * (d->tmin + d->tmax);
    s->snow_mm = g.snow_mm;
    s->st = g.st;
    s->water = g.water;
    step_soil(s, t, g.covered);
    s->leaf_clock += num_clip(s->soil_t, 0.0, s->kind[0]->leaf_clock_most);
    remember_temperature(s, t);
    return g.covered;
}
