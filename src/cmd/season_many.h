/* A season of many places in one go: a table of many sites, or a list of weather files.
 *
 * Rows go to standard output as they come, and no more than a few places are held at a time. A
 * place that has no rows is named on standard error, and the others go on.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_SEASON_MANY_H
#define SUGARLEA_CMD_SEASON_MANY_H

#include "cmd/season_rows.h"

/* Whether that is what is asked: --list, or --csv of a file with several sites where no place is
 * given whose nearest is meant. A file that cannot be read is not: it is for others to say why. ERR_NOMEM. */
enum err_code season_is_many(const struct options *o, bool *many, struct err *e);

/* c: parameters, and the holding that the options make. ask: form and paddock. ERR_DATA when
 * some places have no rows; ERR_WRITE; the error of the one file, where no list is given. */
enum err_code season_many(const struct context *c, const struct options *o, const struct season_ask *ask,
                          struct err *e);

#endif
