/* Memory that runs out at each place in turn. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_STARVE_H
#define SUGARLEA_TESTS_STARVE_H

#include "base/arena.h"

#include <stdbool.h>

/* True: it was made. False: it says that there was no memory. It may be called any number of times. */
typedef bool starved_maker(struct arena *a, void *context);

/* Calls make until it succeeds, each time with the next allocation from any arena refused; asserts that it
 * then says so. Returns how many were refused. */
size_t starve(starved_maker *make, void *context);

#endif
