/* Text layouts that must not be taken for a plain table: their units, flags or dates are
 * not what the names of their columns suggest, or they hold no daily weather.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/layout.h"

#include <string.h>

#define LOOK_LINES 80
#define LOOK_BYTES (64u << 10)

#define AS_TABLE                                                                                                       \
    "not read here. Write it as a table with the columns date,tmin_c,tmax_c,rain_mm,rad_mj_m2,rh_pct,wind_m_s (the "   \
    "unit stands in the name: tmax_f, rain_inch)"
#define NOT_A_RECORD                                                                                                   \
    "which is out of scope here. Fetch the record it was made from: the service's own daily CSV or JSON of the place"
#define MONTHLY                                                                                                        \
    "and daily values are needed. Fetch the daily record of a station, or daily values of the place from a "           \
    "reanalysis or a forecast service (NASA POWER, Open-Meteo)"

static const struct marker {
    const char *start;   /* of a line; a blank in it stands for any run of blanks and tabs */
    const char *within;  /* a cell that the same line must have; NULL none */
    const char *what;    /* the file is */
    const char *instead; /* what to do */
} markers[] = {
    {"-BEGIN HEADER-", NULL, "CSV of the global reanalysis with a header block; ask for its JSON", AS_TABLE},
    {"[weather.met.weather]", NULL, "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"*WEATHER", NULL, "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"$WEATHER", NULL, "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"@DATE", NULL, "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"@ DATE", NULL, "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"yyyy mm tmax", NULL, "a monthly record of a British station", MONTHLY},
    {" yyyy mm tmax", NULL, "a monthly record of a British station", MONTHLY},
    {"STATIONS_ID;MESS_DATUM", NULL, "a station file of the German weather service", AS_TABLE},
    {"# STN,YYYYMMDD", NULL, "a station file of the Dutch weather service, in tenths", AS_TABLE},
    {"STN,YYYYMMDD", NULL, "a station file of the Dutch weather service, in tenths", AS_TABLE},
    {"Station Name:", NULL, "a station file of the Irish weather service", AS_TABLE},
    {"date", "maxtp", "a station file of the Irish weather service", AS_TABLE},
};

/* A cell of the line, with or without quotes, that is word and nothing more. */
static bool has_cell(const char *line, size_t n, const char *word)
{
    size_t length = strlen(word);
    for (size_t i = 1; i + length <= n; i++) {
        bool opens = strchr(",;\t\"", line[i - 1]) != NULL;
        bool closes = i + length == n || strchr(",;\t\"\r", line[i + length]) != NULL;
        if (opens && closes && memcmp(line + i, word, length) == 0) {
            return true;
        }
    }
    return false;
}

static bool is_blank(char x)
{
    return x == ' ' || x == '\t';
}

static bool starts_with(const char *line, size_t n, const char *start)
{
    size_t i = 0;
    for (; *start; start++) {
        if (i == n || (*start == ' ' ? !is_blank(line[i]) : line[i] != *start)) {
            return false;
        }
        i++;
        while (*start == ' ' && i < n && is_blank(line[i])) {
            i++;
        }
    }
    return true;
}

static const struct marker *find(const struct weather_file *f, size_t *line_number)
{
    size_t size = f->size < LOOK_BYTES ? f->size : LOOK_BYTES, at = 0;
    for (size_t line = 1; line <= LOOK_LINES && at < size; line++) {
        const char *text = f->bytes + at, *stop = memchr(text, '\n', size - at);
        size_t n = stop ? (size_t)(stop - text) : size - at;
        for (size_t i = 0; i < sizeof markers / sizeof markers[0]; i++) {
            const struct marker *m = &markers[i];
            if (starts_with(text, n, m->start) && (!m->within || has_cell(text, n, m->within))) {
                *line_number = line;
                return m;
            }
        }
        at += n + 1;
    }
    return NULL;
}

bool refuse_text_is(const struct weather_file *f)
{
    size_t line;
    return find(f, &line) != NULL;
}

enum err_code refuse_text(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    size_t line = 0;
    (void)a, (void)set;
    const struct marker *m = find(f, &line);
    err_set(e, ERR_DATA, "is %s, %s", m->what, m->instead);
    err_at(e, f->path, line, 1, NULL);
    return ERR_DATA;
}
