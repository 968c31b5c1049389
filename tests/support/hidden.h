/* Real days hidden in gaps of 1 to 5 days, filled by weather_complete, and compared
 * with what was measured. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TEST_HIDDEN_H
#define SUGARLEA_TEST_HIDDEN_H

#include "weather/weather.h"

enum hide_kind { HIDE_DAYS /* all variables */, HIDE_ONE_TEMPERATURE, HIDE_RAIN, HIDE_RADIATION, HIDE_KINDS };
enum hide_way { WAY_OURS, WAY_LINE, WAY_LAST, WAY_NOTHING /* 0 */, HIDE_WAYS };

struct error_of {
    size_t n;
    double absolute, square, sum; /* of estimate minus measured */
};

struct hidden {
    struct error_of error[HIDE_WAYS][WEATHER_VARS]; /* Tmin, Tmax, rain, radiation where hidden */
    double total[WEATHER_VARS];                     /* of what was measured on those days */
    struct weather_report report;                   /* of the last filling */
    double rain_last_year;                          /* measured on the hidden days of its last 365 */
};

/* Hides and fills, and adds to h, which starts as zeros; the gaps are drawn from the
 * seed, some days of rest between. */
enum err_code hidden_score(const char *path, const struct site *site, const struct advice_limits *limits,
                           enum hide_kind kind, unsigned long long seed, struct hidden *h, struct err *e);

double hidden_mae(const struct hidden *h, enum hide_way way, enum weather_var v);
double hidden_rmse(const struct hidden *h, enum hide_way way, enum weather_var v);
double hidden_bias(const struct hidden *h, enum hide_way way, enum weather_var v);

/* One line a variable and way. */
void hidden_print(const struct hidden *h, enum hide_kind kind);

#endif
