/* The shipped parameters for tests, with a small set of grasses and soils made
 * here, so that holdings can be tested without the sward's own file.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_PARAMS_PARTS_H
#define SUGARLEA_TESTS_PARAMS_PARTS_H

#include "data/params.h"

/* animals, feeds, limits and hay losses of models/. ERR_OK or the error. */
enum err_code params_parts_load(const char *folder, struct arena *a, struct params *p, struct err *e);

#endif
