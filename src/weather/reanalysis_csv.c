/* The global reanalysis as CSV: a block between -BEGIN HEADER- and -END HEADER- with the
 * place and one line a parameter with its unit, which differs between the communities
 * that the service knows (radiation in MJ or kWh); then YEAR,DOY or YEAR,MO,DY and the
 * parameters. Missing is -999. The lines of the block changed case between versions.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"

#include <math.h>
#include <string.h>

#define BEGIN "-BEGIN HEADER-"
#define END "-END HEADER-"
#define UTC_DEGREES 30 /* of longitude: two hours; further off a day of UTC is another day (our judgement) */

static const struct csv_known columns[] = {
    {.name = "YEAR", .role = ROLE_YEAR},
    {.name = "DOY", .role = ROLE_DAY_OF_YEAR},
    {.name = "MO", .role = ROLE_MONTH},
    {.name = "DY", .role = ROLE_DAY},
    {.name = "T2M_MIN", .role = ROLE_VALUE, .var = WEATHER_TMIN},
    {.name = "T2M_MAX", .role = ROLE_VALUE, .var = WEATHER_TMAX},
    {.name = "PRECTOTCORR", .role = ROLE_VALUE, .var = WEATHER_RAIN},
    {.name = "PRECTOT", .role = ROLE_VALUE, .var = WEATHER_RAIN, .weak = true},
    {.name = "ALLSKY_SFC_SW_DWN", .role = ROLE_VALUE, .var = WEATHER_RAD},
    {.name = "RH2M", .role = ROLE_VALUE, .var = WEATHER_RH},
    {.name = "WS2M", .role = ROLE_VALUE, .var = WEATHER_WIND},
    {.name = "WS10M", .role = ROLE_VALUE, .var = WEATHER_WIND, .scale = WIND_10M_TO_2M, .weak = true},
    {.name = "T2MDEW", .role = ROLE_VALUE, .var = WEATHER_TDEW},
};
#define COLUMNS (sizeof columns / sizeof columns[0])

/* What the block says. */
struct block {
    struct csv_known row[COLUMNS];
    bool said[COLUMNS]; /* the block has a line for the parameter */
    struct site place;
    bool utc;
};

bool reanalysis_csv_is(const struct weather_file *f)
{
    struct line line;
    return line_find(f, BEGIN, NULL, &line);
}

/* Whether the line describes the parameter: its name and a blank. */
static bool describes(const struct line *line, const char *name)
{
    size_t n = strlen(name);
    return line->n > n && line_begins(line, name) && line->text[n] == ' ';
}

static enum err_code read_line(const struct weather_file *f, const struct line *line, struct block *b, struct err *e)
{
    if (line_begins(line, "location")) {
        line_number_after(line, "latitude", &b->place.latitude);
        line_number_after(line, "longitude", &b->place.longitude);
    } else if (line_begins(line, "elevation")) {
        line_number_after(line, "=", &b->place.elevation_m);
    } else if (line_begins(line, "dates")) {
        b->utc = memmem(line->text, line->n, "in UTC", 6) != NULL;
    }
    for (size_t i = 0; i < COLUMNS; i++) {
        if (columns[i].role == ROLE_VALUE && describes(line, columns[i].name) && !b->said[i]) {
            b->said[i] = true;
            return line_unit(f, line, &b->row[i], e);
        }
    }
    return ERR_OK;
}

/* Leaves line at the row of names. */
static enum err_code read_block(const struct weather_file *f, struct line *line, struct block *b, struct err *e)
{
    if (!line_find(f, BEGIN, NULL, line)) {
        return line_fail(f, NULL, NULL, e, "there is no header block that begins with " BEGIN);
    }
    struct line begin = *line;
    while (line_next(f, line) && !line_begins(line, END)) {
        enum err_code code = read_line(f, line, b, e);
        if (code != ERR_OK) {
            return code;
        }
    }
    if (!line_begins(line, END)) {
        return line_fail(f, &begin, NULL, e, "the header block is not closed by " END "; fetch the file again");
    }
    return line_next(f, line) ? ERR_OK : line_fail(f, line, NULL, e, "there is nothing below the header block");
}

/* Products of the same service, with the same block, that are no daily weather of a place. */
static enum err_code refuse_others(const struct weather_file *f, const struct line *line, struct err *e)
{
    static const struct {
        const char *cell, *what;
    } others[] = {
        {"HR", "these are hourly values"},
        {"JAN", "these are monthly values or means of many years"},
        {"LAT", "these are the points of a region"},
    };
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        if (line_has_cell(line, others[i].cell)) {
            return line_fail(f, line, others[i].cell, e,
                             "%s; ask the service for daily values of one point (temporal/daily/point, community AG)",
                             others[i].what);
        }
    }
    return ERR_OK;
}

/* Radiation comes in two units, and no column may be read without knowing which. */
static enum err_code check_units(const struct weather_file *f, const struct line *line, const struct block *b,
                                 struct err *e)
{
    for (size_t i = 0; i < COLUMNS; i++) {
        if (columns[i].var == WEATHER_RAD && columns[i].role == ROLE_VALUE && !b->said[i] &&
            line_has_cell(line, columns[i].name)) {
            return line_fail(f, line, columns[i].name, e,
                             "the header block does not say its unit; leave the block as the service wrote it");
        }
    }
    return ERR_OK;
}

enum err_code reanalysis_csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct line line;
    struct block b = {.place = csv_no_place()};
    memcpy(b.row, columns, sizeof columns);
    enum err_code code = read_block(f, &line, &b, e);
    code = code == ERR_OK ? refuse_others(f, &line, e) : code;
    code = code == ERR_OK ? check_units(f, &line, &b, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    if (b.utc && fabs(b.place.longitude) > UTC_DEGREES) {
        set->note = "the days of the file are days of UTC, not of the place; ask the service for local solar time "
                    "(time-standard LST)";
    }
    struct csv_preset preset = {.names = line.text,
                                .line = line.number,
                                .delimiter = ',',
                                .known = b.row,
                                .n_known = COLUMNS,
                                .place = b.place};
    return csv_read_preset(f, &preset, a, set, e);
}
