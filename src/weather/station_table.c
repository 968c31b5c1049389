/* Tables of weather services. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/station_table.h"

#include "weather/note.h"

static bool is_row_of_names(const struct line *l, const struct station_table *t)
{
    bool any = !t->any[0];
    for (size_t i = 0; i < sizeof t->all / sizeof t->all[0] && t->all[i]; i++) {
        if (!line_has_cell(l, t->all[i])) {
            return false;
        }
    }
    for (size_t i = 0; !any && i < sizeof t->any / sizeof t->any[0] && t->any[i]; i++) {
        any = line_has_cell(l, t->any[i]);
    }
    return any;
}

bool station_table_find(const struct weather_file *f, const struct station_table *t, struct line *names)
{
    *names = (struct line){0};
    while (line_next(f, names)) {
        if (is_row_of_names(names, t)) {
            return true;
        }
    }
    return false;
}

enum err_code station_table_read(const struct weather_file *f, const struct station_table *t,
                                 const struct station_about *about, struct arena *a, struct weather_set *set,
                                 struct err *e)
{
    struct line l;
    size_t taken[WEATHER_VARS] = {0};
    if (!station_table_find(f, t, &l)) {
        err_set(e, ERR_DATA, "has no row of names as this layout has it: %s", t->names);
        return err_at(e, f->path, 0, 0, NULL);
    }
    struct csv_preset preset = {.names = l.text,
                                .line = l.number,
                                .delimiter = line_delimiter(&l),
                                .known = t->known,
                                .n_known = t->n_known,
                                .alone = t->alone,
                                .taken = taken,
                                .site = about ? about->site : NULL,
                                .place = about ? about->place : csv_no_place()};
    enum err_code code = csv_read_preset(f, &preset, a, set, e);
    code = code == ERR_OK ? note_trim(set, f->path, e) : code;
    return code == ERR_OK && t->why ? note_taken(set, a, e, taken, t->why) : code;
}
