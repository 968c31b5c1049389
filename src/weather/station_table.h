/* Tables of weather services: a row of known names, and flags that may take a value back.
 * A layout is one struct station_table; its reader may add what it knows of the place.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_STATION_TABLE_H
#define SUGARLEA_WEATHER_STATION_TABLE_H

#include "weather/csv_preset.h"
#include "weather/lines.h"

struct station_table {
    const char *all[4];  /* cells that the row of names must have; NULL none */
    const char *any[12]; /* and one of these; all NULL: no other is asked for */
    const char *names;   /* the row of names in the words of a message */
    const char *why;     /* why flags take values back; NULL: no flags */
    const struct csv_known *known;
    size_t n_known;
    bool alone; /* one variable will do */
};

/* The row of names, whatever separates them (a spreadsheet may have saved the file again);
 * false when the file has none. */
bool station_table_find(const struct weather_file *f, const struct station_table *t, struct line *names);

/* Reads the whole set: the table below `names`, empty days at both ends cut off, values
 * that were taken back told in the note. `about` holds the name and the place of a site
 * that the rows do not tell (NULL: nothing is known). */
struct station_about {
    const char *site; /* NULL: none */
    struct site place;
};
enum err_code station_table_read(const struct weather_file *f, const struct station_table *t,
                                 const struct station_about *about, struct arena *a, struct weather_set *set,
                                 struct err *e);

#endif
