/* Reference evapotranspiration: FAO-56 (Allen, Pereira, Raes & Smith 1998), pages
 * 51-76. SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/et0.h"

#include "base/date.h"
#include "base/num.h"
#include "physics/humidity.h"
#include "physics/sun.h"

#include <math.h>
#include <stdbool.h>

#define ALBEDO 0.23          /* of the reference grass, Eq. 38 */
#define SIGMA_DAY 4.903e-9   /* Stefan-Boltzmann, MJ/K4/m2/d, p. 52 */
#define SIGMA_HOUR 2.043e-10 /* the same per hour, p. 74 */
#define KELVIN 273.16        /* as printed, p. 52 */
#define MM_PER_MJ 0.408      /* Eq. 20 */
#define WIND_LEAST 0.5       /* m/s, p. 63 */
#define WIND_USUAL 2.0       /* m/s where nothing is known, p. 63 */
#define RATIO_LEAST 0.3      /* Rs/Rso under dense cloud, p. 75 */
#define RATIO_DARK 0.5       /* Rs/Rso without any sun, humid, p. 75 */
#define YEAR_MOST 366

static double fourth_power(double t)
{
    double square = (t + KELVIN) * (t + KELVIN);
    return square * square;
}

/* Eq. 39's last two factors: how much of the black body's emission is lost. */
static double emission_lost(double ea, double ratio)
{
    return (0.34 - 0.14 * sqrt(ea)) * (1.35 * ratio - 0.35);
}

/* Eq. 6 (per_k 900) and Eq. 53 (37). */
static void combine(struct et0_terms *e, double t, double wind2, double per_k)
{
    double u = wind2 < WIND_LEAST ? WIND_LEAST : wind2;
    double divisor = e->slope + e->gamma * (1 + 0.34 * u);
    e->rn = e->rns - e->rnl;
    e->radiation_term = MM_PER_MJ * e->slope * (e->rn - e->g) / divisor;
    e->wind_term = e->gamma * per_k / (t + 273) * u * (e->es - e->ea) / divisor;
    double sum = e->radiation_term + e->wind_term;
    e->et0 = sum < 0 ? 0 : sum;
}

static struct et0_terms day_terms(double tmin, double tmax, double rad, double ea, double es, double wind2,
                                  double gamma, double clear_share, double ra, double g)
{
    double t = (tmin + tmax) / 2;
    struct et0_terms e = {
        .slope = humidity_slope(t), .gamma = gamma, .es = es, .ea = ea, .ra = ra, .rso = clear_share * ra, .g = g};
    double ratio = e.rso > 0 ? num_clip(rad / e.rso, RATIO_LEAST, 1) : RATIO_DARK;
    e.rns = (1 - ALBEDO) * rad;
    e.rnl = SIGMA_DAY * (fourth_power(tmax) + fourth_power(tmin)) / 2 * emission_lost(ea, ratio);
    combine(&e, t, wind2, 900);
    return e;
}

struct et0_terms et0_day(double tmin, double tmax, double rad, double ea, double wind2, double elevation_m, double ra,
                         double g)
{
    return day_terms(tmin, tmax, rad, ea, humidity_mean_saturation(tmin, tmax), wind2,
                     humidity_psychrometric(humidity_pressure(elevation_m)), sun_clear_sky(1, elevation_m), ra, g);
}

struct et0_terms et0_hour(double t, double ea, double rad, double wind2, double elevation_m, double rso_ratio,
                          int daylight)
{
    struct et0_terms e = {.slope = humidity_slope(t),
                          .gamma = humidity_psychrometric(humidity_pressure(elevation_m)),
                          .es = humidity_saturation(t),
                          .ea = ea,
                          .ra = NAN,
                          .rso = NAN,
                          .rns = (1 - ALBEDO) * rad};
    e.rnl = SIGMA_HOUR * fourth_power(t) * emission_lost(ea, rso_ratio);
    e.g = (daylight ? 0.1 : 0.5) * (e.rns - e.rnl);
    combine(&e, t, wind2, 37);
    return e;
}

static double cell(const double *column, size_t i)
{
    return column ? column[i] : (double)NAN;
}

/* e_min: saturation at Tmin, which is Eq. 48's fall-back. */
static double actual_vapour(const struct et0_columns *in, size_t i, double es, double e_min)
{
    double tdew = cell(in->tdew, i), rh = cell(in->rh, i);
    double ea = !isnan(tdew) ? humidity_saturation(tdew) : !isnan(rh) ? rh / 100 * es : e_min;
    return ea > es ? es : ea;
}

/* Ra by day of year, worked out the first time a day comes up. */
struct ra_year {
    double latitude;
    double ra[YEAR_MOST + 1];
    bool made[YEAR_MOST + 1];
};

static double ra_on(struct ra_year *y, date_t today)
{
    int day = date_day_of_year(today);
    if (!y->made[day]) {
        y->ra[day] = sun_extraterrestrial(day, y->latitude);
        y->made[day] = true;
    }
    return y->ra[day];
}

void et0_days(const struct et0_columns *in, size_t n, int day0, double latitude, double elevation_m, double *out)
{
    double height = isnan(elevation_m) ? 0 : elevation_m;
    double gamma = humidity_psychrometric(humidity_pressure(height)), clear_share = sun_clear_sky(1, height);
    struct ra_year year = {.latitude = latitude};
    for (size_t i = 0; i < n; i++) {
        double tmin = in->tmin[i], tmax = in->tmax[i], wind = cell(in->wind, i);
        double e_min = humidity_saturation(tmin), es = (e_min + humidity_saturation(tmax)) / 2;
        double ea = actual_vapour(in, i, es, e_min), ra = ra_on(&year, day0 + (date_t)i);
        wind = isnan(wind) ? WIND_USUAL : wind;
        out[i] = day_terms(tmin, tmax, in->rad[i], ea, es, wind, gamma, clear_share, ra, 0).et0;
    }
}

double et0_wind_at_2m(double wind, double height_m)
{
    return wind * 4.87 / log(67.8 * height_m - 5.42);
}
