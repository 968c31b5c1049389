/* What may stand behind an option, by the word that the option table has for its value
 * (CLASS, GRASS, FILE, ...). SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WORDS_H
#define SUGARLEA_WORDS_H

#include "cmd/options.h"
#include "data/params.h"

/* The i-th word that the option takes; NULL past the last, and where any text will do.
 * p may be NULL: what only the model files know is then left out. */
const char *words_of(const struct option_row *o, const struct params *p, size_t i);

bool words_file(const struct option_row *o); /* it takes the name of a file */

#endif
