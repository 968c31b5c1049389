/* Means of grazing sessions and the search for the best one; see session.h.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/session.h"

#include "animal/ration.h"
#include "base/vector.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

static int slots(double hours)
{
    return (int)lround(hours * SLOTS_HOUR);
}

void advice_tables_make(const struct advice_limits *l, struct advice_tables *t)
{
    assert(l->intake_exponent > 0.0);
    double p = l->intake_exponent;
    for (int i = 0; i <= SLOTS_DAY; i++) {
        double hours = (double)i / SLOTS_HOUR;
        t->power[i] = pow(hours, p);
        t->moment[i] = hours * t->power[i] / (p + 1.0);
        t->intake[i] = intake_session(1.0, hours, p);
    }
    t->step = slots(l->step_h);
    t->window_step = slots(l->window_step_min / 60.0);
    assert(t->step > 0 && t->window_step > 0);
    t->first = slots(l->window_first_h);
    t->last = slots(l->window_last_h);
    assert(0 <= t->first && t->first <= t->last && t->last <= SLOTS_DAY);
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

VECTOR void session_means(const struct advice_tables *t, const struct session_grass *g, int offset, int length,
                          double mean[SLOTS_DAY])
{
    assert(length > 0 && length <= SLOTS_DAY);
    assert(offset >= 0 && offset < SLOTS_HOUR);
    double climbed[24] = {0};
    for (int begin = 0, hour = 0; begin < length; hour++) {
        int edge = (hour + 1) * SLOTS_HOUR - offset;
        int end = edge < length ? edge : length;
        double weight = t->moment[end] - t->moment[begin];
        for (int s = 0; s < 24; s++) {
            climbed[s] += g->slope[s + hour] * weight;
        }
        begin = end;
    }
    int whole = (offset + length) / SLOTS_HOUR; /* at most 24 */
    double rest = (double)((offset + length) % SLOTS_HOUR) / SLOTS_HOUR;
    for (int s = 0; s < 24; s++) {
        climbed[s] = g->value[s + whole] + rest * g->slope[s + whole] - climbed[s] / t->power[length];
    }
    for (int s = 0; s < 24; s++) {
        mean[s * SLOTS_HOUR + offset] = climbed[s];
    }
}

/* Within half an hour of the practical day; slot: within two days of a midnight. */
static inline bool is_near_the_day(const struct advice_tables *t, int slot)
{
    enum { NEAR = SLOTS_HOUR / 2 };
    int past = slot - (t->first - NEAR);
    past += past < 0 ? SLOTS_DAY : 0;
    past -= past >= SLOTS_DAY ? SLOTS_DAY : 0;
    return past <= t->last - t->first + 2 * NEAR;
}

double session_lower_bound(const struct advice_tables *t, const struct session_grass *g, int length)
{
    double mean[SLOTS_DAY];
    double lowest = HUGE_VAL;
    session_means(t, g, 0, length, mean);
    for (int s = 0; s < SLOTS_DAY; s += SLOTS_HOUR) {
        if (is_near_the_day(t, s) && is_near_the_day(t, s + length)) {
            lowest = mean[s] < lowest ? mean[s] : lowest;
        }
    }
    return lowest - 0.5 * g->steepest;
}

/* Slots of the practical day; end: within two days of its midnight. */
static inline bool ends_in_the_day(const struct advice_tables *t, int end)
{
    end -= end >= SLOTS_DAY ? SLOTS_DAY : 0;
    return end >= t->first && end <= t->last;
}

bool session_is_practical(const struct advice_tables *t, int start, int length)
{
    assert(start + length < 2 * SLOTS_DAY);
    return start >= t->first && start <= t->last && ends_in_the_day(t, start + length);
}

static int distance_round_the_clock(int a, int b)
{
    int d = abs(a - b) % SLOTS_DAY;
    return d < SLOTS_DAY - d ? d : SLOTS_DAY - d;
}

/* The starts of windows lie that many slots apart when all are brought into one hour: the
 * greatest common divisor. */
static int apart_in_hours(int step)
{
    int a = SLOTS_HOUR;
    while (step > 0) {
        int rest = a % step;
        a = step;
        step = rest;
    }
    assert(a > 0 && SLOTS_HOUR % a == 0);
    return a;
}

int session_best(const struct advice_tables *t, const struct session_grass *g, int length, int dawn, double tie,
                 double most, double *nsc)
{
    assert(dawn >= 0 && dawn <= SLOTS_DAY);
    double mean[SLOTS_DAY];
    double lowest = HUGE_VAL;
    int apart = apart_in_hours(t->window_step);
    for (int offset = 0; offset < SLOTS_HOUR; offset += apart) {
        session_means(t, g, offset, length, mean);
    }
    int first = (t->first + t->window_step - 1) / t->window_step * t->window_step;
    for (int s = first; s <= t->last && s < SLOTS_DAY; s += t->window_step) {
        if (ends_in_the_day(t, s + length)) {
            lowest = mean[s] < lowest ? mean[s] : lowest;
        } else {
            mean[s] = HUGE_VAL;
        }
    }
    double good = lowest <= most ? fmin(lowest + tie, most) : lowest;
    int best = -1;
    for (int s = first; s <= t->last && s < SLOTS_DAY; s += t->window_step) {
        if (!(mean[s] < HUGE_VAL && mean[s] <= good)) {
            continue;
        }
        if (best < 0 || distance_round_the_clock(s, dawn) < distance_round_the_clock(best, dawn)) {
            best = s;
        }
    }
    *nsc = best < 0 ? (double)NAN : mean[best];
    return best;
}
