/* The columns of a table that a layout knows.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/csv.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

struct site csv_no_place(void)
{
    return (struct site){.latitude = NAN, .longitude = NAN, .elevation_m = NAN};
}

static size_t skip_signs(const char *text, size_t n, size_t i)
{
    while (i < n && ((unsigned char)text[i] >= 0x80 || !isalnum((unsigned char)text[i]))) {
        i++;
    }
    return i;
}

/* Whether the letters and digits of both are the same. */
static bool same_name(const char *known, const char *text, size_t n)
{
    size_t known_n = strlen(known), i = skip_signs(known, known_n, 0), j = skip_signs(text, n, 0);
    while (i < known_n && j < n && tolower((unsigned char)known[i]) == tolower((unsigned char)text[j])) {
        i = skip_signs(known, known_n, i + 1);
        j = skip_signs(text, n, j + 1);
    }
    return i == known_n && j == n;
}

static void use(const struct csv *c, const struct csv_known *known, struct csv_column *column)
{
    column->role = known->role;
    column->var = known->var;
    column->weak = known->weak;
    column->unit.scale = known->scale != 0 ? known->scale : 1;
    column->unit.offset = known->offset;
    column->stated = !c->preset->unit_help;
    column->reader = known->cell;
}

static enum err_code describe(struct csv *c, const struct csv_field *f, struct csv_column *column)
{
    for (size_t i = 0; i < c->preset->n_known; i++) {
        if (same_name(c->preset->known[i].name, f->text, f->n)) {
            use(c, &c->preset->known[i], column);
            break;
        }
    }
    return ERR_OK;
}

/* Columns without a row of names: as the layout lists them. */
static void take_columns(struct csv *c)
{
    for (size_t i = 0; i < c->preset->n_known && i < LIMIT_COLUMNS; i++) {
        struct csv_column *column = &c->column[c->n_columns++];
        const char *name = c->preset->known[i].name;
        *column = (struct csv_column){.name = name, .name_length = strlen(name)};
        use(c, &c->preset->known[i], column);
    }
}

enum err_code csv_preset_header(struct csv *c)
{
    const struct csv_preset *preset = c->preset;
    enum err_code code = ERR_OK;
    c->delimiter = preset->delimiter;
    c->date_layout = preset->dates;
    csv_go_to(c, preset->names ? preset->names : preset->rows, preset->line);
    if (preset->names) {
        code = csv_columns_read(c, describe);
    } else {
        take_columns(c);
    }
    code = code == ERR_OK ? csv_columns_map(c) : code;
    if (code != ERR_OK) {
        return code;
    }
    for (size_t i = 0; i < preset->skip + (preset->names != NULL); i++) {
        csv_skip_row(c);
    }
    csv_settle_point(c);
    return ERR_OK;
}
