/* Doubts about recorded weather: named, never mended here.
 *
 * Only recorded values are looked at (origin ORIGIN_RECORDED, the cell not filled).
 * Nothing is changed by these checks. What weather_complete does not believe
 * (radiation above the extraterrestrial, none by day, a minimum above its maximum) is
 * named here in the same words.
 *
 * How: each temperature is compared with the record's own distribution at that time of
 * the year, and with what the days on both sides, the other temperature, sunshine,
 * humidity, wind and rain of the day lead one to expect (a regression fitted to the
 * record itself). A doubtful value that fits after x10, /10, a change of unit, sign or
 * place is given that name. All limits: models/weather-limits.json.
 *
 * What daily data cannot show: hours of the day, so a clock or zone some hours off; a
 * rain ten times too high that is still an ordinary rain (about half are found); a sign
 * lost from -1 C; a fault as old as the record. Values on the wrong day are seen only
 * where sunshine or humidity is there to compare with, and over weeks. How much is
 * found, and how often an honest day is doubted: tests/science/test_quality_scored.c.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_QUALITY_H
#define SUGARLEA_WEATHER_QUALITY_H

#include "base/err.h"
#include "base/units.h"
#include "data/quality_limits.h"
#include "data/site.h"
#include "data/weather_days.h"

/* What is doubted. `value` is the value in doubt; `other` depends on the kind. */
enum doubt_kind {
    DOUBT_MISSING,     /* no value, date to last; var WEATHER_VARS: of no variable at all */
    DOUBT_CROSSED,     /* value: minimum, other: maximum below it; the day's temperatures are not used */
    DOUBT_IMPOSSIBLE,  /* beyond what is measured on earth; other: the limit */
    DOUBT_UNUSUAL,     /* far outside the record's values of that season; other: the season's middle */
    DOUBT_STEP,        /* unlike the days beside it; other: what they lead one to expect */
    DOUBT_TENTHS,      /* fits when multiplied or divided by ten; other: that value */
    DOUBT_FAHRENHEIT,  /* fits when read as Fahrenheit; other: that value in C */
    DOUBT_SIGN,        /* fits with the other sign; other: that value */
    DOUBT_FROZEN,      /* the same value on successive days, date to last; other: how many days */
    DOUBT_DOUBLED,     /* every variable as on the day before; value: Tmin */
    DOUBT_SHIFTED,     /* Tmax and rain (var WEATHER_RAIN: rain) of date to last fit better on another day; value:
                          days that they stand too late (1) or too early (-1); other: score */
    DOUBT_ABOVE_AIR,   /* radiation above the extraterrestrial (other): not used */
    DOUBT_DARK,        /* radiation of none by day: not used; other: the extraterrestrial */
    DOUBT_ABOVE_CLEAR, /* radiation well above that of a clear sky (other) */
    DOUBT_RAIN,        /* more rain than the record lets expect on such a day; other: that limit */
    DOUBT_WIND_HEIGHT, /* value: mean wind of date to last, too high for 2 m; other: brought down from 10 m */
    DOUBT_KINDS
};

struct doubt {
    date_t date, last; /* last = date unless said above */
    enum weather_var var;
    enum doubt_kind kind;
    double value, other; /* units of the variable; NaN: none */
};

struct quality {
    struct doubt *doubt; /* n, by date, then variable; at most LIMIT_DOUBTS */
    size_t n;
    size_t total;                /* found, also those beyond LIMIT_DOUBTS */
    size_t of_kind[DOUBT_KINDS]; /* found */
};

/* Checks a table before weather_complete. Needs the latitude for radiation (unknown:
 * those checks are left out). Statistics need limits->least_days recorded days of a
 * variable; below that only range, crossing, radiation and exact copies are checked.
 * Memory is the arena's. ERR_NOMEM. */
enum err_code quality_check(const struct weather_days *w, const struct site *site, const struct quality_limits *limits,
                            struct arena *a, struct quality *q, struct err *e);

/* "swapped", "step", "frozen", ...: stable, for machines. */
const char *quality_id(enum doubt_kind kind);

/* One plain sentence for a keeper, metric, without the closing full stop's newline:
 * "12 March 2018: the minimum of -4.0 C is 14.0 C below what the days beside it lead
 * one to expect; look at it." Returns text, which has LIMIT_TEXT bytes at least. */
char *quality_text(const struct doubt *d, enum units u, char *text, size_t size);

#endif
