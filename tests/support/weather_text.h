/* Reading weather from text in a test. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TEST_WEATHER_TEXT_H
#define SUGARLEA_TEST_WEATHER_TEXT_H

#include "weather/weather.h"

/* A reading of text as the file "w.csv". Released by weather_text_release. */
struct weather_text {
    struct arena arena;
    struct weather_set set;
    struct err err;
    enum err_code code;
};

void weather_text_read(struct weather_text *t, const char *text);
void weather_text_read_hinted(struct weather_text *t, const char *text, const struct weather_hints *h);
void weather_text_read_bytes(struct weather_text *t, const char *bytes, size_t n);
void weather_text_release(struct weather_text *t);

/* The value of v on an ISO date of the only site; NaN outside the table. */
double weather_text_at(const struct weather_text *t, const char *date, enum weather_var v);

#endif
