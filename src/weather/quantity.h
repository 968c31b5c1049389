/* What a weather variable may be called, in which units it comes, and which values
 * of it are possible. Shared by all layouts. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_QUANTITY_H
#define SUGARLEA_WEATHER_QUANTITY_H

#include "data/weather_days.h"

#define WIND_10M_TO_2M 0.748 /* FAO-56 Eq. 47, 4.87 / ln(67.8 * 10 - 5.42), as its text rounds it */

/* Columns that a table may have. */
enum column_role {
    ROLE_IGNORE, /* not known, not used */
    ROLE_VALUE,  /* a weather variable */
    ROLE_DATE,
    ROLE_YEAR,
    ROLE_MONTH,
    ROLE_DAY,
    ROLE_DAY_OF_YEAR,
    ROLE_SITE,
    ROLE_LATITUDE,
    ROLE_LONGITUDE,
    ROLE_ELEVATION,
    ROLE_FLAG, /* says more about a value; only layouts know such columns */
    ROLE_COUNT
};

/* Physical range in our units, and the range in the words of a message. */
struct quantity_range {
    double low, high;
    double usual_low, usual_high; /* quantity_judge leaves as it is what lies within */
    const char *allowed;          /* "-90 to 60 C" */
};
const struct quantity_range *quantity_range(enum weather_var v);

/* value_in_our_unit = read * scale + offset */
struct quantity_unit {
    double scale, offset;
};

/* A name taken apart. */
struct quantity_name {
    enum column_role role;
    enum weather_var var; /* of ROLE_VALUE */
    bool weak;            /* gives way to another column of the same role */
    bool stated;          /* the name held its unit */
    struct quantity_unit unit;
    char bad_unit[32]; /* text in brackets that is no unit of var; "" when all is well */
};

/* Takes a column name apart: case, blanks and signs do not count; a unit may follow
 * in brackets or after an underscore (tmax_f, "Rain (inch)", "wind 10 m [km/h]").
 * Without a unit ours is assumed: C, mm, MJ/m2, %, m/s. Wind is brought from 10 m to
 * 2 m by 0.748 (FAO-56 Eq. 47) when the name says 10 m, else it is taken as at 2 m. */
struct quantity_name quantity_of_name(const char *text, size_t n);

/* The unit that text names for v; false when it is none of v's. */
bool quantity_unit_of(enum weather_var v, const char *text, size_t n, struct quantity_unit *unit);
const char *quantity_units_allowed(enum weather_var v);

/* Blank, NA, NaN, null, - and the like. */
bool quantity_is_missing_text(const char *text, size_t n);

enum quantity_verdict { QUANTITY_GOOD, QUANTITY_MISSING, QUANTITY_IMPOSSIBLE };

/* Judges a value read as `raw` that is *x in our unit: *x is set to NaN when raw is
 * one of the usual codes for missing (-999, -99.9, 9999 ...) and *x not usual;
 * humidity from 100 to 110 % is cut to 100. */
enum quantity_verdict quantity_judge(enum weather_var v, double raw, double *x);

#endif
