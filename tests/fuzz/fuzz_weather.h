/* The promises of the weather readers, for targets that feed them tables and JSON.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FUZZ_WEATHER_H
#define SUGARLEA_FUZZ_WEATHER_H

#include "fuzz/fuzz.h"

/* Reads the bytes as weather of any layout. Refused with a sentence, or: every site has
 * days, every number is finite, and what is read can be merged and completed or is
 * refused again with a sentence. */
void fuzz_weather(const uint8_t *data, size_t size);

#endif
