/* Memory that runs out at each place in turn. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_STARVE_H
#define SUGARLEA_TESTS_STARVE_H

#include "base/arena.h"

#include <stdbool.h>

/* True: it was made. False: it says that there was no memory. It may be called any number of times. */
typedef bool starved_maker(struct arena *a, void *context);

/* Calls make with arenas that hand out a little more each time, so that each allocation of more
 * than `grain` bytes is refused once, until it succeeds. Returns how often it was refused. */
size_t starve(starved_maker *make, void *context, size_t grain);

#endif
