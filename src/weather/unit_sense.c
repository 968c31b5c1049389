/* The verdict about units from what was counted.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/unit_sense.h"

#include <stdio.h>
#include <string.h>

static const char *const reading_units[UNIT_READINGS] = {
    [UNITS_METRIC] = "C, mm, m/s", [UNITS_US] = "F, inch, mph", [UNITS_TENTHS] = "0.1 C, 0.1 mm, 0.1 m/s"};

enum kind { TEMPERATURE, RAIN, WIND, KINDS };

static enum kind kind_of(enum unit_feature f)
{
    return f < R_DAYS ? TEMPERATURE : f < W_DAYS ? RAIN : WIND;
}

/* Points against each reading, and for each the heaviest reason. */
struct score {
    int of_kind[KINDS][UNIT_READINGS];
    int sum[UNIT_READINGS];
    int most[UNIT_READINGS];
    const char *why[UNIT_READINGS];
};

static int points_of(const struct unit_rule *r, const size_t of[UNIT_FEATURES])
{
    size_t among = of[r->among], shown = of[r->feature];
    if (shown == 0 || (double)shown < r->share * (double)among || among < r->few) {
        return 0;
    }
    return among < r->many ? UNIT_SENSE_OUT / 2 : UNIT_SENSE_OUT;
}

static struct score score_all(const struct unit_counts *c)
{
    struct score s = {0};
    for (int reading = UNITS_METRIC; reading < UNIT_READINGS; reading++) {
        for (size_t i = 0; i < unit_rule_count; i++) {
            const struct unit_rule *r = &unit_rules[i];
            int points = r->against >> reading & 1 ? points_of(r, c->of[reading]) : 0;
            s.sum[reading] += points;
            s.of_kind[kind_of(r->feature)][reading] += points;
            if (points > s.most[reading]) {
                s.most[reading] = points;
                s.why[reading] = r->why;
            }
        }
    }
    return s;
}

static void add(char *text, size_t size, const char *more)
{
    size_t n = strlen(text);
    snprintf(text + n, size - n, "%s", more);
}

static void tell_why(const struct score *s, int taken, struct unit_verdict *v)
{
    snprintf(v->text, sizeof v->text, "its units are not said and were taken as %s (%s)", weather_units_names[taken],
             reading_units[taken]);
    for (int i = UNITS_METRIC; i < UNIT_READINGS; i++) {
        if (i != taken) {
            add(v->text, sizeof v->text, ", not ");
            add(v->text, sizeof v->text, weather_units_names[i]);
            add(v->text, sizeof v->text, " (");
            add(v->text, sizeof v->text, s->why[i]);
            add(v->text, sizeof v->text, ")");
        }
    }
}

/* "temperature like us, rain like metric or us" */
static void tell_looks(const struct score *s, const struct unit_counts *c, struct unit_verdict *v)
{
    static const char *const names[KINDS] = {"temperature", "rain", "wind"};
    static const enum unit_feature seen[KINDS] = {T_VALUES, R_DAYS, W_DAYS};
    v->text[0] = 0;
    for (size_t k = 0; k < KINDS; k++) {
        if (c->of[UNITS_METRIC][seen[k]] == 0) {
            continue;
        }
        bool any = false;
        add(v->text, sizeof v->text, v->text[0] ? ", " : "");
        add(v->text, sizeof v->text, names[k]);
        for (int i = UNITS_METRIC; i < UNIT_READINGS; i++) {
            if (s->of_kind[k][i] < UNIT_SENSE_OUT) {
                add(v->text, sizeof v->text, any ? " or " : " looks like ");
                add(v->text, sizeof v->text, weather_units_names[i]);
                any = true;
            }
        }
        add(v->text, sizeof v->text, any ? "" : " looks like none of them");
    }
}

/* Whether no variable would rather have another reading. */
static bool all_agree(const struct score *s, int taken)
{
    for (size_t k = 0; k < KINDS; k++) {
        for (int i = UNITS_METRIC; i < UNIT_READINGS; i++) {
            if (s->of_kind[k][i] < s->of_kind[k][taken]) {
                return false;
            }
        }
    }
    return true;
}

/* The reading with the fewest points, or none when it is out itself, another comes
 * near, or a variable disagrees. */
static enum weather_units choose(const struct score *s)
{
    int taken = UNITS_METRIC;
    for (int i = UNITS_METRIC; i < UNIT_READINGS; i++) {
        taken = s->sum[i] < s->sum[taken] ? i : taken;
    }
    bool clear = s->sum[taken] < UNIT_SENSE_OUT && all_agree(s, taken);
    for (int i = UNITS_METRIC; i < UNIT_READINGS; i++) {
        clear = clear && (i == taken || s->sum[i] >= s->sum[taken] + UNIT_SENSE_OUT);
    }
    return clear ? (enum weather_units)taken : UNITS_UNSAID;
}

void unit_sense_judge(const struct unit_counts *c, struct unit_verdict *verdict)
{
    struct score s = score_all(c);
    verdict->units = choose(&s);
    if (verdict->units == UNITS_UNSAID) {
        tell_looks(&s, c, verdict);
    } else {
        tell_why(&s, (int)verdict->units, verdict);
    }
}
