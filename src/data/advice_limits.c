/* Reads models/limits.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/advice_limits.h"

#include "data/params_file.h"

#define ROW(member, unit, low, high)                                                                                   \
    {                                                                                                                  \
#member, offsetof(struct advice_limits, member), unit, low, high                                               \
    }

static const struct param_row table[] = {
    ROW(spread_paddock, "ln-SD", 0.01, 2),
    ROW(spread_tested, "ln-SD", 0.01, 2),
    ROW(spread_assumed_weather, "ln-SD", 0, 1),
    ROW(spread_late_day, "1", 0, 20),
    ROW(spread_estimated, "ln-SD", 0, 1),
    ROW(spread_short_record, "1", 1, 3),
    ROW(min_days, "d", 1, 3000),
    ROW(step_h, "h", 0.25, 2),
    ROW(window_step_min, "min", 5, 60),
    ROW(brief_h, "h", 0.25, 4),
    ROW(window_first_h, "h", 0, 12),
    ROW(window_last_h, "h", 12, 24),
    ROW(window_tie_pct, "% DM", 0, 1),
    ROW(muzzle_max_h, "h", 1, 23.5),
    ROW(at_risk_probability, "1", 0.5, 0.99),
    ROW(better_hay_nsc_pct, "% DM", 1, 30),
    ROW(equid_nsc_day_g_kg, "g/kg BW", 0.5, 10),
    ROW(killing_frost_days, "d", 0, 60),
    ROW(usual_hay_nsc_pct, "% DM", 5, 30),
    ROW(thaw_c, "C", -2, 10),
    ROW(intake_exponent, "1", 0.1, 1),
    ROW(muzzle_pony, "1", 0.05, 1),
    ROW(muzzle_horse, "1", 0.05, 1),
    ROW(muzzle_limit_kg, "kg", 50, 1000),
    ROW(grass_ndf_pct, "% DM", 10, 80),
    ROW(grass_starch_pct, "% DM", 0, 30),
    ROW(grain_meal_kg, "kg", 0.05, 5),
    ROW(grain_starch_pct, "% DM", 1, 80),
    ROW(tape_error_pct, "%", 1, 40),
    ROW(tape_horse_kg, "kg", 50, 1000),
    ROW(bale_dm_pct, "% fed", 30, 100),
    ROW(hay_nsc_least_pct, "% DM", 0.5, 10),
    ROW(fed_most_times, "1", 1, 10),
    ROW(stale_notice_days, "d", 0, 30),
    ROW(stale_provisional_days, "d", 0, 30),
    ROW(stale_refuse_days, "d", 1, 30),
    ROW(gap_fill_days, "d", 0, 30),
    ROW(gap_recent_days, "d", 1, 400),
    ROW(estimated_half_days, "d", 0.5, 1000),
    ROW(k_rs_days, "d", 30, 10000),
    ROW(weather_far_km, "km", 1, 1000),
    ROW(weather_high_m, "m", 10, 3000),
    ROW(way_back_followed_days, "d", 0, 4000),
    ROW(insulin_days, "d", 0, 3650),
    ROW(lost_signs_days, "d", 1, 365),
    ROW(hay_test_same_pct, "% DM", 0, 5),
    ROW(round_ahead_days, "d", 1, 15),
    ROW(round_hay_days, "d", 1, 60),
    ROW(low_green_kg_ha, "kg DM/ha", 0, 2000),
    ROW(remind_hay_test_days, "d", 1, 3650),
    ROW(remind_grass_test_days, "d", 1, 3650),
    ROW(remind_weight_days, "d", 1, 3650),
    ROW(remind_height_days, "d", 1, 3650),
    ROW(default_cover_kg_ha, "kg DM/ha", 200, 12000),
    ROW(default_stubble_cm, "cm", 1, 30),
    ROW(nitrogen_none, "1", 0.2, 2),
    ROW(nitrogen_low, "1", 0.2, 2),
    ROW(nitrogen_normal, "1", 0.2, 2),
    ROW(nitrogen_heavy, "1", 0.2, 2),
};

enum err_code params_read_limits(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    static const char *const root[] = {"about", "limits"};
    const cJSON *object = json_get(doc->root, "limits");
    enum err_code code = json_check_keys(doc, doc->root, "", root, sizeof root / sizeof root[0], e);
    if (code == ERR_OK && !object) {
        return json_fail(doc, ERR_CONFIG, "", e, "the entry \"limits\" is missing");
    }
    if (code == ERR_OK) {
        code =
            param_table_read(doc, object, "limits", table, sizeof table / sizeof table[0], &p->limits, &p->list, a, e);
    }
    return code;
}
