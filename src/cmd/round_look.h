/* One holding of a round: its diary, its morning and its hay, and what in them is worth a
 * call. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_ROUND_LOOK_H
#define SUGARLEA_CMD_ROUND_LOOK_H

#include "cmd/options.h"
#include "data/params.h"
#include "out/round.h"

struct round_ask {
    const struct options *options;
    const struct params *params;
    date_t date; /* DATE_NONE: each holding's own today */
};

/* Looks at the holding file at path. Whatever goes wrong is found of that holding: foot signs
 * come from the diary alone and are found without any weather. Writes nothing anywhere but into
 * the cache of weather, and that with --fetch only. */
void round_look(const struct round_ask *ask, const char *path, struct round_found *f);

#endif
