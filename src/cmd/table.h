/* Every command on one screen; help is made from this and the option table.
 * To add a command: a function beside cmd_today, a bit in options.h, a row in
 * table.c, a test in tests/cli. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TABLE_H
#define SUGARLEA_TABLE_H

#include "base/buf.h"
#include "cmd/options.h"

struct command {
    const char *name;
    unsigned bit;
    enum err_code (*run)(const struct options *o, struct buf *out, int *status, struct err *e);
    const char *what;
    const char *about; /* paragraphs for doc_flow; its examples run as they stand on data/demo */
};

extern const struct command command_table[];
extern const size_t command_rows;

enum { COMMANDS_MOST = 24 };

const struct command *command_find(const char *name); /* NULL: there is none */

/* ERR_USAGE, naming the nearest one. */
enum err_code command_unknown(const char *name, struct err *e);

/* Prints the answer and clears it. ERR_NOMEM; ERR_WRITE when not all of it was taken: nobody has been told then. */
enum err_code command_say(struct buf *out, struct err *e);

/* The whole program: argv as main has it; the exit code. */
int command_main(int argc, char **argv);

#endif
