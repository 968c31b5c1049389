/* Checks that the tests of all weather layouts share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TEST_LAYOUT_CASE_H
#define SUGARLEA_TEST_LAYOUT_CASE_H

#include "support/weather_text.h"

/* Reads text and fails the test unless this layout knew and read it as one site. */
void layout_good(struct weather_text *t, const char *text, const char *layout);

/* The value of v on an ISO date of the first site; NaN: none is expected. */
void layout_value(const struct weather_text *t, const char *date, enum weather_var v, double expected);

/* The days of the first site. */
void layout_span(const struct weather_text *t, const char *first, const char *last);

/* A faulty file, the line that is named, and a part of what is said. */
struct layout_fault {
    const char *text;
    size_t line;
    const char *said;
};
void layout_faults(const struct layout_fault *fault, size_t n);

/* A JSON answer that must be refused: the path that is named, and a part of what is
 * said. All of it stands on the first line. */
struct json_fault {
    const char *text, *field, *said;
};
void json_faults(const struct json_fault *fault, size_t n);

/* One value of a text, and one refusal, in a line each. NaN: none is expected. */
void layout_day_is(const char *text, const char *date, enum weather_var v, double x);
void layout_refused(const char *text, size_t line, const char *field, const char *said);

#endif
