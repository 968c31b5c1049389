/* The flags of the Canadian weather service. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_CANADIAN_FLAG_H
#define SUGARLEA_WEATHER_CANADIAN_FLAG_H

#include <stdbool.h>
#include <stddef.h>

/* Why a flag takes a value back, for people. */
#define CANADIAN_FLAG_WHY "sums of several days, or amounts that the service does not call certain"

/* Judges the flag of *x (a csv_cell_reader). The legend of an old file explains them; B
 * (more than one occurrence and estimated) is from memory. */
bool canadian_flag(const char *text, size_t n, double *x);

#endif
