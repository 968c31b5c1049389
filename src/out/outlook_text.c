/* The outlook for people: sentences first, then a table a group and paddock.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/outlook.h"
#include "out/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LINE = 512 };
#define MOST_YEARS 0.8 /* of the years: said of all */

struct sheet {
    const struct outlook_view *v;
    struct page page;
};

static void say(const struct sheet *s, const char *line)
{
    text_wrap(&s->page, "  ", line);
}

static void heading(const struct sheet *s)
{
    const struct ensemble *e = &s->v->ensemble;
    char line[LINE], first[TEXT_DAY], last[TEXT_DAY], date[DATE_TEXT];
    snprintf(line, sizeof line, "Outlook from %s to %s%s%s", text_day(e->first, first),
             text_day(e->first + (double)e->days - 1, last), s->v->holding->name[0] ? "  " : "", s->v->holding->name);
    text_bold(&s->page, line);
    buf_add_char(s->page.b, '\n');
    size_t n = (size_t)snprintf(line, sizeof line,
                                "From the grass as it stands this morning, through the weather of %zu past years (%d "
                                "to %d)",
                                e->years, s->v->first_year, s->v->last_year);
    if (e->draws) {
        n += (size_t)snprintf(line + n, sizeof line - n, " on %zu paddocks each as yours may be: %zu runs, seed %lu",
                              e->draws, e->years * e->draws, s->v->seed);
    }
    n += (size_t)snprintf(line + n, sizeof line - n, ". Weather recorded to %s", date_format(s->v->recorded_to, date));
    if (s->v->forecast_to != DATE_NONE) {
        n += (size_t)snprintf(line + n, sizeof line - n, ", forecast to %s", date_format(s->v->forecast_to, date));
    }
    snprintf(line + n, sizeof line - n, ".");
    text_wrap(&s->page, "", line);
    for (size_t i = 0; i < s->v->warnings; i++) {
        text_wrap(&s->page, "Note: ", s->v->warning[i]);
    }
}

static bool is_never_free(const struct sheet *s, const struct outlook_animal *a)
{
    for (size_t m = 0; m < s->v->outlook.months; m++) {
        if (a->restricted[m].p10 < (double)s->v->outlook.month[m].days) {
            return false;
        }
    }
    return true;
}

static void say_onset(const struct sheet *s, const struct outlook_animal *a)
{
    char line[LINE], by[TEXT_DAY], middle[TEXT_DAY];
    size_t years = s->v->ensemble.years, none = (size_t)lround(a->share_none * (double)years);
    size_t n = 0;
    if (a->share_now >= MOST_YEARS) {
        n = (size_t)snprintf(line, sizeof line, "Grazing has to be shortened from the first day on.");
    } else if (!isnan(a->onset_p80) && a->share_now >= 0.5) {
        n = (size_t)snprintf(line, sizeof line,
                             "5 years in 10, grazing has to be shortened from the first day on; 8 in 10, by %s.",
                             text_day(a->onset_p80, by));
    } else if (!isnan(a->onset_p80)) {
        n = (size_t)snprintf(line, sizeof line, "8 years in 10, shortened grazing has begun by %s; 5 in 10, by %s.",
                             text_day(a->onset_p80, by), text_day(a->onset.p50, middle));
    } else if (!isnan(a->onset.p50)) {
        n = (size_t)snprintf(line, sizeof line, "5 years in 10, shortened grazing has begun by %s.",
                             text_day(a->onset.p50, middle));
    }
    if (none) {
        snprintf(line + n, sizeof line - n, "%sIn %zu of the %zu years it is not needed for six days on end.",
                 n ? " " : "", none, years);
    }
    say(s, line);
}

static void say_end(const struct sheet *s, const struct outlook_animal *a)
{
    char line[LINE], middle[TEXT_DAY], late[TEXT_DAY];
    const struct ensemble *e = &s->v->ensemble;
    if (a->share_none > MOST_YEARS) {
        return;
    }
    size_t on = (size_t)lround(a->share_on * (double)e->years);
    if (isnan(a->end.p50)) {
        snprintf(line, sizeof line, "In %zu of the %zu years it still goes on at the end, %s.", on, e->years,
                 text_day(e->first + (double)e->days - 1, late));
    } else if (on) {
        snprintf(line, sizeof line, "5 years in 10, it is over by %s; in %zu of the %zu it goes on beyond the outlook.",
                 text_day(a->end.p50, middle), on, e->years);
    } else {
        snprintf(line, sizeof line, "5 years in 10, it is over by %s; 9 in 10, by %s.", text_day(a->end.p50, middle),
                 text_day(a->end.p90, late));
    }
    say(s, line);
}

static void add_band(struct buf *b, const struct outlook_band *x, int decimals)
{
    const double value[] = {x->p10, x->p50, x->p90};
    buf_add(b, "  ");
    for (int i = 0; i < 3; i++) {
        if (isnan(value[i])) {
            buf_add(b, "     -");
        } else {
            buf_addf(b, " %5.*f", decimals, value[i]);
        }
    }
}

static void add_converted(const struct sheet *s, enum amount a, int decimals, const struct outlook_band *x)
{
    enum units u = s->v->units;
    const struct outlook_band shown = {units_value(u, a, x->p10), units_value(u, a, x->p50), units_value(u, a, x->p90)};
    add_band(s->page.b, &shown, decimals);
}

static void begin_row(const struct sheet *s, size_t m)
{
    const struct outlook_month *month = &s->v->outlook.month[m];
    buf_addf(s->page.b, "  %04d-%02d %4zu", month->year, month->month, month->days);
}

static void animal_table(const struct sheet *s, const struct outlook_animal *a)
{
    struct buf *b = s->page.b;
    bool drawn = s->v->ensemble.draws > 0;
    buf_addf(b, "\n                    days not free       brief or none%s\n", drawn ? "           if tested" : "");
    buf_addf(b, "  month   days     p10   p50   p90     p10   p50   p90%s\n", drawn ? "     p10   p50   p90" : "");
    for (size_t m = 0; m < s->v->outlook.months; m++) {
        begin_row(s, m);
        add_band(b, &a->restricted[m], 0);
        add_band(b, &a->brief[m], 0);
        if (drawn) {
            add_band(b, &a->tested[m], 0);
        }
        buf_add_char(b, '\n');
    }
}

static void animal(const struct sheet *s, size_t i)
{
    const struct animal_group *g = &s->v->holding->animal[i];
    char line[LINE];
    snprintf(line, sizeof line, "%s: %d x %s on %s", g->id, g->count, g->class_id,
             s->v->holding->paddock[g->paddock].id);
    buf_add_char(s->page.b, '\n');
    text_bold(&s->page, line);
    buf_add_char(s->page.b, '\n');
    if (is_never_free(s, &s->v->outlook.animal[i])) {
        say(s, "Free grazing is not on offer on any day: look at the days of brief or none.");
    } else {
        say_onset(s, &s->v->outlook.animal[i]);
        say_end(s, &s->v->outlook.animal[i]);
    }
    animal_table(s, &s->v->outlook.animal[i]);
}

static void paddock(const struct sheet *s, size_t i)
{
    const struct outlook_paddock *p = &s->v->outlook.paddock[i];
    bool us = s->v->units == SHOW_US;
    struct buf *b = s->page.b;
    buf_add_char(b, '\n');
    text_bold(&s->page, s->v->holding->paddock[i].id);
    buf_addf(b, "\n%33s   sugar+starch, %s\n", us ? "growth, lb/acre" : "growth, kg/ha",
             units_name(s->v->units, AMOUNT_SUGAR));
    buf_add(b, "  month   days     p10   p50   p90     p10   p50   p90\n");
    for (size_t m = 0; m < s->v->outlook.months; m++) {
        begin_row(s, m);
        add_converted(s, AMOUNT_MASS_OF_LAND, 0, &p->growth[m]);
        add_converted(s, AMOUNT_SUGAR, s->v->units == SHOW_US, &p->sugar[m]);
        buf_add_char(b, '\n');
    }
}

static void explain(const struct sheet *s)
{
    char line[LINE];
    buf_add_char(s->page.b, '\n');
    snprintf(
        line, sizeof line,
        "How to read it: in 1 case of 10 less than p10, in 5 of 10 less than p50, in 9 of 10 less than p90. Growth "
        "is dry matter %s in the month; sugar and starch are %s of dry matter.",
        units_land(s->v->units), s->v->units == SHOW_US ? "percent" : "grams a kilogram");
    text_wrap(&s->page, "", line);
    if (s->v->ensemble.animals) {
        text_wrap(&s->page, "",
                  "Days not free and dates are what will be advised if one of those years comes again: they differ by "
                  "the weather alone, since the advice already allows for not knowing your paddock.");
    }
    if (s->v->ensemble.draws) {
        text_wrap(&s->page, "",
                  "\"If tested\" is what a laboratory test of the grass may change: paddocks are sweeter or leaner "
                  "than the model's, and each is advised as it is. Growth and sugar hold paddocks and years.");
    } else {
        text_wrap(&s->page, "", "Growth and sugar differ by the weather alone here: your own paddock is less sure.");
    }
    for (size_t i = 0; i < s->v->credits; i++) {
        text_wrap(&s->page, "", s->v->credit[i]);
    }
    buf_add_char(s->page.b, '\n');
    text_closing(&s->page);
}

void outlook_text(const struct outlook_view *v, bool colour, int width, struct buf *b)
{
    const struct sheet s = {v, {b, width, colour}};
    heading(&s);
    for (size_t i = 0; i < v->ensemble.animals; i++) {
        animal(&s, i);
    }
    for (size_t i = 0; i < v->ensemble.paddocks; i++) {
        paddock(&s, i);
    }
    explain(&s);
}
