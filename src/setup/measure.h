/* Amounts as people type them: "1.5 acres", "3,5 ha", "140lb".
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SETUP_MEASURE_H
#define SUGARLEA_SETUP_MEASURE_H

#include "base/err.h"

#include <stddef.h>

struct unit {
    const char *name; /* lower case */
    double factor;    /* to the first unit of its table */
};

/* Each table ends with a row without a name; its first row is the unit of a bare number. */
extern const struct unit units_area[], units_weight[], units_height[], units_tape[], units_length[], units_none[];

/* One amount that fills text, in the first unit of the table. A comma is a decimal comma
 * unless three digits follow it, which could be thousands: refused, like all that is not
 * understood, with ERR_USAGE and what may be typed. */
enum err_code measure_read(const char *text, const struct unit *units, double *value, struct err *e);

/* The number that begins text (a decimal comma as above), and where it ends; NULL when
 * none does. *unclear is set for a comma before three digits. */
const char *measure_number(const char *text, double *value, int *unclear);

#endif
