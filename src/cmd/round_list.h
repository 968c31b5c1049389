/* The holding files of a round, below folders or from a list. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_ROUND_LIST_H
#define SUGARLEA_CMD_ROUND_LIST_H

#include "base/arena.h"
#include "base/err.h"

struct round_place {
    const char *path;
    const char *trouble; /* why there is nothing to look at in it; NULL none */
};

struct round_list { /* grows in the arena */
    struct round_place *place;
    size_t n, room;
};

/* Each holding.json below the folders (a file stands for itself), in the order of their names. Links to folders
 * and folders whose names begin with a dot are passed over, so that nothing is found twice or without end; folders
 * that cannot be read, or lie ROUND_DEPTH deep, become places with a trouble. ERR_NOINPUT (no such folder),
 * ERR_USAGE (more than LIMIT_HOLDINGS), ERR_NOMEM. */
enum { ROUND_DEPTH = 16 };
enum err_code round_list_below(char *const *folder, size_t n, struct arena *a, struct round_list *list, struct err *e);

/* The paths of a file ("-": standard input), one a line; a folder stands for the holding.json in it. ERR_NOINPUT,
 * ERR_DATA, ERR_USAGE, ERR_NOMEM. */
enum err_code round_list_read(const char *path, struct arena *a, struct round_list *list, struct err *e);

#endif
