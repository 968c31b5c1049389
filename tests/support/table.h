/* A small table of numbers from CSV text, for tests and trials: a header line, then
 * rows; lines that begin with # are skipped. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_TABLE_H
#define SUGARLEA_TESTS_TABLE_H

#include <stdbool.h>
#include <stddef.h>

#define TABLE_COLUMNS 32
#define TABLE_TEXT 32

struct table {
    size_t columns, rows;
    char name[TABLE_COLUMNS][TABLE_TEXT];
    char *cell; /* rows x columns x TABLE_TEXT, closed with 0 and cut to that */
};

/* False when the file cannot be read. table_free gives the memory back. */
bool table_read(struct table *t, const char *path);
void table_free(struct table *t);

/* The column of that name; ends the program when there is none. */
size_t table_column(const struct table *t, const char *name);
const char *table_text(const struct table *t, size_t row, size_t column);
double table_number(const struct table *t, size_t row, size_t column); /* NaN when empty or no number */
int table_date(const struct table *t, size_t row, size_t column);      /* YYYY-MM-DD; DATE_NONE */

#endif
