/* Another program, started, fed, heard and ended: no shell, a time limit, a limit on
 * what it may say. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CHILD_H
#define SUGARLEA_CHILD_H

#include "base/buf.h"
#include "base/err.h"

struct child_job {
    const char *program;      /* a name is looked up along PATH, a path taken as it is */
    char *const *arguments;   /* with its own name first, closed with NULL */
    char *const *environment; /* closed with NULL; NULL: ours */
    const char *input;        /* for its standard input */
    size_t input_size;
    double deadline_s;  /* from the start; then it and what it started are killed */
    size_t output_most; /* bytes on its standard output; more ends it */
};

enum child_fate {
    CHILD_EXITED, /* status is its exit code */
    CHILD_SIGNALLED /* status is the signal */,
    CHILD_LATE,     /* killed at the deadline */
    CHILD_TALKATIVE /* killed for saying more than output_most */
};

struct child_end {
    enum child_fate fate;
    int status;
};

#define CHILD_ERRORS_MOST 4096 /* bytes kept of its standard error; the rest is read and dropped */

/* Adds its standard output to *output and, unless errors is NULL (then it goes where
 * ours goes), its standard error to *errors. Returns when it has ended and both are
 * closed, or was killed. SIGPIPE must be ignored here; the child gets the default.
 * ERR_OK whenever it was started: look at *end. ERR_NOINPUT when there is no such
 * program that can be started, ERR_BUG when the system has no room for it, ERR_NOMEM. */
enum err_code child_run(const struct child_job *job, struct buf *output, struct buf *errors, struct child_end *end,
                        struct err *e);

#endif
