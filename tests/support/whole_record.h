/* A whole record run through a grazed sward. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_WHOLE_RECORD_H
#define SUGARLEA_TESTS_WHOLE_RECORD_H

#include "support/daily.h"

struct whole_record {  /* means of the calendar months, 0 January */
    double nsc[12];    /* g/kg, of the daily means */
    double growth[12]; /* structure, kg DM/ha/d */
    size_t days;       /* counted */
};

/* Ryegrass held by grazing at 1,800 kg DM/ha cover, 120 mm, nitrogen 1, no snow rule;
 * the first year is dropped. */
struct whole_record whole_record_run(const struct daily *d, double latitude);

#endif
