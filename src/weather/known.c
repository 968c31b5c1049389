/* What is known on a morning, and persistence for what is not.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/et0.h"
#include "physics/sun.h"
#include "weather/weather.h"

#include <math.h>

#define PERSIST_DAYS 3

/* ET0 of one day from its temperatures and radiation alone; ra: the sun above its air. */
static void work_out_et0(double value[WEATHER_VARS], const struct site *site, double ra)
{
    value[WEATHER_ET0] =
        et0_bare_day(value[WEATHER_TMIN], value[WEATHER_TMAX], value[WEATHER_RAD], ra, site->elevation_m);
}

/* The sun above the air on a date, which may lie outside the table. */
static double extraterrestrial(const struct weather_days *w, const struct site *site, date_t date)
{
    if (w->air && date >= w->day0 && date - w->day0 < (date_t)w->n) {
        return w->air[date - w->day0];
    }
    return sun_extraterrestrial(date_day_of_year(date), site->latitude);
}

struct lately { /* what the last days had in common; NaN: there are none */
    double low, high, clearness;
};

/* The PERSIST_DAYS before index `end` of the table. */
static struct lately look_back(const struct weather_days *w, const struct site *site, size_t end)
{
    size_t first = end > PERSIST_DAYS ? end - PERSIST_DAYS : 0, n = end - first, sunny = 0;
    double low = 0, high = 0, clearness = 0;
    for (size_t i = first; i < end; i++) {
        double ra = extraterrestrial(w, site, w->day0 + (date_t)i);
        low += weather_at(w, WEATHER_TMIN, i) / (double)n;
        high += weather_at(w, WEATHER_TMAX, i) / (double)n;
        if (ra > 0) {
            clearness += weather_at(w, WEATHER_RAD, i) / ra;
            sunny++;
        }
    }
    return (struct lately){n ? low : (double)NAN, n ? high : (double)NAN, sunny ? clearness / (double)sunny : 0};
}

/* A day like those, but for its ET0; ra: the sun above its air. */
static void resemble(const struct lately *past, double ra, double value[WEATHER_VARS])
{
    for (int v = 0; v < WEATHER_VARS; v++) {
        value[v] = NAN;
    }
    value[WEATHER_TMIN] = past->low;
    value[WEATHER_TMAX] = past->high;
    value[WEATHER_RAD] = past->clearness * ra;
    value[WEATHER_RAIN] = 0;
}

static void persist(const struct lately *past, const struct site *site, double ra, double value[WEATHER_VARS])
{
    resemble(past, ra, value);
    work_out_et0(value, site, ra);
}

/* Days of the table before `date`. */
static size_t days_before(const struct weather_days *w, date_t date)
{
    if (date <= w->day0) {
        return 0;
    }
    size_t n = (size_t)(date - w->day0);
    return n < w->n ? n : w->n;
}

void weather_persist(const struct weather_days *w, const struct site *site, date_t today, date_t date,
                     double value[WEATHER_VARS])
{
    struct lately past = look_back(w, site, days_before(w, today));
    persist(&past, site, extraterrestrial(w, site, date), value);
}

/* There, and foretold. */
static bool is_forecast(const struct weather_days *w, date_t date)
{
    return date >= w->day0 && date - w->day0 < (date_t)w->n && w->origin[date - w->day0] == ORIGIN_FORECAST;
}

/* Today, of which no forecast tells. */
static void assume_today(const struct weather_days *w, const struct site *site, date_t today, const struct lately *past,
                         double value[WEATHER_VARS])
{
    size_t i = days_before(w, today);
    double ra = extraterrestrial(w, site, today);
    resemble(past, ra, value);
    if (today >= w->day0 && i < w->n && w->origin[i] == ORIGIN_RECORDED) {
        value[WEATHER_TMIN] = weather_at(w, WEATHER_TMIN, i); /* the night is over: its minimum has been read */
        value[WEATHER_TMAX] = fmax(value[WEATHER_TMAX], value[WEATHER_TMIN]);
    }
    work_out_et0(value, site, ra);
}

void weather_known(const struct weather_days *w, const struct site *site, date_t today, struct weather_morning *m)
{
    size_t i = days_before(w, today);
    bool told = is_forecast(w, today), tomorrow_told = is_forecast(w, today + 1);
    m->assumed = !told || !tomorrow_told;
    struct lately past = m->assumed ? look_back(w, site, i) : (struct lately){0};
    if (told) {
        for (int v = 0; v < WEATHER_VARS; v++) {
            m->value[v] = weather_at(w, (enum weather_var)v, i);
        }
    } else {
        assume_today(w, site, today, &past, m->value);
    }
    m->tmin_after = tomorrow_told ? weather_at(w, WEATHER_TMIN, (size_t)(today + 1 - w->day0)) : past.low;
}

enum err_code weather_assume(struct weather_days *w, const struct site *site, date_t last, struct arena *a,
                             struct err *e)
{
    struct weather_days longer;
    size_t have = w->n;
    if (have == 0 || last < w->day0 + (date_t)have) {
        return ERR_OK;
    }
    if (!weather_days_lengthen(&longer, w, (size_t)(last - w->day0) + 1, a)) {
        return err_set(e, ERR_NOMEM, "out of memory while extending weather");
    }
    struct lately past = look_back(w, site, have);
    for (size_t i = have; i < longer.n; i++) {
        double value[WEATHER_VARS];
        date_t date = w->day0 + (date_t)i;
        double ra = extraterrestrial(w, site, date);
        persist(&past, site, ra, value);
        longer.origin[i] = ORIGIN_ASSUMED;
        longer.filled[i] = (uint8_t)weather_days_vars(w);
        if (longer.air) {
            longer.air[i] = ra;
            longer.day_length_h[i] = sun_fao_day_length(date_day_of_year(date), site->latitude);
        }
        for (int v = 0; v < WEATHER_VARS; v++) {
            if (longer.col[v]) {
                longer.col[v][i] = value[v];
            }
        }
    }
    *w = longer;
    return ERR_OK;
}
