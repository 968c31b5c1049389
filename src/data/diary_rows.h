/* The rows of diary.csv as bytes. Inside src/data, and for taking a row back.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_DIARY_ROWS_H
#define SUGARLEA_DIARY_ROWS_H

#include "base/arena.h"
#include "base/err.h"

#include <stdbool.h>
#include <stddef.h>

struct diary_rows {
    const char *text, *p, *end;
    const char *row;  /* where the last row read begins */
    const char *stop; /* no row goes on beyond: so its fields have room */
    size_t line;      /* its number */
    size_t next_line;
    char delimiter;
    const char *file; /* for messages */
    char *field;      /* where the fields of a row are put together */
};

enum { DIARY_COLUMNS = 7 };

/* Goes behind the row of names, whose delimiter holds for the file. A text without any
 * row is at its end at once. Room is the arena's. ERR_DATA when the names are not those
 * of a diary, ERR_NOMEM. */
enum err_code diary_rows_begin(struct diary_rows *r, const char *text, size_t size, const char *file, struct arena *a,
                               struct err *e);

/* The next row that is not blank: its fields, quotes off, good until the next call.
 * False at the end. A quoted field may hold line ends. On an error *code is not ERR_OK. */
bool diary_rows_next(struct diary_rows *r, const char *field[DIARY_COLUMNS], enum err_code *code, struct err *e);

#endif
