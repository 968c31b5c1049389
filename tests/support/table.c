/* A small table of numbers from CSV text. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/table.h"

#include "base/date.h"
#include "base/num.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Splits a line into cells of TABLE_TEXT; how many there were. */
static size_t split(char *line, char (*cell)[TABLE_TEXT])
{
    size_t n = 0;
    line[strcspn(line, "\r\n")] = '\0';
    for (char *next = line; next && n < TABLE_COLUMNS; n++) {
        char *here = strsep(&next, ",");
        snprintf(cell[n], TABLE_TEXT, "%.*s", TABLE_TEXT - 1, here);
    }
    return n;
}

static void add_row(struct table *t, char *line, size_t *room)
{
    size_t width = t->columns * TABLE_TEXT;
    char cell[TABLE_COLUMNS][TABLE_TEXT] = {{0}};
    if (t->rows == *room) {
        *room = *room ? 2 * *room : 256;
        t->cell = realloc(t->cell, *room * width);
        if (!t->cell) {
            abort();
        }
    }
    split(line, cell);
    memcpy(t->cell + t->rows++ * width, cell, width);
}

bool table_read(struct table *t, const char *path)
{
    FILE *f = fopen(path, "r");
    char line[4096];
    size_t room = 0;
    *t = (struct table){0};
    if (!f) {
        return false;
    }
    while (fgets(line, sizeof line, f)) {
        if (line[0] == '#') {
            continue;
        }
        if (t->columns == 0) {
            t->columns = split(line, t->name);
        } else {
            add_row(t, line, &room);
        }
    }
    fclose(f);
    return t->columns > 0;
}

void table_free(struct table *t)
{
    free(t->cell);
    t->cell = NULL;
}

size_t table_column(const struct table *t, const char *name)
{
    for (size_t i = 0; i < t->columns; i++) {
        if (strcmp(t->name[i], name) == 0) {
            return i;
        }
    }
    fprintf(stderr, "the table has no column %s\n", name);
    exit(65);
}

const char *table_text(const struct table *t, size_t row, size_t column)
{
    return t->cell + (row * t->columns + column) * TABLE_TEXT;
}

double table_number(const struct table *t, size_t row, size_t column)
{
    const char *text = table_text(t, row, column);
    double value;
    return num_parse(text, strlen(text), '.', &value) ? value : (double)NAN;
}

int table_date(const struct table *t, size_t row, size_t column)
{
    const char *text = table_text(t, row, column);
    return date_parse_iso(text, strlen(text));
}
