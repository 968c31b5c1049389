/* A table made complete for the model. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "physics/et0.h"
#include "physics/sun.h"
#include "weather/crossed.h"
#include "weather/gap_normals.h"
#include "weather/gaps.h"
#include "weather/weather.h"

#include <math.h>

#define K_RS                                                                                                           \
    0.16 /* FAO-56 Eq. 50, inland; fits at eight records of all climates lay between 0.14 and 0.16, coasts too:        \
            computed by us */
#define K_RS_LOW 0.10 /* a record that fits outside these has something else in its column: our judgement */
#define K_RS_HIGH 0.25
#define YEAR_DAYS 365
#define RA_OF_A_DAY 1.0 /* MJ/m2/d of sun above the air: with more, no day is without any light below it */

static bool present(const struct weather_days *w, enum weather_var v)
{
    for (size_t i = 0; w->col[v] && i < w->n; i++) {
        if (!isnan(w->col[v][i])) {
            return true;
        }
    }
    return false;
}

static enum err_code check_needed(const struct weather_days *w, const struct site *site, struct err *e)
{
    if (isnan(site->latitude)) {
        return err_set(e, ERR_NOINPUT, "the latitude is not known, and the sun cannot be worked out without it");
    }
    if (!present(w, WEATHER_TMIN) || !present(w, WEATHER_TMAX)) {
        return err_set(e, ERR_NOINPUT, "the weather has no minimum and maximum temperature (tmin_c, tmax_c)");
    }
    if (!present(w, WEATHER_RAIN)) {
        return err_set(e, ERR_NOINPUT,
                       "the weather has no rain (rain_mm): without it the water in the soil cannot be followed, nor "
                       "drought, which raises sugar; add a file with the rain of the place");
    }
    return ERR_OK;
}

static bool has_temperature(const struct weather_days *w, size_t i)
{
    return !isnan(w->col[WEATHER_TMIN][i]) && !isnan(w->col[WEATHER_TMAX][i]);
}

/* Days before the first and after the last with both temperatures say nothing that the
 * model can use. */
static enum err_code trim(struct weather_days *w, struct err *e)
{
    size_t first = 0, after = w->n;
    while (first < after && !has_temperature(w, first)) {
        first++;
    }
    while (after > first && !has_temperature(w, after - 1)) {
        after--;
    }
    if (first == after) {
        return err_set(e, ERR_NOINPUT, "no day of the weather has both minimum and maximum temperature");
    }
    for (int v = 0; v < WEATHER_VARS; v++) {
        w->col[v] = w->col[v] ? w->col[v] + first : NULL;
    }
    w->origin += first;
    w->filled += first;
    w->day0 += (date_t)first;
    w->n = after - first;
    return ERR_OK;
}

static enum err_code add_column(struct weather_days *w, enum weather_var v, struct arena *a, struct err *e)
{
    if (w->col[v]) {
        return ERR_OK;
    }
    w->col[v] = arena_alloc(a, w->n, sizeof *w->col[v]);
    if (!w->col[v]) {
        return err_set(e, ERR_NOMEM, "out of memory while completing weather");
    }
    for (size_t i = 0; i < w->n; i++) {
        w->col[v][i] = NAN;
    }
    return ERR_OK;
}

static void report_span(const struct weather_days *w, struct weather_report *report)
{
    *report = (struct weather_report){.recorded_to = DATE_NONE, .forecast_to = DATE_NONE};
    for (size_t i = 0; i < w->n; i++) {
        date_t date = w->day0 + (date_t)i;
        if (has_temperature(w, i) && w->origin[i] == ORIGIN_RECORDED) {
            report->recorded_to = date;
        } else if (has_temperature(w, i) && w->origin[i] == ORIGIN_FORECAST) {
            report->forecast_to = date;
        }
    }
}

/* Rain that a forecast does not tell is taken as none, however long it is. */
static void dry_forecast(struct weather_days *w)
{
    for (size_t i = 0; i < w->n; i++) {
        if (w->origin[i] == ORIGIN_FORECAST && isnan(w->col[WEATHER_RAIN][i])) {
            w->col[WEATHER_RAIN][i] = 0;
            w->filled[i] |= 1u << WEATHER_RAIN;
        }
    }
}

/* An estimate may cross the measured other end of the day: the measured one stands. */
static void uncross(struct weather_days *w)
{
    double *low = w->col[WEATHER_TMIN], *high = w->col[WEATHER_TMAX];
    for (size_t i = 0; i < w->n; i++) {
        if (low[i] > high[i]) {
            bool low_estimated = w->filled[i] >> WEATHER_TMIN & 1;
            *(low_estimated ? &low[i] : &high[i]) = low_estimated ? high[i] : low[i];
        }
    }
}

static void mark_days(struct weather_days *w, const unsigned char *by_normals, struct weather_report *report)
{
    const unsigned needed = 1u << WEATHER_TMIN | 1u << WEATHER_TMAX | 1u << WEATHER_RAIN;
    for (size_t i = 0; i < w->n; i++) {
        if (by_normals[i]) {
            w->origin[i] = ORIGIN_NORMAL;
            report->missing_days++;
        } else if (w->filled[i] & needed && w->origin[i] != ORIGIN_FORECAST) {
            w->origin[i] = ORIGIN_FILLED;
            report->filled_days++;
        }
    }
}

/* Index of the day so many before the end of what is recorded. */
static size_t before_end(const struct weather_days *w, const struct weather_report *report, size_t days)
{
    size_t end = report->recorded_to == DATE_NONE ? w->n : (size_t)(report->recorded_to - w->day0) + 1;
    return end > days ? end - days : 0;
}

static enum err_code close_gaps(struct weather_days *w, const struct advice_limits *limits, struct arena *a,
                                struct weather_report *report, struct err *e)
{
    static const enum weather_var vars[] = {WEATHER_TMIN, WEATHER_TMAX, WEATHER_RAIN};
    unsigned char *by_normals = arena_alloc(a, w->n, 1);
    if (!by_normals) {
        return err_set(e, ERR_NOMEM, "out of memory while completing weather");
    }
    struct gap_rules rules = {.fill_days = (size_t)limits->gap_fill_days,
                              .record_end = before_end(w, report, 0),
                              .ahead_days = (size_t)fmax(limits->gap_fill_days, limits->stale_refuse_days + 1),
                              .recent_from = before_end(w, report, (size_t)limits->gap_recent_days),
                              .told_from = before_end(w, report, YEAR_DAYS)};
    struct gap_sum rain = {0, 0, 0};
    dry_forecast(w);
    for (size_t k = 0; k < sizeof vars / sizeof vars[0]; k++) {
        enum err_code code = gaps_close(w, vars[k], &rules, by_normals, vars[k] == WEATHER_RAIN ? &rain : NULL, e);
        if (code != ERR_OK) {
            return code;
        }
    }
    report->rain_days = rain.days;
    report->rain_mm = rain.sum;
    report->rain_sd_mm = sqrt(rain.variance);
    uncross(w);
    mark_days(w, by_normals, report);
    return ERR_OK;
}

/* More light below the air than above it, or none by day, is a fault of the
 * instrument: taken as missing. */
static void drop_impossible(struct weather_days *w, const double *air, struct weather_report *report)
{
    double *rad = w->col[WEATHER_RAD];
    for (size_t i = 0; i < w->n; i++) {
        if (rad[i] > air[i] || (rad[i] <= 0 && air[i] > RA_OF_A_DAY)) {
            rad[i] = NAN;
            report->doubtful_rad_days++;
        }
    }
}

/* FAO-56 Eq. 50's factor by the record's own days with radiation and both temperatures
 * read: the ratio of the sums, so that what is estimated is right in the mean. */
static double fit_k_rs(const struct weather_days *w, const double *air, double least_days)
{
    double measured = 0, range = 0, days = 0;
    for (size_t i = 0; i < w->n; i++) {
        if (gap_read(w, WEATHER_RAD, i) && gap_read(w, WEATHER_TMIN, i) && gap_read(w, WEATHER_TMAX, i)) {
            measured += w->col[WEATHER_RAD][i];
            range += sqrt(w->col[WEATHER_TMAX][i] - w->col[WEATHER_TMIN][i]) * air[i];
            days++;
        }
    }
    return days >= fmax(least_days, 1) && range > 0 ? num_clip(measured / range, K_RS_LOW, K_RS_HIGH) : K_RS;
}

static bool lay_out_sun(struct weather_days *w, double latitude, struct arena *a)
{
    struct sun_year year;
    w->air = arena_alloc(a, w->n, sizeof *w->air);
    w->day_length_h = arena_alloc(a, w->n, sizeof *w->day_length_h);
    if (!w->air || !w->day_length_h) {
        return false;
    }
    sun_year_begin(&year, w->day0, latitude);
    for (size_t i = 0; i < w->n; i++) {
        struct sun_over over = sun_year_next(&year);
        w->air[i] = over.ra;
        w->day_length_h[i] = over.day_length_h;
    }
    return true;
}

static enum err_code complete_radiation(struct weather_days *w, const struct site *site, double elevation,
                                        const struct advice_limits *limits, struct arena *a,
                                        struct weather_report *report, struct err *e)
{
    if (!lay_out_sun(w, site->latitude, a)) {
        return err_set(e, ERR_NOMEM, "out of memory while completing weather");
    }
    const double *air = w->air;
    double *rad = w->col[WEATHER_RAD];
    drop_impossible(w, air, report);
    report->k_rs = fit_k_rs(w, air, limits->k_rs_days);
    for (size_t i = 0; i < w->n; i++) {
        if (isnan(rad[i])) {
            rad[i] = sun_from_range(w->col[WEATHER_TMIN][i], w->col[WEATHER_TMAX][i], air[i], elevation, report->k_rs);
            w->filled[i] |= 1u << WEATHER_RAD;
            report->estimated_rad_days++;
        }
    }
    return ERR_OK;
}

static enum err_code complete_et0(struct weather_days *w, const struct site *site, double elevation, struct arena *a,
                                  struct err *e)
{
    double *out = arena_alloc(a, w->n, sizeof *out);
    if (!out) {
        return err_set(e, ERR_NOMEM, "out of memory while completing weather");
    }
    struct et0_columns in = {.tmin = w->col[WEATHER_TMIN],
                             .tmax = w->col[WEATHER_TMAX],
                             .rad = w->col[WEATHER_RAD],
                             .rh = w->col[WEATHER_RH],
                             .wind = w->col[WEATHER_WIND],
                             .tdew = w->col[WEATHER_TDEW],
                             .ra = w->air};
    et0_days(&in, w->n, w->day0, site->latitude, elevation, out);
    for (size_t i = 0; i < w->n; i++) {
        if (isnan(w->col[WEATHER_ET0][i])) {
            w->col[WEATHER_ET0][i] = out[i];
            w->filled[i] |= 1u << WEATHER_ET0;
        }
    }
    return ERR_OK;
}

enum err_code weather_complete(struct weather_days *w, const struct site *site, const struct advice_limits *limits,
                               struct arena *a, struct weather_report *report, struct err *e)
{
    double elevation = isnan(site->elevation_m) ? 0 : site->elevation_m;
    enum err_code code = check_needed(w, site, e);
    crossed_drop(w);
    code = code == ERR_OK ? trim(w, e) : code;
    code = code == ERR_OK ? add_column(w, WEATHER_RAD, a, e) : code;
    code = code == ERR_OK ? add_column(w, WEATHER_ET0, a, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    report_span(w, report);
    code = close_gaps(w, limits, a, report, e);
    if (code != ERR_OK) {
        return code;
    }
    code = complete_radiation(w, site, elevation, limits, a, report, e);
    return code == ERR_OK ? complete_et0(w, site, elevation, a, e) : code;
}
