/* Work on many things shared out among processes: one that crashes or takes too long costs
 * the thing it was on, and no other. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_ROUND_WORK_H
#define SUGARLEA_CMD_ROUND_WORK_H

#include "base/err.h"

struct round_work {
    size_t n;
    unsigned jobs;
    unsigned seconds; /* for one thing, then its worker is ended */
    size_t size;      /* of what is found of a thing: plain bytes without addresses */
    void *context;
    /* In a worker: fills found[0..size) for thing i. Memory must not grow from thing to thing. */
    void (*look)(void *context, size_t i, void *found);
    /* Here, in any order of i: what was found; found NULL: the worker ended on it, and why says how. */
    enum err_code (*take)(void *context, size_t i, const void *found, const char *why, struct err *e);
};

/* Forks before any thread is started; SIGPIPE must be ignored. The error of take, ERR_BUG when no
 * process can be started, ERR_NOMEM. */
enum err_code round_work(const struct round_work *w, struct err *e);

#endif
