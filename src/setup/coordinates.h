/* A place as maps print it. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SETUP_COORDINATES_H
#define SUGARLEA_SETUP_COORDINATES_H

#include "base/err.h"

/* Latitude and longitude in one line, latitude first unless letters say otherwise:
 *   52.19, -2.71      52.19 N 2.71 W      52°11'24"N 2°42'36"W      N 52 11.4 W 2 42.6
 * A decimal comma is understood where a semicolon or a blank parts the two (52,19; -2,71).
 * ERR_USAGE with what to type instead; both values are left alone then. */
enum err_code coordinates_read(const char *text, double *latitude, double *longitude, struct err *e);

#endif
