/* Any table with a row of column names, its fields set apart by blanks: what csv.c reads,
 * as columns that people line up. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/csv_preset.h"
#include "weather/lines.h"
#include "weather/quantity.h"

#include <ctype.h>
#include <string.h>

/* The word at *at, which moves on behind it; false when there is none. */
static bool next_word(const struct line *l, size_t *at, const char **text, size_t *n)
{
    while (*at < l->n && l->text[*at] == ' ') {
        ++*at;
    }
    *text = l->text + *at;
    *n = 0;
    while (*at < l->n && l->text[*at] != ' ') {
        ++*at;
        ++*n;
    }
    return *n > 0;
}

/* The number of words when they name a date and a variable and each is a name, else 0. */
static size_t count_names(const struct line *l)
{
    const char *text;
    size_t n, at = 0, words = 0;
    bool dated = false, valued = false;
    while (next_word(l, &at, &text, &n)) {
        if (!isalpha((unsigned char)text[0]) || memchr(text, ',', n) || memchr(text, ';', n) || memchr(text, '\t', n)) {
            return 0;
        }
        enum column_role role = quantity_of_name(text, n).role;
        dated = dated || role == ROLE_DATE || role == ROLE_YEAR;
        valued = valued || role == ROLE_VALUE;
        words++;
    }
    return dated && valued ? words : 0;
}

/* The number of words when each can be a value. */
static size_t count_values(const struct line *l)
{
    const char *text;
    size_t n, at = 0, words = 0;
    while (next_word(l, &at, &text, &n)) {
        if (!strchr("0123456789+-.", text[0]) && !quantity_is_missing_text(text, n)) {
            return 0;
        }
        words++;
    }
    return words;
}

/* A row of names with a row of as many values below it: a sentence has none. */
static bool find_names(const struct weather_file *f, struct line *names)
{
    struct line next;
    *names = (struct line){0};
    while (line_next(f, names)) {
        size_t words = count_names(names);
        next = *names;
        if (words && line_next(f, &next) && count_values(&next) == words) {
            return true;
        }
    }
    return false;
}

bool blank_table_is(const struct weather_file *f)
{
    struct line names;
    return find_names(f, &names);
}

static enum err_code no_memory(const struct weather_file *f, struct err *e)
{
    return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
}

/* The columns as csv.c knows them by their names, and whether a unit is left to guess. */
static enum err_code columns_of(const struct weather_file *f, const struct line *names, struct csv_preset *preset,
                                struct arena *a, struct err *e)
{
    const char *text;
    size_t n, at = 0;
    struct csv_known *known = arena_alloc(a, count_names(names), sizeof *known);
    for (preset->known = known; known && next_word(names, &at, &text, &n); preset->n_known++) {
        struct quantity_name name = quantity_of_name(text, n);
        const char *copy = arena_strndup(a, text, n);
        if (!copy) {
            return no_memory(f, e);
        }
        if (name.bad_unit[0]) {
            err_set(e, ERR_DATA, "the unit \"%s\" is not known; %s are allowed", name.bad_unit,
                    quantity_units_allowed(name.var));
            return err_at(e, f->path, names->number, (size_t)(text - names->text) + 1, copy);
        }
        known[preset->n_known] = (struct csv_known){.name = copy,
                                                    .role = name.role,
                                                    .var = name.var,
                                                    .scale = name.unit.scale,
                                                    .offset = name.unit.offset,
                                                    .weak = name.weak};
        if (name.role == ROLE_VALUE && !name.stated) {
            preset->unit_help = "say the unit in the name of each column: tmin_c, tmax_f, rain_inch, rad_kwh_m2";
        }
    }
    return known ? ERR_OK : no_memory(f, e);
}

enum err_code blank_table_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct line names;
    if (!find_names(f, &names)) {
        err_set(e, ERR_DATA,
                "has no row of column names with a date and weather, set apart by blanks, and a row of as many values "
                "below it");
        return err_at(e, f->path, 0, 0, NULL);
    }
    struct csv_preset preset = {.names = names.text, .line = names.number, .delimiter = ' ', .place = csv_no_place()};
    enum err_code code = columns_of(f, &names, &preset, a, e);
    return code == ERR_OK ? csv_read_preset(f, &preset, a, set, e) : code;
}
