/* The morning advice, for people and for machines. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_TODAY_H
#define SUGARLEA_OUT_TODAY_H

#include "base/buf.h"
#include "season/drivers.h"

enum { TODAY_WARNINGS = 16 };

struct today_view {
    date_t date;
    const struct holding *holding;
    const struct run *run;       /* after run_morning of the date */
    const struct driver *driver; /* DRIVERS a paddock; NULL: the record is too short for normals */
    date_t recorded_to, forecast_to;
    int age_days;
    bool provisional, assumed;
    size_t filled_days;
    const char *origins[6];
    size_t n_origins;
    double clock_offset; /* hours to add to solar time */
    bool solar;          /* no time zone or longitude: times are solar */
    bool air_frost, ground_frost;
    size_t warnings;
    char warning[TODAY_WARNINGS][LIMIT_TEXT];
};

/* "05:10" of a solar hour, to ten minutes; text has 6 bytes. Returns text. */
char *today_clock(const struct today_view *v, double solar_h, char *text);

void today_text(const struct today_view *v, bool colour, int width, struct buf *b);
void today_json(const struct today_view *v, struct buf *b);
void today_csv(const struct today_view *v, struct buf *b);

/* Rows for advice-log.csv beside the holding. */
extern const char today_log_header[];
void today_log(const struct today_view *v, struct buf *b);

#endif
