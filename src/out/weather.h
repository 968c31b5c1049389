/* sugarlea weather: what weather there is, for people and for machines.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_WEATHER_H
#define SUGARLEA_OUT_WEATHER_H

#include "out/text.h"
#include "weather/quality.h"
#include "weather/sources.h"

struct weather_view {
    const char *holding; /* its name; "" none */
    date_t date;         /* the morning that ages count to */
    const struct sources *sources;
    const struct weather_days *read;  /* as merged */
    const struct weather_days *whole; /* after filling; NULL: it could not be filled */
    enum units units;                 /* of the text */
    const char *stops;                /* why no advice can be given on it; "" one can */
    const struct quality *quality;
    size_t notes; /* sentences about whole sources */
    const char *const *note;
};

/* True when day i lacks what an advice rests on: Tmin, Tmax or rain. */
bool weather_lacks(const struct weather_days *w, size_t i);

/* The days of `read` by what stands on them in the end. */
struct weather_count {
    size_t recorded, forecast, filled, missing;
};
void weather_count(const struct weather_view *v, struct weather_count *n);

void weather_text(const struct weather_view *v, bool colour, int width, struct buf *b);
/* Only what went wrong: why there can be no advice, which source failed; nothing when all is well. */
void weather_troubles(const struct weather_view *v, const struct page *page);
void weather_json(const struct weather_view *v, struct buf *b);

/* All days as merged, nothing filled in: date, origin, and the columns there are. */
void weather_csv(const struct weather_view *v, struct buf *b);

#endif
