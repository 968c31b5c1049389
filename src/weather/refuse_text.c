/* Text layouts that must not be taken for a plain table: their units, flags or dates are
 * not what the names of their columns suggest, or they hold no daily weather.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"

#include <assert.h>

#define NOT_A_RECORD                                                                                                   \
    "which is out of scope here. Fetch the record it was made from: the service's own daily CSV or JSON of the place"
#define MONTHLY                                                                                                        \
    "and daily values are needed. Fetch the daily record of a station, or daily values of the place from a "           \
    "reanalysis or a forecast service (NASA POWER, Open-Meteo)"

static const struct marker {
    const char *start;   /* of a line; a blank in it stands for any run of blanks and tabs */
    const char *what;    /* the file is */
    const char *instead; /* what to do */
} markers[] = {
    {"[weather.met.weather]", "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"*WEATHER", "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"$WEATHER", "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"@DATE", "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"@ DATE", "a weather file of a simulation program (a crop model)", NOT_A_RECORD},
    {"yyyy mm tmax", "a monthly record of a British station", MONTHLY},
    {" yyyy mm tmax", "a monthly record of a British station", MONTHLY},
};

static bool is_blank(char x)
{
    return x == ' ' || x == '\t';
}

static bool starts_with(const struct line *line, const char *start)
{
    size_t i = 0;
    for (; *start; start++) {
        if (i == line->n || (*start == ' ' ? !is_blank(line->text[i]) : line->text[i] != *start)) {
            return false;
        }
        i++;
        while (*start == ' ' && i < line->n && is_blank(line->text[i])) {
            i++;
        }
    }
    return true;
}

/* The marker of the file and its line; NULL when it has none. */
static const struct marker *find(const struct weather_file *f, struct line *line)
{
    *line = (struct line){0};
    while (line_next(f, line)) {
        for (size_t i = 0; i < sizeof markers / sizeof markers[0]; i++) {
            const struct marker *m = &markers[i];
            if (starts_with(line, m->start)) {
                return m;
            }
        }
    }
    return NULL;
}

bool refuse_text_is(const struct weather_file *f)
{
    struct line line;
    return find(f, &line) != NULL;
}

enum err_code refuse_text(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct line line;
    (void)a, (void)set;
    const struct marker *m = find(f, &line);
    assert(m != NULL); /* refuse_text_is said so */
    return line_fail(f, &line, NULL, e, "is %s, %s", m->what, m->instead);
}
