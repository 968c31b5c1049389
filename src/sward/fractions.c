/* What the sugar consists of. The daily swing is sucrose (Ciavarella et al. 2000;
 * Lechtenberg et al. 1972), so fructan follows the mean of the last three days;
 * it fades in warmth (timothy: none at 20 C constant). Warm-season grasses and
 * legumes make starch instead. SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/fractions.h"

#include "base/num.h"

#include <assert.h>
#include <math.h>

double fractions_starch_share(const struct sward_kind *k, double own, double t)
{
    if (!isnan(own)) {
        return own;
    }
    double warm = num_clip((t - k->starch_t_cool) / (k->starch_t_warm - k->starch_t_cool), 0.0, 1.0);
    return k->starch_cool + (k->starch_warm - k->starch_cool) * warm;
}

static double mean_of_days(struct sward_part *p, double wsc, unsigned days_seen)
{
    unsigned known = days_seen < 2 ? days_seen + 1 : 3;
    p->wsc3[2] = p->wsc3[1];
    p->wsc3[1] = p->wsc3[0];
    p->wsc3[0] = wsc;
    double sum = 0.0;
    for (unsigned i = 0; i < known; i++) {
        sum += p->wsc3[i];
    }
    return sum / known;
}

struct fractions fractions_of_day(const struct sward_kind *k, struct sward_part *p, double nsc, double starch_share,
                                  double esc_fructan, unsigned days_seen, double t7)
{
    assert(starch_share >= 0.0 && starch_share <= 1.0);
    struct fractions f = {.starch = starch_share * nsc};
    f.wsc = nsc - f.starch;
    double mean = mean_of_days(p, f.wsc, days_seen);
    double warm = num_clip((t7 - k->fructan_cool) / (k->fructan_warm - k->fructan_cool), 0.0, 1.0);
    double fade = 1.0 + (k->fructan_warm_factor - 1.0) * warm;
    double made = k->fructan_most * mean * mean / (mean + k->fructan_half) * fade;
    f.fructan = num_most(0.0, num_least(made, f.wsc - k->simple_least));
    f.esc = f.wsc - f.fructan + esc_fructan * f.fructan;
    assert(!(f.fructan > f.wsc));
    return f;
}
