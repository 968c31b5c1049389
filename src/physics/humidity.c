/* Vapour pressure and its kin: FAO-56 (Allen, Pereira, Raes & Smith 1998), pages 31-39.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/humidity.h"

#include <assert.h>
#include <math.h>

double humidity_saturation(double t)
{
    return 0.6108 * exp(17.27 * t / (t + 237.3));
}

double humidity_mean_saturation(double tmin, double tmax)
{
    return (humidity_saturation(tmax) + humidity_saturation(tmin)) / 2;
}

double humidity_slope(double t)
{
    double kelvin_like = t + 237.3;
    return 4098 * humidity_saturation(t) / (kelvin_like * kelvin_like);
}

double humidity_pressure(double elevation_m)
{
    return 101.3 * pow((293 - 0.0065 * elevation_m) / 293, 5.26);
}

double humidity_psychrometric(double pressure)
{
    return 0.665e-3 * pressure;
}

double humidity_actual_wet(double t_dry, double t_wet, double pressure, double a_psy)
{
    return humidity_saturation(t_wet) - a_psy * pressure * (t_dry - t_wet);
}

double humidity_actual_extremes(double tmin, double tmax, double rh_min, double rh_max)
{
    return (humidity_saturation(tmin) * rh_max + humidity_saturation(tmax) * rh_min) / 200;
}

double humidity_actual_mean(double tmin, double tmax, double rh_mean)
{
    return rh_mean / 100 * humidity_mean_saturation(tmin, tmax);
}

double humidity_dew_point(double actual)
{
    assert(actual > 0);
    double l = log(actual);
    return (116.91 + 237.3 * l) / (16.78 - l);
}
