/* A delimited table whose columns a layout knows: the layout finds the row of names
 * and fills a preset, and the reader of all tables (csv.h) does the rest. What it does
 * not know of its own is then said here: names, units, flags, and the place of the site.
 * Order, gaps, repeated dates, missing marks, limits and messages are as in any table.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_CSV_PRESET_H
#define SUGARLEA_WEATHER_CSV_PRESET_H

#include "weather/layout.h"
#include "weather/quantity.h"

enum csv_date_layout {
    CSV_DATE_UNKNOWN,
    CSV_DATE_YMD,     /* 2024-05-14, 2024/5/14, 2024.05.14 */
    CSV_DATE_COMPACT, /* 20240514 */
    CSV_DATE_DMY,     /* 14.05.2024, 14/05/2024, 14-May-2024 */
    CSV_DATE_MDY,     /* 05/14/2024 */
};

/* Reads a peculiar cell. Of ROLE_VALUE it is asked about a cell that is no number or
 * not possible, and sets *x in the unit of the file, NaN when nothing was measured ("T"
 * or -1 for a trace: 0). Of ROLE_FLAG it is asked about a flag that is not empty, and
 * may change *x, the value that the flag belongs to, in our unit (NaN: not to be
 * used). False: not known, and treated as if there were no reader (of a flag: refused). */
typedef bool csv_cell_reader(const char *text, size_t n, double *x);

struct csv_known {
    const char *name; /* letters and digits count, in either case: "rain_mm" is "Rain (mm)" */
    enum column_role role;
    enum weather_var var;  /* of ROLE_VALUE, and of ROLE_FLAG, which stands behind its value */
    double scale, offset;  /* our unit = cell * scale + offset; scale 0 counts as 1 */
    bool weak;             /* gives way to another column of the same meaning */
    csv_cell_reader *cell; /* NULL: no peculiar cells; required of ROLE_FLAG */
};

struct csv_preset {
    const char *names;             /* start of the row of names in the bytes of the file; NULL: there is none, the
                                      columns are those of known[] in order */
    size_t line;                   /* its number; without names, that of the first row of data */
    const char *rows;              /* without names: the first row of data */
    size_t skip;                   /* lines behind the names before the first row of data (units ...) */
    char delimiter;                /* ' ': any run of blanks and tabs */
    const struct csv_known *known; /* other columns are passed over; their names may repeat */
    size_t n_known;
    enum csv_date_layout dates; /* UNKNOWN: as the rows show */
    int century;                /* years may have two digits, and rows that pass from 99 to 00 once begin in
                                   this century (1900); 0: four digits only */
    bool alone;                 /* one temperature without the other will do, or none */
    const char *unit_help;      /* the units are not sure, the values are looked at, and this sentence says how
                                   to state them; NULL: they are sure */
    size_t *taken;     /* WEATHER_VARS counts of values that their flag took back, added to; NULL: not wanted */
    const char *site;  /* name of sites that the rows do not name; NULL: none. Not copied. */
    struct site place; /* of sites whose rows do not say it; NaN unknown */
};

/* A place of which nothing is known. */
struct site csv_no_place(void);

/* Reads the table and fills the whole set, or an error with line, column and field.
 * The preset is needed during the call only. */
enum err_code csv_read_preset(const struct weather_file *f, const struct csv_preset *preset, struct arena *a,
                              struct weather_set *set, struct err *e);

#endif
