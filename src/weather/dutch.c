/* Station files of the Dutch weather service: blank-padded columns below a bilingual
 * preamble, everything in tenths, empty is missing. Of the daily file RH is the rain and
 * UG the humidity; -1 of a sum stands for less than half a tenth. The rain file of an
 * observer holds RD alone. The day of the first runs 00 to 24 UTC, the rain day of the
 * second from 08 UTC of the day before. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/lines.h"

#include <string.h>

#define TENTH 0.1
#define J_CM2 0.01 /* MJ/m2 */

static bool less_than_half(const char *text, size_t n, double *x)
{
    *x = 0;
    return n == 2 && memcmp(text, "-1", 2) == 0;
}

static const struct csv_known columns[] = {
    {.name = "STN", .role = ROLE_SITE},
    {.name = "YYYYMMDD", .role = ROLE_DATE},
    {.name = "TN", .role = ROLE_VALUE, .var = WEATHER_TMIN, .scale = TENTH},
    {.name = "TX", .role = ROLE_VALUE, .var = WEATHER_TMAX, .scale = TENTH},
    {.name = "RH", .role = ROLE_VALUE, .var = WEATHER_RAIN, .scale = TENTH, .cell = less_than_half},
    {.name = "Q", .role = ROLE_VALUE, .var = WEATHER_RAD, .scale = J_CM2},
    {.name = "UG", .role = ROLE_VALUE, .var = WEATHER_RH},
    {.name = "FG", .role = ROLE_VALUE, .var = WEATHER_WIND, .scale = TENTH * WIND_10M_TO_2M},
};

static const struct csv_known rain_columns[] = {
    {.name = "STN", .role = ROLE_SITE},
    {.name = "YYYYMMDD", .role = ROLE_DATE},
    {.name = "RD", .role = ROLE_VALUE, .var = WEATHER_RAIN, .scale = TENTH, .cell = less_than_half},
};

/* The row of names: STN, perhaps behind a "#", and YYYYMMDD. */
static bool find_names(const struct weather_file *f, struct line *line)
{
    *line = (struct line){0};
    while (line_next(f, line)) {
        if (line_has_cell(line, "YYYYMMDD") && (line_has_cell(line, "STN") || line_has_cell(line, "# STN"))) {
            return true;
        }
    }
    return false;
}

bool dutch_rain_is(const struct weather_file *f)
{
    struct line line;
    return find_names(f, &line) && line_has_cell(&line, "RD");
}

bool dutch_daily_is(const struct weather_file *f)
{
    struct line line;
    return find_names(f, &line);
}

static enum err_code read(const struct weather_file *f, const struct csv_known *known, size_t n_known, struct arena *a,
                          struct weather_set *set, struct err *e)
{
    struct line names;
    if (!find_names(f, &names)) {
        return line_fail(f, NULL, NULL, e, "there is no row of names that begins with STN,YYYYMMDD");
    }
    if (line_has_cell(&names, "HH") || line_has_cell(&names, "H")) {
        return line_fail(f, &names, "HH", e, "these are hourly values; fetch the station's daily file (etmgeg)");
    }
    struct csv_preset preset = {.names = names.text,
                                .line = names.number,
                                .delimiter = line_delimiter(&names),
                                .known = known,
                                .n_known = n_known,
                                .dates = CSV_DATE_COMPACT,
                                .place = csv_no_place()};
    return csv_read_preset(f, &preset, a, set, e);
}

/* Next word of the line from *i, blanks and a colon behind it passed over. */
static size_t take_word(const struct line *line, size_t *i, const char **word)
{
    while (*i < line->n && line->text[*i] == ' ') {
        ++*i;
    }
    size_t start = *i;
    while (*i < line->n && !strchr(" :", line->text[*i])) {
        ++*i;
    }
    *word = line->text + start;
    size_t n = *i - start;
    *i += *i < line->n && line->text[*i] == ':';
    return n;
}

/* "# 260:  5.180  52.100  1.90  NAME" of the list of stations that some files carry:
 * number, longitude, latitude, height, name (layout from memory). */
static enum err_code read_station(const struct weather_file *f, const struct line *line, struct arena *a,
                                  struct weather_set *set, struct err *e)
{
    double place[3];
    const char *number, *word;
    size_t i = 1, number_n = take_word(line, &i, &number);
    for (int k = 0; k < 3; k++) {
        size_t n = take_word(line, &i, &word);
        if (!num_parse(word, n, '.', &place[k])) {
            return ERR_OK; /* another kind of line */
        }
    }
    take_word(line, &i, &word);
    size_t name_n = line->n - (size_t)(word - line->text);
    while (name_n && word[name_n - 1] == ' ') {
        name_n--;
    }
    for (size_t s = 0; name_n && s < set->n; s++) {
        struct weather_site *site = &set->site[s];
        if (strlen(site->name) == number_n && memcmp(site->name, number, number_n) == 0) {
            site->place.longitude = place[0];
            site->place.latitude = place[1];
            site->place.elevation_m = place[2];
            site->name = arena_strndup(a, word, name_n < LIMIT_NAME ? name_n : LIMIT_NAME - 1);
            return site->name ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
        }
    }
    return ERR_OK;
}

enum err_code dutch_daily_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct line line = {0};
    enum err_code code = read(f, columns, sizeof columns / sizeof columns[0], a, set, e);
    while (code == ERR_OK && line_next(f, &line)) {
        code = line_begins(&line, "#") ? read_station(f, &line, a, set, e) : ERR_OK;
    }
    return code;
}

/* The reading of a morning, at 08 UTC, goes to the day before: 16 of its 24 hours lie
 * there, and what a keeper reads this morning is weather of yesterday. */
enum err_code dutch_rain_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    enum err_code code = read(f, rain_columns, sizeof rain_columns / sizeof rain_columns[0], a, set, e);
    for (size_t i = 0; code == ERR_OK && i < set->n; i++) {
        set->site[i].days.day0--;
    }
    if (code == ERR_OK) {
        set->note = "each rain is that of the 24 hours to 08 UTC of its date in the file; it is given to the day "
                    "before, on which 16 of these hours lie";
    }
    return code;
}
