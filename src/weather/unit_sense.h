/* Which units does a file have that does not say? Told by its values, or not at all.
 *
 * United States daily summaries come in three readings, and the same number means
 * three things: "48" is 48 C, 48 F or 4.8 C. Every site of the file is looked at once
 * and features are counted: maxima above what is possible, numbers with hundredths,
 * nights as warm as their days ... A table (unit_rules.c) says against which reading a
 * feature speaks and with how many points. A reading with UNIT_SENSE_OUT points is out,
 * and one is taken when it is not out, each other has so many points more, and neither
 * temperature nor rain nor wind would rather have another. Else none is: a wrong unit
 * makes grass grow in winter. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_UNIT_SENSE_H
#define SUGARLEA_WEATHER_UNIT_SENSE_H

#include "data/site.h"
#include "weather/quantity.h"
#include "weather/weather.h"

#define UNIT_READINGS (UNITS_TENTHS + 1) /* by enum weather_units; that of UNITS_UNSAID is not used */
#define UNIT_SENSE_OUT 100               /* points with which a reading is out */

/* What is counted, for each reading. Those of temperature come first, then rain, then wind. */
enum unit_feature {
    T_VALUES,       /* Tmin, Tmax and dew points */
    T_WHOLE,        /* of T_VALUES: whole numbers */
    T_BROKEN,       /* of T_VALUES: the others */
    T_IMPOSSIBLE,   /* of T_VALUES: outside quantity_range */
    T_GRID_VALUES,  /* T_VALUES, with decimals when metric, of a station that reads whole degrees F */
    T_OFF_GRID,     /* of T_GRID_VALUES: no whole degree F makes this number */
    T_PAIRS,        /* days with Tmin and Tmax */
    T_EVEN,         /* of T_PAIRS: less than 2 C apart */
    T_NARROW,       /* of T_PAIRS: less than 4 C apart */
    T_WIDE,         /* of T_PAIRS: more than 28 C apart */
    T_STEPS,        /* days with a Tmax the day before */
    T_STILL,        /* of T_STEPS: less than 0.5 C from it */
    T_SUN_DAYS,     /* Tmax where the latitude is known */
    T_TOO_WARM,     /* of T_SUN_DAYS: warmer than the sun of the day allows */
    T_SUMMER_DAYS,  /* Tmax of high sun in the lowlands below 45 degrees */
    T_TOO_COLD,     /* of T_SUMMER_DAYS: below 12 C */
    R_DAYS,         /* with a value of rain */
    R_IMPOSSIBLE,   /* of R_DAYS: outside quantity_range */
    R_HUGE,         /* of R_DAYS: above 400 mm */
    R_WET,          /* of R_DAYS: above 0 */
    R_WHOLE,        /* of R_WET: whole numbers */
    R_BROKEN,       /* of R_WET: the others */
    R_NO_HUNDREDTH, /* of R_WET: no second decimal */
    R_HUNDREDTH,    /* of R_WET: the others */
    R_SITES,        /* with a year of rain */
    R_UNUSUAL,      /* of R_SITES: below 100 or above 4000 mm a year */
    R_UNHEARD,      /* of R_SITES: below 10 or above 12000 mm a year */
    W_DAYS,         /* with a mean wind above 0 */
    W_IMPOSSIBLE,   /* of W_DAYS: a mean above 40 m/s */
    W_STORM,        /* of W_DAYS: a mean above 15 m/s */
    W_WHOLE,        /* of W_DAYS: whole numbers */
    W_BROKEN,       /* of W_DAYS: the others */
    W_NO_HUNDREDTH, /* of W_DAYS: no second decimal */
    W_HUNDREDTH,    /* of W_DAYS: the others */
    UNIT_FEATURES
};

struct unit_counts {
    struct quantity_unit unit[UNIT_READINGS][WEATHER_VARS];
    size_t of[UNIT_READINGS][UNIT_FEATURES];
};

/* `among` many were looked at, of which a `share` shows the feature, or more: half of
 * UNIT_SENSE_OUT points against the readings when `few` were looked at, all when `many`. */
struct unit_rule {
    enum unit_feature feature, among;
    double share;
    size_t few, many;
    unsigned against; /* bits of enum weather_units; each reading is judged by its own counts */
    const char *why;  /* "its temperatures are not whole numbers" */
};
extern const struct unit_rule unit_rules[];
extern const size_t unit_rule_count;

/* Scale and offset from a number of the file to C, mm, %, m/s at the height of the gauge. */
struct quantity_unit unit_sense_unit(enum weather_units units, enum weather_var v);

/* unit_count.c: zeros, and the units. */
void unit_sense_start(struct unit_counts *c);

/* Counts the days of one site, which hold numbers as the file has them. whole_f: the
 * station reads whole degrees F, whatever it reports in. */
void unit_sense_count(struct unit_counts *c, const struct weather_days *raw, const struct site *place, bool whole_f);

struct unit_verdict {
    enum weather_units units; /* UNITS_UNSAID: the file does not tell */
    char text[400];           /* why so; or what each variable looks like */
};
void unit_sense_judge(const struct unit_counts *c, struct unit_verdict *verdict);

#endif
