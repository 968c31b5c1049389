/* Errors planted in a clean record as they occur in real ones, and whether the checks
 * find them. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TEST_PLANTING_H
#define SUGARLEA_TEST_PLANTING_H

#include "weather/quality.h"
#include "weather/weather.h"

enum plant_kind {
    PLANT_STEP,       /* one temperature of a day, 3 standard deviations of its day-to-day change away */
    PLANT_FROZEN,     /* one temperature stands still: 5 days of one value */
    PLANT_SWAPPED,    /* Tmin and Tmax exchanged */
    PLANT_TENTHS,     /* both temperatures without their decimal point (x 10), or with one too many (/ 10), in turn */
    PLANT_FAHRENHEIT, /* both temperatures in F */
    PLANT_SIGN,       /* a Tmin of -3 C or less without its minus sign */
    PLANT_SHIFTED, /* 20 days whose Tmax and rain stand one day late, as one who books on the day of reading has them */
    PLANT_DOUBLED, /* a day with every value of the day before */
    PLANT_RADIATION,                  /* 1.2 times the extraterrestrial */
    PLANT_RAIN,                       /* a rain of 1 mm or more without its decimal point (x 10) */
    PLANT_COUNTED,                    /* those above are the ten that are counted; those below are told beside them */
    PLANT_SMALL_SIGN = PLANT_COUNTED, /* a Tmin of -0.1 to -2.9 C without its minus sign */
    PLANT_LATE,                       /* Tmax and rain of one day are those of the day before */
    PLANT_KINDS
};
extern const char *const plant_names[PLANT_KINDS];

struct plant {
    enum plant_kind kind;
    size_t first, last; /* days of the table */
    bool found;
};

/* Plants `each` errors of every kind of `kinds` (bits) at places drawn from the seed, with days of rest
 * between; returns how many, at most `room`. */
size_t plant_errors(struct weather_days *w, const struct site *site, unsigned kinds, size_t each,
                    unsigned long long seed, struct plant *plants, size_t room);

/* Marks what a doubt names: the day, or for steps and shifts one beside it. A doubt
 * about more than 90 days at once names no day. */
void plant_look(const struct quality *q, date_t day0, struct plant *plants, size_t n);

/* Days that a doubt names, gaps apart, and that lie 2 days or more from any plant. */
size_t plant_false_alarms(const struct quality *q, const struct weather_days *w, const struct plant *plants, size_t n);

#endif
