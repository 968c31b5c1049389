/* Reads models/weather-limits.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/quality_limits.h"

#include "data/params_file.h"

#define ROW(member, unit, low, high)                                                                                   \
    {                                                                                                                  \
#member, offsetof(struct quality_limits, member), unit, low, high                                              \
    }

static const struct param_row table[] = {
    ROW(least_days, "d", 100, 3000),  ROW(season_days, "d", 5, 45),       ROW(range_spreads, "1", 3, 20),
    ROW(step_spreads, "1", 2, 20),    ROW(slip_gain, "1", 1, 400),        ROW(sign_gain, "1", 1, 400),
    ROW(slip_fit, "1", 1, 100),       ROW(chance_runs, "1", 0.0001, 10),  ROW(frozen_days, "d", 3, 60),
    ROW(shift_score, "1", 3, 200),    ROW(clear_sky_excess, "1", 1, 1.4), ROW(rain_chance, "1", 0.00001, 0.1),
    ROW(wind_mean_m_s, "m/s", 2, 20), ROW(doubt_say_c, "C", 0, 10),       ROW(impossible_sun, "1", 0, 1),
    ROW(doubt_days, "d", 0, 365),
};

enum err_code params_read_quality(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    static const char *const root[] = {"about", "quality"};
    const cJSON *object = json_get(doc->root, "quality");
    enum err_code code = json_check_keys(doc, doc->root, "", root, sizeof root / sizeof root[0], e);
    if (code == ERR_OK && !object) {
        return json_fail(doc, ERR_CONFIG, "", e, "the entry \"quality\" is missing");
    }
    if (code == ERR_OK) {
        code = param_table_read(doc, object, "quality", table, sizeof table / sizeof table[0], &p->quality, &p->list, a,
                                e);
    }
    return code;
}
