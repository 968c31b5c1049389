/* A starter holding file by questions in plain words. Nothing here reads a terminal or
 * prints: lines come and go through the caller. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SETUP_H
#define SUGARLEA_SETUP_H

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"
#include "data/holding.h"

#include <stdbool.h>

enum setup_line { SETUP_LINE, SETUP_LINE_END, SETUP_LINE_LONG };

struct setup_io {
    void *with;
    enum setup_line (*read)(void *with, char *line, size_t size); /* one answer, without its line end */
    void (*write)(void *with, const char *text);
    bool terminal; /* somebody sits there: no limit to wrong answers, and none is echoed */
    bool colour;
    int width; /* columns */
};

struct setup_given {    /* an answer from the command line */
    const char *option; /* without the dashes */
    char *text;         /* NULL not given; the caller's */
};

struct setup_job {
    const struct params *params;
    struct arena *arena;
    struct setup_io io;
    bool no_input; /* what is not given takes its default, and that is listed */
    bool brief;    /* the same, but for the questions that an advice hangs on most */
    bool anew;     /* what stands at the path is not looked at */
    const struct setup_given *given;
    size_t givens;
};

/* Asks, and fills `text` (after buf_init) with a holding file that holding_parse takes, and
 * path[LIMIT_PATH] (holds the wished name) with the name to write it to. ERR_NOINPUT when
 * the answers end early, ERR_USAGE for a wrong or missing one that nobody can be asked
 * about, ERR_DATA and ERR_NOINPUT for a weather file that will not do. */
enum err_code setup_ask(const struct setup_job *job, char *path, struct buf *text, struct err *e);

/* The first name that is free: "holding-2.json", "holding-3.json", ... for "holding.json", or
 * with old "holding.json.old", "holding.json.old-2", ...; both hold LIMIT_PATH and may be one. */
void setup_free_name(const char *path, bool old, char *out);

#endif
