/* Closing gaps in one column. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_GAPS_H
#define SUGARLEA_WEATHER_GAPS_H

#include "base/err.h"
#include "data/weather_days.h"

struct gap_rules {
    size_t fill_days;   /* gaps up to so long are closed from their ends */
    size_t recent_from; /* index of the day from which a longer gap is refused */
};

/* Closes all gaps of Tmin, Tmax or rain. A short gap: temperature along the line
 * between its ends, rain as none. A longer one, when it lies before the recent
 * stretch: the mean of the record within 7 days of that day of the year; by_normals[i]
 * is set. The filled bits are set. ERR_NOINPUT names a gap that cannot be closed. */
enum err_code gaps_close(struct weather_days *w, enum weather_var v, const struct gap_rules *rules,
                         unsigned char *by_normals, struct err *e);

#endif
