/* Day by day back to grass. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/reintroduction.h"

#include <math.h>

#define MINUTES 60.0
#define ROUNDING 1e-6 /* h */

enum { HELD_DAYS = 1 }; /* off grass without a step back, see the header */

static double full_min(const struct way_back_rules *rules, double class_h)
{
    return MINUTES * fmin(rules->full_h, class_h); /* fmin passes over NaN */
}

static int step_days(const struct way_back_state *s, const struct way_back_rules *rules)
{
    return s->after_signs ? (int)lround(rules->episode_step_days) : 1;
}

static int days_of(const struct way_back_state *s, const struct way_back_rules *rules, double class_h)
{
    double rise = fmax(0.0, full_min(rules, class_h) - rules->first_min);
    int steps = 1 + (int)ceil(rise / rules->step_min - ROUNDING);
    double least = s->after_signs ? rules->episode_least_days : rules->least_days;
    return (int)fmax(steps * step_days(s, rules), least);
}

struct way_back way_back_today(const struct way_back_state *s, const struct way_back_rules *rules, double class_h)
{
    if (!s->on) {
        return (struct way_back){0};
    }
    int step = s->done / step_days(s, rules);
    double minutes = rules->first_min + rules->step_min * step;
    return (struct way_back){.day = s->done + 1,
                             .days = days_of(s, rules, class_h),
                             .most_h = fmin(minutes, full_min(rules, class_h)) / MINUTES,
                             .after_signs = s->after_signs,
                             .grass_low_cm = rules->grass_low_cm,
                             .grass_high_cm = rules->grass_high_cm};
}

static void begin(struct way_back_state *s, bool after_signs)
{
    s->on = true;
    s->after_signs = s->after_signs || after_signs;
    s->done = 0;
}

static void off_grass(struct way_back_state *s, const struct way_back_rules *rules)
{
    s->away++;
    if (s->away >= rules->away_days) {
        begin(s, false);
    } else if (s->on && s->away > HELD_DAYS && s->done > 0) {
        s->done--;
    }
}

static void on_grass(struct way_back_state *s, const struct way_back_rules *rules, double class_h, double hours)
{
    struct way_back today = way_back_today(s, rules, class_h);
    s->away = 0;
    if (s->on && hours >= today.most_h - ROUNDING && ++s->done >= today.days) {
        *s = (struct way_back_state){0};
    }
}

void way_back_pass(struct way_back_state *s, const struct way_back_rules *rules, double class_h, double hours,
                   bool signs)
{
    if (signs) {
        s->away++;
        begin(s, true);
    } else if (hours <= 0.0) {
        off_grass(s, rules);
    } else if (hours > 0.0) {
        on_grass(s, rules, class_h, hours);
    }
}
