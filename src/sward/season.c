/* The course of the sward's year. Direction of the phases: Peacock 1976 (sink),
 * Parsons & Robson 1981, Woledge (source, from memory); sizes fitted.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/season.h"

#include "base/num.h"

#include <assert.h>

double season_sum(const struct sward_kind *k, double st, const struct sward_day *d, double t)
{
    assert(d->season_month >= 0 && d->season_month <= 2);
    const double weight[] = {k->st_first_month, k->st_second_month, 1.0};
    return (d->new_year ? 0.0 : st) + (t > 0.0 ? t * weight[d->season_month] : 0.0);
}

static double between(double from, double to, double share)
{
    return from + (to - from) * share;
}

struct season_phase season_phase(const struct sward_kind *k, double st, int season_day)
{
    assert(k->st_spring < k->st_peak && k->st_peak <= k->st_heading && k->st_heading < k->st_end);
    double rise = num_clip((st - k->st_spring) / (k->st_peak - k->st_spring), 0.0, 1.0);
    double fall = num_clip((st - k->st_heading) / (k->st_end - k->st_heading), 0.0, 1.0);
    double autumn = num_clip((season_day - k->autumn_start) / (k->autumn_end - k->autumn_start), 0.0, 1.0);
    if (st >= k->st_end) {
        return (struct season_phase){between(k->phase_summer, k->phase_winter, autumn), 1.0};
    }
    if (st > k->st_heading) {
        return (struct season_phase){between(k->phase_spring, k->phase_summer, fall),
                                     between(k->source_spring, 1.0, fall)};
    }
    return (struct season_phase){between(k->phase_winter, k->phase_spring, rise), between(1.0, k->source_spring, rise)};
}

bool season_heading(const struct sward_kind *k, double st)
{
    return k->stem_share > 0.0 && st >= k->st_heading && st <= k->st_end;
}

double season_stem_share(const struct sward_kind *k, double st, bool reproductive)
{
    return reproductive && season_heading(k, st) ? k->stem_share : 0.0;
}
