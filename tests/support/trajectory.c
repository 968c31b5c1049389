/* Comparison of the sward with a daily trajectory. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/trajectory.h"

#include "base/date.h"
#include "support/sward_support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COVER 1800.0 /* kg DM/ha */

static struct sward_weather weather_of(const struct table *t, size_t row, size_t before, size_t after)
{
    size_t tmin = table_column(t, "tmin_c"), tmax = table_column(t, "tmax_c");
    return (struct sward_weather){.date = table_date(t, row, table_column(t, "date")),
                                  .tmin = table_number(t, row, tmin),
                                  .tmax = table_number(t, row, tmax),
                                  .rad = table_number(t, row, table_column(t, "rad_mj_m2")),
                                  .rain = table_number(t, row, table_column(t, "rain_mm")),
                                  .et0 = table_number(t, row, table_column(t, "et0_mm")),
                                  .tmax_before = table_number(t, before, tmax),
                                  .tmin_after = table_number(t, after, tmin)};
}

static double manage(struct sward *s, const char *how, int day_of_year)
{
    if (strcmp(how, "grazed") == 0) {
        return sward_graze_to_cover(s, COVER);
    }
    return (day_of_year - 1) % 28 == 0 && day_of_year > 80 && day_of_year < 310 ? sward_cut(s, 5) : 0;
}

struct column {
    const char *name;
    double got, least; /* smaller values are compared as if they were this */
};

static void compare(const struct table *t, size_t row, const struct column *c, size_t n, struct trajectory_result *out)
{
    for (size_t i = 0; i < n; i++) {
        double want = table_number(t, row, table_column(t, c[i].name));
        double off = fabs(c[i].got - want) / fmax(fabs(want), c[i].least);
        if (!(off <= out->worst_relative)) {
            out->worst_relative = off;
            snprintf(out->where, sizeof out->where, "%s %s: %g, expected %g", c[i].name,
                     table_text(t, row, table_column(t, "date")), c[i].got, want);
        }
    }
}

static void compare_nsc(const struct table *t, size_t row, const struct sward_result *r, struct trajectory_result *out)
{
    const struct column c[] = {{"nsc_min", r->nsc_min, 1}, {"nsc_max", r->nsc_max, 1}, {"nsc_mean", r->nsc_mean, 1}};
    for (size_t i = 0; i < 3; i++) {
        double off = fabs(c[i].got - table_number(t, row, table_column(t, c[i].name)));
        out->worst_nsc = off <= out->worst_nsc ? out->worst_nsc : off;
    }
}

static void compare_day(const struct table *t, size_t row, const struct sward *s, const struct sward_result *r,
                        double taken, struct trajectory_result *out)
{
    const struct sward_part *p = &s->part[0];
    const struct column c[] = {{"st_c_d", s->st, 1},
                               {"ts_c", s->soil_t, 0.2},
                               {"w", s->water, 0.05},
                               {"ff", p->frost, 0.1},
                               {"lai", p->lai, 0.05},
                               {"lslow", p->slow_lai, 0.05},
                               {"leaf_g_m2", p->leaf, 5},
                               {"stem_g_m2", p->stem, 0.2},
                               {"sugar_g_m2", p->sugar, 0.2},
                               {"dead_g_m2", p->dead, 5},
                               {"age_leaf_c_d", p->leaf_age, 10},
                               {"growth_g_m2_d", r->growth / 10, 0.1},
                               {"taken_kg_ha", taken, 5}};
    compare(t, row, c, sizeof c / sizeof c[0], out);
    compare_nsc(t, row, r, out);
    out->days++;
}

struct trajectory_result trajectory_compare(const struct table *t, const char *how, double latitude)
{
    struct trajectory_result out = {0};
    struct sward s = support_ryegrass();
    size_t run = table_column(t, "run");
    for (size_t i = 0; i < t->rows; i++) {
        if (strcmp(table_text(t, i, run), how) != 0) {
            continue;
        }
        size_t before = i > 0 && strcmp(table_text(t, i - 1, run), how) == 0 ? i - 1 : i;
        size_t after = i + 1 < t->rows && strcmp(table_text(t, i + 1, run), how) == 0 ? i + 1 : i;
        struct sward_weather w = weather_of(t, i, before, after);
        struct sward_day d;
        struct sward_result r;
        int day_of_year = date_day_of_year(w.date);
        sward_day_force(&d, &w, support_day_length(latitude, day_of_year), latitude < 0, false);
        sward_step(&s, &d, &r);
        compare_day(t, i, &s, &r, manage(&s, how, day_of_year), &out);
    }
    return out;
}
