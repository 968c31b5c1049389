/* A daily file of the Irish weather service: a preamble with station, place and one
 * line a column with its unit, then date,ind,maxtp,... with the repeated name `ind` for
 * flags (older files: imax, imin, irain). Blank is missing. The day runs 00 to 24 UTC.
 * The flags say below zero, trace, estimate and the like, and the value stands beside
 * them: they are passed over. Files saved again by a spreadsheet have no preamble and
 * years of two digits. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"

#include <string.h>

#define KNOT (1852.0 / 3600)      /* m/s */
#define J_CM2 0.01                /* MJ/m2 */
#define CENTURY_OF_THE_START 1900 /* the service's daily files begin about 1940 (from memory) */

static const struct irish_column {
    const char *name;
    enum weather_var var;
    double height; /* what the value is multiplied with beside its unit */
    double usual;  /* the unit of files without a preamble */
} columns[] = {
    {"mintp", WEATHER_TMIN, 1, 1},
    {"maxtp", WEATHER_TMAX, 1, 1},
    {"rain", WEATHER_RAIN, 1, 1},
    {"g_rad", WEATHER_RAD, 1, J_CM2},
    {"wdsp", WEATHER_WIND, WIND_10M_TO_2M, KNOT},
};
#define COLUMNS (sizeof columns / sizeof columns[0])

static const char station[] = "Station Name:";

static bool has_columns(const struct line *line)
{
    return line_has_cell(line, "maxtp") ||
           (line_has_cell(line, "rain") && (line_has_cell(line, "ind") || line_has_cell(line, "irain")));
}

static bool find_names(const struct weather_file *f, struct line *line)
{
    *line = (struct line){0};
    while (line_next(f, line)) {
        if ((line_begins(line, "date") || line_begins(line, "\"date\"")) && has_columns(line)) {
            return true;
        }
    }
    return false;
}

bool irish_daily_is(const struct weather_file *f)
{
    struct line line;
    return find_names(f, &line);
}

/* The line of the preamble that describes the column: its name and a colon. */
static bool describes(const struct line *line, const char *name)
{
    size_t n = strlen(name);
    return line->n > n && line_begins(line, name) && line->text[n] == ':';
}

static enum err_code read_unit(const struct weather_file *f, const struct line *line, struct csv_known *row,
                               struct err *e)
{
    for (size_t i = 0; i < COLUMNS; i++) {
        if (describes(line, columns[i].name)) {
            row[i].scale = columns[i].height;
            return line_unit(f, line, &row[i], e);
        }
    }
    return ERR_OK;
}

static const char *name_of(const struct line *line, struct arena *a)
{
    const char *text = line->text + strlen(station);
    size_t n = line->n - strlen(station);
    for (; n && *text == ' '; n--) {
        text++;
    }
    for (; n && text[n - 1] == ' '; n--) {
    }
    return arena_strndup(a, text, n < LIMIT_NAME ? n : LIMIT_NAME - 1);
}

/* Station, place and units from the lines before the row of names. */
static enum err_code read_preamble(const struct weather_file *f, struct arena *a, struct csv_preset *preset,
                                   struct csv_known *row, struct err *e)
{
    struct line line = {0};
    enum err_code code = ERR_OK;
    while (code == ERR_OK && line_next(f, &line) && line.text != preset->names) {
        if (line_begins(&line, station)) {
            preset->site = name_of(&line, a);
            code = preset->site ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
        } else {
            line_number_after(&line, "station height:", &preset->place.elevation_m);
            line_number_after(&line, "latitude:", &preset->place.latitude);
            line_number_after(&line, "longitude:", &preset->place.longitude);
            code = read_unit(f, &line, row, e);
        }
    }
    return code;
}

enum err_code irish_daily_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct line names;
    struct csv_known row[COLUMNS + 1] = {{0}};
    if (!find_names(f, &names)) {
        return line_fail(f, NULL, NULL, e,
                         "there is no row of names that begins with date and holds maxtp, or ind and rain");
    }
    if (line_has_cell(&names, "temp")) {
        return line_fail(f, &names, "temp", e, "these are hourly values; fetch the station's daily file");
    }
    for (size_t i = 0; i < COLUMNS; i++) {
        const struct irish_column *c = &columns[i];
        row[i] = (struct csv_known){.name = c->name, .role = ROLE_VALUE, .var = c->var, .scale = c->height * c->usual};
    }
    row[COLUMNS] = (struct csv_known){.name = "date", .role = ROLE_DATE};
    struct csv_preset preset = {.names = names.text,
                                .line = names.number,
                                .delimiter = line_delimiter(&names),
                                .known = row,
                                .n_known = COLUMNS + 1,
                                .century = CENTURY_OF_THE_START,
                                .place = csv_no_place()};
    enum err_code code = read_preamble(f, a, &preset, row, e);
    return code == ERR_OK ? csv_read_preset(f, &preset, a, set, e) : code;
}
