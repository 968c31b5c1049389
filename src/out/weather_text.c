/* What weather there is, for people: what to mend first.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/text.h"
#include "out/weather_strip.h"

#include <math.h>
#include <stdio.h>

enum { DOUBTS_SHOWN = 20 };

static void span(const struct page *p, const struct weather_view *v)
{
    char line[LIMIT_TEXT + 80], first[DATE_TEXT], last[DATE_TEXT];
    snprintf(line, sizeof line, "Weather%s%s, %s to %s", v->holding[0] ? " of " : "", v->holding,
             date_format(v->read->day0, first), date_format(v->read->day0 + (date_t)v->read->n - 1, last));
    text_bold(p, line);
    buf_add(p->b, "\n");
}

static void source(const struct page *p, const struct source_read *s)
{
    char line[LIMIT_PATH + 200], first[DATE_TEXT], last[DATE_TEXT], missing[48], fetched[DATE_TIME_TEXT];
    if (s->days == 0) {
        text_wrap(p, "  Nothing: ", s->trouble);
        return;
    }
    snprintf(missing, sizeof missing, s->missing_days ? "%zu of them lacking something" : "none missing",
             s->missing_days);
    snprintf(line, sizeof line, "%s (%s): %s to %s, %zu days, %s%s%s.", s->name, s->layout,
             date_format(s->first, first), date_format(s->last, last), s->days, missing, s->fetched ? "; fetched " : "",
             s->fetched ? date_format_time(s->fetched, fetched) : "");
    text_wrap(p, "  ", line);
    if (s->trouble[0]) {
        text_wrap(p, "    Not renewed: ", s->trouble);
    }
    if (s->credit[0]) {
        text_wrap(p, "    ", s->credit);
    }
}

/* The last day on which something was recorded, of each variable. */
static void reach(const struct page *p, const struct weather_view *v)
{
    static const struct {
        enum weather_var var;
        const char *name;
    } row[] = {{WEATHER_TMIN, "minimum temperature"},
               {WEATHER_TMAX, "maximum temperature"},
               {WEATHER_RAIN, "rain"},
               {WEATHER_RAD, "radiation"},
               {WEATHER_RH, "humidity"},
               {WEATHER_WIND, "wind"}};
    buf_add(p->b, "\nRecorded to\n");
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        char date[DATE_TEXT];
        date_t last = weather_days_recorded_to(v->read, row[k].var);
        int age = last == DATE_NONE ? 0 : v->date - 1 - last;
        if (last == DATE_NONE) {
            buf_addf(p->b, "  %-20s never%s\n", row[k].name,
                     row[k].var == WEATHER_RAD ? " (estimated from the temperatures)" : "");
        } else {
            buf_addf(p->b, "  %-20s %s", row[k].name, date_format(last, date));
            buf_addf(p->b, age > 0 ? ", %d day%s old\n" : "\n", age, age == 1 ? "" : "s");
        }
    }
}

static void counts(const struct page *p, const struct weather_view *v)
{
    struct weather_count n;
    char line[200];
    weather_count(v, &n);
    snprintf(line, sizeof line, "%zu days recorded, %zu forecast, %zu filled in, %zu missing.", n.recorded, n.forecast,
             n.filled, n.missing);
    buf_add(p->b, "\n");
    text_wrap(p, "", line);
    buf_add(p->b, "\n");
    weather_strip(v, p->b);
    buf_addf(p->b, "  %s\n", weather_strip_legend);
}

/* The newest first: they bear on this morning. */
static void doubts(const struct page *p, const struct weather_view *v)
{
    char text[LIMIT_TEXT];
    const struct quality *q = v->quality;
    if (q->total == 0 && v->notes == 0) {
        buf_add(p->b, "\nNothing in it looks wrong.\n");
        return;
    }
    buf_add(p->b, "\nTo look at (nothing was changed for it, unless it says so)\n");
    for (size_t i = 0; i < v->notes; i++) {
        text_wrap(p, "  ", v->note[i]);
    }
    for (size_t i = q->n; i > 0 && q->n - i < DOUBTS_SHOWN; i--) {
        text_wrap(p, "  ", quality_text(&q->doubt[i - 1], v->units, text, sizeof text));
    }
    if (q->total > DOUBTS_SHOWN) {
        buf_addf(p->b, "  ... and %zu earlier ones; --json lists them\n", q->total - DOUBTS_SHOWN);
    }
    if (q->total) {
        text_wrap(p, "",
                  "A sound record has such days too, up to one in a hundred: look, and leave it where it is right.");
    }
}

static void stops(const struct page *p, const struct weather_view *v)
{
    if (v->stops[0]) {
        text_wrap(p, "No advice until this is mended: ", v->stops);
    }
}

void weather_troubles(const struct weather_view *v, const struct page *page)
{
    stops(page, v);
    for (size_t i = 0; i < v->sources->n; i++) {
        if (v->sources->source[i].trouble[0]) {
            source(page, &v->sources->source[i]);
        }
    }
}

void weather_text(const struct weather_view *v, bool colour, int width, struct buf *b)
{
    const struct page p = {b, width, colour};
    span(&p, v);
    stops(&p, v);
    for (size_t i = 0; i < v->sources->n; i++) {
        source(&p, &v->sources->source[i]);
    }
    reach(&p, v);
    counts(&p, v);
    doubts(&p, v);
}
