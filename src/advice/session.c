/* Means of grazing sessions and the search for the best one; see session.h.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/session.h"

#include <math.h>
#include <stdlib.h>

static int slots(double hours)
{
    return (int)lround(hours * SLOTS_HOUR);
}

void advice_tables_make(const struct advice_limits *l, struct advice_tables *t)
{
    double p = l->intake_exponent;
    for (int i = 0; i <= SLOTS_DAY; i++) {
        double hours = (double)i / SLOTS_HOUR;
        t->power[i] = pow(hours, p);
        t->moment[i] = hours * t->power[i] / (p + 1.0);
    }
    t->step = slots(l->step_h) > 0 ? slots(l->step_h) : 1;
    t->window_step = slots(l->window_step_min / 60.0) > 0 ? slots(l->window_step_min / 60.0) : 1;
    t->first = slots(l->window_first_h);
    t->last = slots(l->window_last_h);
}

void session_grass_make(const double nsc[24], double factor, struct session_grass *g)
{
    g->value[0] = factor * nsc[23];
    g->mean = 0.0;
    g->lowest = g->value[0];
    g->steepest = 0.0;
    for (int i = 0; i < 24; i++) {
        double value = factor * nsc[i];
        double slope = value - g->value[i];
        g->value[i + 1] = g->value[i + 25] = value;
        g->slope[i] = g->slope[i + 24] = slope;
        g->mean += value / 24.0;
        g->lowest = fmin(g->lowest, value);
        g->steepest = fmax(g->steepest, fabs(slope));
    }
}

double session_nsc(const struct advice_tables *t, const struct session_grass *g, int start, int length)
{
    double climbed = 0.0;
    int hour = start / SLOTS_HOUR;
    for (int begin = 0; begin < length; hour++) {
        int edge = (hour + 1) * SLOTS_HOUR - start;
        int end = edge < length ? edge : length;
        climbed += g->slope[hour] * (t->moment[end] - t->moment[begin]);
        begin = end;
    }
    int stop = start + length;
    int whole = stop / SLOTS_HOUR;
    double rest = (double)(stop % SLOTS_HOUR) / SLOTS_HOUR;
    double last = rest > 0.0 ? g->value[whole] + rest * g->slope[whole] : g->value[whole];
    return last - climbed / t->power[length];
}

/* All 24 whole-hour starts side by side: the inner loop runs over starts. */
static double lowest_at_whole_hours(const struct advice_tables *t, const struct session_grass *g, int length)
{
    int whole = length / SLOTS_HOUR;
    double rest = (double)(length % SLOTS_HOUR) / SLOTS_HOUR;
    double mean[24];
    for (int s = 0; s < 24; s++) {
        mean[s] = g->value[s + whole] + rest * g->slope[(s + whole) % 24];
    }
    for (int begin = 0, hour = 0; begin < length; hour++) {
        int end = begin + SLOTS_HOUR < length ? begin + SLOTS_HOUR : length;
        double weight = (t->moment[end] - t->moment[begin]) / t->power[length];
        for (int s = 0; s < 24; s++) {
            mean[s] -= weight * g->slope[s + hour];
        }
        begin = end;
    }
    double lowest = mean[0];
    for (int s = 1; s < 24; s++) {
        lowest = mean[s] < lowest ? mean[s] : lowest;
    }
    return lowest;
}

double session_lower_bound(const struct advice_tables *t, const struct session_grass *g, int length)
{
    return lowest_at_whole_hours(t, g, length) - 0.5 * g->steepest;
}

bool session_is_practical(const struct advice_tables *t, int start, int length)
{
    int end = (start + length) % SLOTS_DAY;
    return start >= t->first && start <= t->last && end >= t->first && end <= t->last;
}

static int distance_round_the_clock(int a, int b)
{
    int d = abs(a - b) % SLOTS_DAY;
    return d < SLOTS_DAY - d ? d : SLOTS_DAY - d;
}

int session_best(const struct advice_tables *t, const struct session_grass *g, int length, int dawn, double tie,
                 double most, double *nsc)
{
    double mean[SLOTS_DAY];
    double lowest = HUGE_VAL;
    for (int s = 0; s < SLOTS_DAY; s += t->window_step) {
        mean[s] = session_is_practical(t, s, length) ? session_nsc(t, g, s, length) : HUGE_VAL;
        lowest = mean[s] < lowest ? mean[s] : lowest;
    }
    double good = lowest <= most ? fmin(lowest + tie, most) : lowest;
    int best = -1;
    for (int s = 0; s < SLOTS_DAY; s += t->window_step) {
        bool nearer = best < 0 || distance_round_the_clock(s, dawn) < distance_round_the_clock(best, dawn);
        if (mean[s] < HUGE_VAL && mean[s] <= good && nearer) {
            best = s;
        }
    }
    *nsc = best < 0 ? (double)NAN : mean[best];
    return best;
}
