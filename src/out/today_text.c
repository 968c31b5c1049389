/* The morning advice for people: what to do first, then why.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/signs.h"
#include "out/today_words.h"

#include <stdio.h>
#include <string.h>

struct sheet {
    const struct today_view *v;
    struct page page;
};

struct lines { /* sentences as wrapped lines */
    struct today_to to;
    const struct page *page;
    const char *before; /* each */
};

static void say(const struct today_to *to, const char *lead, const char *sentence)
{
    const struct lines *l = (const struct lines *)to;
    char start[48];
    snprintf(start, sizeof start, "%s%s%s", l->before, lead, lead[0] ? ": " : "");
    text_wrap(l->page, start, sentence);
}

static void say_bold(const struct today_to *to, const char *lead, const char *sentence)
{
    const struct lines *l = (const struct lines *)to;
    (void)lead; /* a turnout has none */
    text_wrap_bold(l->page, l->before, sentence);
}

static void heading(const struct sheet *p)
{
    char day[64], line[LIMIT_TEXT + 80];
    const struct today_view *v = p->v;
    const struct lines plain = {{say}, &p->page, ""};
    snprintf(line, sizeof line, "%s%s%s", date_format_long(v->day->date, day, sizeof day),
             v->holding->name[0] ? "  " : "", v->holding->name);
    text_bold(&p->page, line);
    buf_add_char(p->page.b, '\n');
    signs_alarms(&p->page, v);
    today_say_basis(v, &plain.to);
    for (size_t i = 0; i < v->warnings; i++) {
        text_wrap(&p->page, "Note: ", v->warning[i]);
    }
}

/* The list to act on: every group's turnout and hay, before any reason. */
static void group_action(const struct sheet *p, const struct run_animal *a)
{
    const struct lines bold = {{say_bold}, &p->page, "  "}, lines = {{say}, &p->page, "  "};
    char kg[TODAY_WEIGHT];
    buf_addf(p->page.b, "\n%s: %d x %s, %s, on %s\n", a->group->id, a->group->count, a->group->class_id,
             today_weight(p->v, a->group, kg), p->v->holding->paddock[a->group->paddock].id);
    today_say_turnout(p->v, a, &bold.to);
    today_say_frost(p->v, a, &lines.to);
    today_say_hay(p->v, a, &lines.to);
    today_say_lacking(p->v, a, &lines.to);
    today_say_limits(a, &lines.to);
    signs_text(&p->page, p->v, a);
}

/* Of those with foot signs or acute, or of the others. */
static void actions(const struct sheet *p, bool sore)
{
    for (size_t i = 0; i < p->v->day->run->animals; i++) {
        const struct run_animal *a = &p->v->day->run->animal[i];
        if (signs_stand(a) == sore) {
            group_action(p, a);
        }
    }
}

static void group_reasons(const struct sheet *p, const struct run_animal *a)
{
    const struct lines lines = {{say}, &p->page, "  - "};
    buf_addf(p->page.b, "\nWhy, for %s:\n", a->group->id);
    today_say_reasons(a, &lines.to);
    today_say_ration(p->v, a, &lines.to);
    today_say_what_if(p->v, a, &lines.to);
}

static void ahead_row(const struct sheet *p, const struct today_view *day, const struct run_animal *a)
{
    const struct advice *x = &a->advice;
    const struct sward_result *grass = &day->day->run->paddock[a->group->paddock].expected;
    char date[16], hours[32] = "", window[TODAY_WINDOW], sugar[UNITS_TEXT];
    if (today_window(day, x, window)[0]) {
        units_hours(x->hours, hours, sizeof hours);
    }
    buf_addf(p->page.b, "  %-10s  %-5s  %-11s  %-14s  %4.1f  %5s%s%s%s\n",
             date_format_short(day->day->date, date, sizeof date), turnout_name(x->turnout), hours, window,
             units_value(day->units, AMOUNT_MASS, today_hay_kg(x)),
             units_number(day->units, AMOUNT_SUGAR, grass->nsc_mean, 0, sugar), x->muzzle ? "  muzzle" : "",
             today_frost_name(day->day)[0] ? "  " : "", today_frost_name(day->day));
}

/* The mornings ahead, a table for each group. */
static void ahead(const struct sheet *p)
{
    struct today_view day = *p->v;
    for (size_t i = 0; i < p->v->day->run->animals && p->v->days > 1; i++) {
        buf_addf(p->page.b, "\nThe days ahead by the forecast, for %s (hay in %s a head, sugar of the grass in %s):\n",
                 p->v->day->run->animal[i].group->id, units_name(p->v->units, AMOUNT_MASS),
                 units_name(p->v->units, AMOUNT_SUGAR));
        buf_addf(p->page.b, "  %-10s  %-5s  %-11s  %-14s  %4s  %5s\n", "", "", "on grass", "", "hay", "sugar");
        for (size_t k = 1; k < p->v->days; k++) {
            day.day = &p->v->day[k];
            ahead_row(p, &day, &day.day->run->animal[i]);
        }
    }
    if (p->v->days > 1) {
        text_wrap(&p->page, "  ", today_ahead_words);
    }
}

static void cautions(const struct sheet *p)
{
    const char *said[TODAY_CAUTIONS];
    size_t n = today_cautions(p->v, said);
    for (size_t i = 0; i < n; i++) {
        text_wrap(&p->page, i ? "      " : "\nMind: ", said[i]);
    }
}

static void paddock(const struct sheet *p, size_t index)
{
    const struct lines lines = {{say}, &p->page, "  "};
    buf_addf(p->page.b, "\n%s: sugar and starch of the grass, %s\n", p->v->day->run->paddock[index].kept->id,
             units_of_dry_matter(p->v->units));
    today_say_paddock(p->v, index, &lines.to);
}

static void closing(const struct sheet *p)
{
    buf_add_char(p->page.b, '\n');
    text_wrap(&p->page, "", today_level_words);
    text_closing(&p->page);
    for (size_t i = 0; i < p->v->credits; i++) {
        text_wrap(&p->page, i ? "         " : "Weather: ", p->v->credit[i]);
    }
}

void today_text(const struct today_view *v, bool colour, int width, struct buf *b)
{
    const struct sheet p = {v, {b, width, colour}};
    heading(&p);
    actions(&p, true);
    actions(&p, false);
    ahead(&p);
    for (size_t i = 0; i < v->day->run->animals; i++) {
        group_reasons(&p, &v->day->run->animal[i]);
    }
    for (size_t i = 0; i < v->day->run->paddocks; i++) {
        paddock(&p, i);
    }
    cautions(&p);
    closing(&p);
}

void today_short_text(const struct today_view *v, bool colour, int width, struct buf *b)
{
    const struct sheet p = {v, {b, width, colour}};
    heading(&p);
    actions(&p, true);
    actions(&p, false);
    buf_add_char(b, '\n');
    text_wrap(&p.page, "", "\"sugarlea today\" says why.");
    closing(&p);
}
