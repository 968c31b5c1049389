/* Text layouts of services that must not be taken for a plain table: their units,
 * flags or dates are not what the names of their columns suggest.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/layout.h"

#include <string.h>

#define LOOK_LINES 80
#define LOOK_BYTES (64u << 10)

static const struct marker {
    const char *start;  /* of a line */
    const char *within; /* a cell that the same line must have; NULL none */
    const char *what;
} markers[] = {
    {"-BEGIN HEADER-", NULL, "CSV of the global reanalysis with a header block; ask for its JSON"},
    {"[weather.met.weather]", NULL, "a crop model's weather file"},
    {"*WEATHER", NULL, "a crop model's weather file"},
    {"$WEATHER", NULL, "a crop model's weather file"},
    {"@DATE", NULL, "a crop model's weather file"},
    {"@  DATE", NULL, "a crop model's weather file"},
    {"STATIONS_ID;MESS_DATUM", NULL, "a station file of the German weather service"},
    {"# STN,YYYYMMDD", NULL, "a station file of the Dutch weather service, in tenths"},
    {"STN,YYYYMMDD", NULL, "a station file of the Dutch weather service, in tenths"},
    {"Station Name:", NULL, "a station file of the Irish weather service"},
    {"date", "maxtp", "a station file of the Irish weather service"},
    {"Product code,Bureau", NULL, "a one-variable station file of the Australian weather service"},
    {"station", "YYYY-MM-DD", "an Australian patched-point file"},
    {"\"Station Name\"", NULL, "a station file of the Canadian weather service"},
    {"\"Longitude (x)\"", NULL, "a station file of the Canadian weather service"},
    {"\"Climate Identifier\"", NULL, "a station file of the Canadian weather service"},
    {"\"STATION\"", "TMAX", "United States daily summaries, which do not say their units"},
    {"STATION", "TMAX", "United States daily summaries, which do not say their units"},
    {"\"STATION\"", "PRCP", "United States daily summaries, which do not say their units"},
    {"STATION", "PRCP", "United States daily summaries, which do not say their units"},
    {"station", "tre200dx", "a station file of the Swiss weather service"},
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

static const struct marker *find(const struct weather_file *f, size_t *line_number)
{
    size_t size = f->size < LOOK_BYTES ? f->size : LOOK_BYTES, at = 0;
    for (size_t line = 1; line <= LOOK_LINES && at < size; line++) {
        const char *text = f->bytes + at, *stop = memchr(text, '\n', size - at);
        size_t n = stop ? (size_t)(stop - text) : size - at;
        for (size_t i = 0; i < sizeof markers / sizeof markers[0]; i++) {
            const struct marker *m = &markers[i];
            size_t length = strlen(m->start);
            if (n >= length && memcmp(text, m->start, length) == 0 && (!m->within || has_cell(text, n, m->within))) {
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
    err_set(e, ERR_DATA,
            "is %s, a layout that is not read here. Write it as a table with the columns "
            "date,tmin_c,tmax_c,rain_mm,rad_mj_m2,rh_pct,wind_m_s (the unit stands in the name: tmax_f, rain_inch)",
            find(f, &line)->what);
    err_at(e, f->path, line, 1, NULL);
    return ERR_DATA;
}
