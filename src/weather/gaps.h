/* Closing gaps of temperature and rain. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_GAPS_H
#define SUGARLEA_WEATHER_GAPS_H

#include "base/err.h"
#include "data/weather_days.h"

struct gap_rules {
    size_t fill_days;   /* gaps up to so long are closed from their ends */
    size_t record_end;  /* index after the last recorded day: beyond it stand forecasts */
    size_t ahead_days;  /* a gap that reaches beyond record_end may be so long: its far end is forecast */
    size_t recent_from; /* index of the day from which a longer gap is refused */
    size_t told_from;   /* index of the day from which what was put in is summed up */
};

struct gap_sum { /* of the values put in from day told_from on */
    size_t days;
    double sum, variance; /* the days' variances about the usual, added: days taken as independent */
};

/* Closes all gaps of Tmin, Tmax or rain. The filled bits are set.
 *
 * A short gap of temperature: its departures from what is usual on those days of the
 * year (means of the record within 7 days) are carried over from both ends and fade
 * between them as fast as the record's own departures do (a first-order
 * autoregression, whose best interpolation this is); where the other temperature was
 * read on the day, its departure counts first. With hardly more than a year of record:
 * the line between the ends.
 *
 * A short gap of rain: what is usual, that is how often it rains at that time of the
 * year times how much, raised or lowered by the ends (a wet day is likelier beside a
 * wet day). Without any rain read within 7 days of that day of any year: none.
 *
 * A longer gap, when it lies before the recent stretch: what is usual, temperatures
 * with the other one's departure where it was read; by_normals[i] is set. ERR_NOINPUT
 * names a gap that cannot be closed. put_in (which may be NULL) is added to. */
enum err_code gaps_close(struct weather_days *w, enum weather_var v, const struct gap_rules *rules,
                         unsigned char *by_normals, struct gap_sum *put_in, struct err *e);

#endif
