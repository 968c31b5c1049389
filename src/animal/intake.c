/* Intake of a grazing session and the sugar in it.
 *
 * Animals turned out for less than a day eat faster: North Carolina State's horses
 * took 1.0, 0.75, 0.6 and 0.35 kg DM an hour in sessions of 3, 6, 9 and 24 h (Glunk
 * & Siciliano, as reported). Intake by the square root of the hours, held at their
 * 24 h, misses no point by more than 6.7 %. The same law within a session puts half
 * of what is eaten in its first quarter; Siciliano's trials found the first 4 of
 * 8 h to hold about twice the second 4 h, the law says 2.4 times.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "animal/ration.h"

#include <assert.h>
#include <math.h>

double intake_day(const struct animal_class *c, double weight_kg)
{
    double pct = isnan(c->intake_pct) ? c->hay_pct : c->intake_pct;
    return pct / 100.0 * weight_kg;
}

double intake_session(double intake_24h_kg, double hours, double exponent)
{
    return hours <= 0.0 ? 0.0 : intake_24h_kg * pow(hours / 24.0, exponent);
}

double intake_muzzle_factor(const struct advice_limits *l, double weight_kg)
{
    assert(weight_kg > 0.0);
    return weight_kg < l->muzzle_limit_kg ? l->muzzle_pony : l->muzzle_horse;
}

/* Grass NSC at an hour from the start of the day; nsc[i] stands at hour i + 1. */
static double nsc_at(const double nsc[24], double hour)
{
    double whole = floor(hour);
    int i = (int)whole;
    double before = nsc[(i + 23) % 24];
    return before + (nsc[i % 24] - before) * (hour - whole);
}

/* Integration by parts: the mean is the last value less the slopes weighted by how
 * much was eaten while they held, (t/hours)^exponent integrated over t. */
double intake_session_nsc(const double nsc[24], double from, double hours, double exponent)
{
    assert(hours > 0.0 && hours <= 24.0);
    double order = exponent + 1.0;
    double scale = order * pow(hours, exponent);
    double climbed = 0.0;
    double begin = 0.0;
    for (double hour = floor(from); begin < hours; hour += 1.0) {
        int i = (int)hour;
        double end = fmin(hour + 1.0 - from, hours);
        double slope = nsc[i % 24] - nsc[(i + 23) % 24];
        climbed += slope * (pow(end, order) - pow(begin, order)) / scale;
        begin = end;
    }
    return nsc_at(nsc, from + hours) - climbed;
}
