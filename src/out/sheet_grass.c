/* The grass of each paddock: words, pictures, and the numbers behind them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/html.h"
#include "out/sheet.h"
#include "out/today_words.h"

#include <math.h>
#include <stdio.h>

enum { WEEK = 7, AXIS_STEP = 100 /* g/kg */ };

struct items {
    struct today_to to;
    struct buf *b;
};

static void say(const struct today_to *to, const char *lead, const char *sentence)
{
    struct buf *b = ((const struct items *)to)->b;
    buf_addf(b, "<li><b>%s:</b> ", lead);
    html_text(b, sentence, HTML_WHOLE);
    buf_add(b, "</li>\n");
}

/* The same axis for all paddocks, so that they can be compared. */
static double axis_high(const struct sheet *s)
{
    double most = AXIS_STEP;
    for (size_t p = 0; p < s->v->day->run->paddocks; p++) {
        const struct run_paddock *k = &s->v->day->run->paddock[p];
        const struct series *c = &s->season[p];
        double low, high;
        run_band(k->expected.nsc_max, k->ln_sd, &low, &high);
        most = fmax(most, high);
        for (size_t i = 0; i < c->n; i++) {
            most = fmax(most, c->day[i].nsc_high);
        }
    }
    return AXIS_STEP * ceil(most / AXIS_STEP);
}

static void cell(struct buf *b, double x, int decimals)
{
    buf_add(b, "<td>");
    buf_add_fixed(b, x, decimals);
    buf_add(b, "</td>");
}

static void sugar_cell(enum units u, double g_kg, struct buf *b)
{
    char text[UNITS_TEXT];
    buf_addf(b, "<td>%s</td>", units_number(u, AMOUNT_SUGAR, g_kg, 0, text));
}

static void hours_table(const struct sheet *s, size_t paddock, struct buf *b)
{
    const struct run_paddock *k = &s->v->day->run->paddock[paddock];
    enum units u = s->v->units;
    buf_addf(b, "<table>\n<caption>Today, hour by hour, %s</caption>\n<thead><tr>", units_of_dry_matter(u));
    buf_add(b, "<th scope=\"col\">At</th><th scope=\"col\">Middle</th><th scope=\"col\">Low</th>"
               "<th scope=\"col\">High</th></tr></thead>\n<tbody>\n");
    for (int h = 1; h <= 24; h++) {
        double level = today_nsc_at(s->v, k->expected.nsc_hour, h), low, high;
        run_band(level, k->ln_sd, &low, &high);
        buf_addf(b, "<tr><th scope=\"row\">%02d:00</th>", h);
        sugar_cell(u, level, b);
        sugar_cell(u, low, b);
        sugar_cell(u, high, b);
        buf_add(b, "</tr>\n");
    }
    buf_add(b, "</tbody>\n</table>\n");
}

static void week_row(const struct series *c, enum units u, size_t from, struct buf *b)
{
    struct series_day mean = {0};
    size_t to = from + WEEK < c->n ? from + WEEK : c->n;
    double share = 1.0 / (double)(to - from);
    char date[16];
    for (size_t i = from; i < to; i++) {
        mean.nsc_mean += share * c->day[i].nsc_mean;
        mean.nsc_low += share * c->day[i].nsc_low;
        mean.nsc_high += share * c->day[i].nsc_high;
        mean.growth += share * c->day[i].growth;
    }
    buf_addf(b, "<tr><th scope=\"row\">%s</th>", date_format_short(c->first + (date_t)from, date, sizeof date));
    sugar_cell(u, mean.nsc_mean, b);
    sugar_cell(u, mean.nsc_low, b);
    sugar_cell(u, mean.nsc_high, b);
    cell(b, units_value(u, AMOUNT_MASS_OF_LAND, mean.growth), 0);
    buf_add(b, "</tr>\n");
}

static void weeks_table(const struct series *c, enum units u, struct buf *b)
{
    buf_addf(b,
             "<table>\n<caption>The season so far: sugar in %s, growth in %s %s and day, means of a week</caption>\n",
             units_of_dry_matter(u), units_name(u, AMOUNT_MASS_OF_LAND), units_land(u));
    buf_add(b, "<thead><tr><th scope=\"col\">Week from</th><th scope=\"col\">Middle</th><th scope=\"col\">Low</th>"
               "<th scope=\"col\">High</th><th scope=\"col\">Growth</th></tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < c->n; i += WEEK) {
        week_row(c, u, i, b);
    }
    buf_add(b, "</tbody>\n</table>\n");
}

static void turnout_table(const struct series *c, struct buf *b)
{
    buf_addf(b,
             "<table>\n<caption>Of the last %zu days, by what the morning advised</caption>\n<thead><tr>"
             "<th scope=\"col\">Group</th><th scope=\"col\">Free</th><th scope=\"col\">Timed</th>"
             "<th scope=\"col\">Brief</th><th scope=\"col\">None</th></tr></thead>\n<tbody>\n",
             c->n);
    for (size_t a = 0; a < c->animals; a++) {
        int days[TURNOUT_NONE + 1] = {0};
        for (size_t i = 0; i < c->n; i++) {
            days[series_turnout(c, a, i)->turnout]++;
        }
        buf_add(b, "<tr><th scope=\"row\">");
        html_name(b, c->group[a].is->id);
        buf_add(b, "</th>");
        for (int t = TURNOUT_FREE; t <= TURNOUT_NONE; t++) {
            cell(b, days[t], 0);
        }
        buf_add(b, "</tr>\n");
    }
    buf_add(b, "</tbody>\n</table>\n");
}

void sheet_tables(const struct sheet *s, size_t paddock, struct buf *b)
{
    const struct series *c = &s->season[paddock];
    buf_add(b, "<details>\n<summary>The numbers behind the pictures</summary>\n");
    hours_table(s, paddock, b);
    if (c->n > 0) {
        weeks_table(c, s->v->units, b);
    }
    if (c->n > 0 && c->animals > 0) {
        turnout_table(c, b);
    }
    buf_add(b, "</details>\n");
}

static void paddock(const struct sheet *s, size_t i, double high, struct buf *b)
{
    const struct items items = {{say}, b};
    buf_add(b, "<div class=\"paddock\">\n<h3>");
    html_name(b, s->v->day->run->paddock[i].kept->id);
    buf_add(b, "</h3>\n<ul class=\"plain\">\n");
    today_say_paddock(s->v, i, &items.to);
    buf_add(b, "</ul>\n<div class=\"charts\">\n");
    sheet_hours(s, i, high, b);
    if (s->season[i].n > 0) {
        sheet_season(s, i, high, b);
    }
    buf_add(b, "</div>\n");
    sheet_tables(s, i, b);
    buf_add(b, "</div>\n");
}

static void key(struct buf *b)
{
    buf_add(b, "<p class=\"key\">Turnout:");
    for (int t = TURNOUT_FREE; t <= TURNOUT_NONE; t++) {
        buf_add(b, t ? ", " : " ");
        sheet_mark((enum turnout)t, b);
        buf_add(b, turnout_name((enum turnout)t));
    }
    buf_add(b, ". The darker and higher the mark, the less grazing. Shaded: 8 paddocks in 10 lie within.</p>\n");
}

void sheet_grass(const struct sheet *s, struct buf *b)
{
    double high = axis_high(s);
    buf_addf(b, "<section aria-labelledby=\"grass\">\n<h2 id=\"grass\">Sugar and starch of the grass, %s</h2>\n",
             units_of_dry_matter(s->v->units));
    key(b);
    buf_add(b, "<div class=\"paddocks\">\n");
    for (size_t i = 0; i < s->v->day->run->paddocks; i++) {
        paddock(s, i, high, b);
    }
    buf_add(b, "</div>\n</section>\n");
}
