/* A daily record for tests of the sward. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/daily.h"

#include "base/date.h"
#include "physics/et0.h"
#include "physics/sun.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static bool has_column(const struct table *t, const char *name)
{
    for (size_t i = 0; i < t->columns; i++) {
        if (strcmp(t->name[i], name) == 0) {
            return true;
        }
    }
    return false;
}

static double number_or_nan(const struct table *t, size_t row, const char *name)
{
    return has_column(t, name) ? table_number(t, row, table_column(t, name)) : (double)NAN;
}

static double wind_at_2m(const struct table *t, size_t row)
{
    double wind = number_or_nan(t, row, "wind_m_s");
    return isnan(wind) ? et0_wind_at_2m(number_or_nan(t, row, "wind_10m"), 10) : wind;
}

static void complete(struct sward_weather *w, const struct table *t, size_t row, double latitude, double elevation_m)
{
    if (isnan(w->rad)) {
        w->rad = sun_from_range(w->tmin, w->tmax, sun_extraterrestrial(date_day_of_year(w->date), latitude),
                                elevation_m, 0.17);
    }
    if (isnan(w->et0)) {
        double rh = number_or_nan(t, row, "rh_pct"), wind = wind_at_2m(t, row);
        struct et0_columns c = {.tmin = &w->tmin, .tmax = &w->tmax, .rad = &w->rad, .rh = &rh, .wind = &wind};
        et0_days(&c, 1, w->date, latitude, elevation_m, &w->et0);
    }
}

/* Gives each day its neighbours; false when the days do not follow one another. */
static bool join(struct daily *d)
{
    for (size_t i = 0; i < d->n; i++) {
        struct sward_weather *w = &d->day[i];
        w->tmax_before = i > 0 ? w[-1].tmax : w->tmax;
        w->tmin_after = i + 1 < d->n ? w[1].tmin : w->tmin;
        if (i > 0 && w->date != w[-1].date + 1) {
            return false;
        }
    }
    return d->n > 0;
}

bool daily_read(struct daily *d, const struct table *t, const char *site, double latitude, double elevation_m)
{
    size_t date = table_column(t, "date"), tmin = table_column(t, "tmin_c"), tmax = table_column(t, "tmax_c");
    size_t rain = table_column(t, "rain_mm"), rad = table_column(t, "rad_mj_m2");
    size_t at = site ? table_column(t, "site") : 0;
    d->n = 0;
    d->day = calloc(t->rows + 1, sizeof *d->day);
    for (size_t i = 0; d->day && i < t->rows; i++) {
        if (site && strcmp(table_text(t, i, at), site) != 0) {
            continue;
        }
        struct sward_weather *w = &d->day[d->n++];
        *w = (struct sward_weather){.date = table_date(t, i, date),
                                    .tmin = table_number(t, i, tmin),
                                    .tmax = table_number(t, i, tmax),
                                    .rad = table_number(t, i, rad),
                                    .rain = table_number(t, i, rain),
                                    .et0 = number_or_nan(t, i, "et0_mm")};
        complete(w, t, i, latitude, elevation_m);
    }
    return d->day && join(d);
}

void daily_free(struct daily *d)
{
    free(d->day);
    d->day = NULL;
}

size_t daily_index(const struct daily *d, int date)
{
    int64_t i = d->n > 0 ? (int64_t)date - d->day[0].date : -1;
    return i >= 0 && i < (int64_t)d->n ? (size_t)i : d->n;
}
