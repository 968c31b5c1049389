/* What to do with each group, this morning and on those ahead.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/html.h"
#include "out/sheet.h"
#include "out/signs.h"
#include "out/today_words.h"

#include <math.h>
#include <stdio.h>

struct sentences { /* as paragraphs, or as items of a list */
    struct today_to to;
    struct buf *b;
    const char *tag;
};

static void say(const struct today_to *to, const char *lead, const char *sentence)
{
    const struct sentences *s = (const struct sentences *)to;
    buf_addf(s->b, "<%s>", s->tag);
    if (lead[0]) {
        buf_addf(s->b, "<b>%s:</b> ", lead);
    }
    html_text(s->b, sentence, HTML_WHOLE);
    buf_addf(s->b, "</%s>\n", s->tag);
}

static void say_plain(const struct today_to *to, const char *lead, const char *sentence)
{
    (void)lead; /* a turnout has none */
    html_text(((const struct sentences *)to)->b, sentence, HTML_WHOLE);
}

/* Why in short: the reason that weighs most, and what a muzzle makes of it. */
static void why(const struct run_animal *a, const struct sentences *to)
{
    char text[512];
    int first = 0;
    while (first < REASON_COUNT && !advice_has(&a->advice, (enum advice_reason)first)) {
        first++;
    }
    if (first < REASON_COUNT) {
        say(&to->to, "Why", advice_reason_text((enum advice_reason)first, &a->advice, &a->input, text, sizeof text));
    }
    if (first < REASON_MUZZLE && advice_has(&a->advice, REASON_MUZZLE)) {
        say(&to->to, "Muzzle", advice_reason_text(REASON_MUZZLE, &a->advice, &a->input, text, sizeof text));
    }
}

static void together(const struct today_view *v, const struct run_animal *a, struct buf *b)
{
    char text[UNITS_TEXT];
    double kg = today_hay_kg(&a->advice) * a->group->count;
    if (a->group->count > 1 && kg > 0.0) {
        buf_addf(b, "<p>All %d: %s.</p>\n", a->group->count, units_text(v->units, AMOUNT_MASS, kg, 1, text));
    }
}

static void group(const struct today_view *v, size_t i, struct buf *b)
{
    const struct run_animal *a = &v->day->run->animal[i];
    const struct sentences plain = {{say_plain}, b, ""}, lines = {{say}, b, "p"}, items = {{say}, b, "li"};
    char id[32], kg[TODAY_WEIGHT];
    snprintf(id, sizeof id, "clock%zu", i);
    buf_add(b, "<li class=\"group\">\n<h3>");
    html_name(b, a->group->id);
    buf_addf(b, "</h3>\n<p class=\"who\">%d x %s, %s, on ", a->group->count, a->group->class_id,
             today_weight(v, a->group, kg));
    html_name(b, v->holding->paddock[a->group->paddock].id);
    buf_add(b, "</p>\n<p class=\"action\">");
    sheet_mark(a->advice.turnout, b);
    today_say_turnout(v, a, &plain.to);
    buf_add(b, "</p>\n<div class=\"hay\">\n");
    today_say_frost(v, a, &lines.to);
    today_say_hay(v, a, &lines.to);
    today_say_limits(a, &lines.to);
    together(v, a, b);
    today_say_lacking(v, a, &lines.to);
    buf_add(b, "</div>\n");
    sheet_clock(v, a, id, b);
    buf_add(b, "<div class=\"why\">\n");
    why(a, &lines);
    today_say_what_if(v, a, &lines.to);
    buf_add(b, "</div>\n<details>\n<summary>All reasons and the ration</summary>\n<ul>\n");
    today_say_reasons(a, &items.to);
    today_say_ration(v, a, &items.to);
    buf_add(b, "</ul>\n</details>\n</li>\n");
}

/* Those with foot signs or acute, or the others. */
static void groups(const struct today_view *v, bool sore, struct buf *b)
{
    for (size_t i = 0; i < v->day->run->animals; i++) {
        if (signs_stand(&v->day->run->animal[i]) == sore) {
            group(v, i, b);
        }
    }
}

static void sore_group(const struct run_animal *a, const struct signs_told *t, struct buf *b)
{
    buf_add(b, "<div class=\"sore\">\n<h3>");
    html_name(b, a->group->id);
    buf_addf(b, ": %s</h3>\n", signs_call(t->urgency));
    buf_add(b, t->others ? "<p>Signs in more than one group.</p>\n" : "");
    buf_add(b, "<div class=\"pair\">\n<div>\n<h4>Until the vet comes</h4>\n<ul class=\"plain\">\n");
    for (size_t i = 0; i < SIGNS_ACTIONS; i++) {
        html_element(b, "li", signs_actions[i]);
        buf_add_char(b, '\n');
    }
    buf_add(b, "</ul>\n</div>\n<div>\n<h4>Tell the vet</h4>\n<ul class=\"plain\">\n");
    for (size_t i = 0; i < t->n; i++) {
        html_element(b, "li", t->line[i]);
        buf_add_char(b, '\n');
    }
    buf_add(b, "</ul>\n</div>\n</div>\n</div>\n");
}

static void sore_groups(const struct today_view *v, struct buf *b)
{
    bool begun = false, signs = false;
    for (size_t i = 0; i < v->day->run->animals; i++) {
        signs = signs || v->day->run->animal[i].seen.words != 0;
    }
    for (size_t i = 0; i < v->day->run->animals; i++) {
        struct signs_told told;
        if (signs_tell(v, &v->day->run->animal[i], &told)) {
            if (!begun) {
                buf_addf(b, "<section aria-labelledby=\"signs\">\n<h2 id=\"signs\">%s first</h2>\n",
                         signs ? "Foot signs come" : "The acute case comes");
            }
            begun = true;
            sore_group(&v->day->run->animal[i], &told, b);
        }
    }
    buf_add(b, begun ? "</section>\n" : "");
}

void sheet_groups(const struct sheet *s, struct buf *b)
{
    const struct sentences lines = {{say}, b, "p"};
    sore_groups(s->v, b);
    if (s->v->day->run->animals == 0) {
        return;
    }
    buf_add(b, "<section aria-labelledby=\"do\">\n<h2 id=\"do\">This morning</h2>\n");
    buf_add(b, "<ul class=\"groups\">\n");
    groups(s->v, true, b);
    groups(s->v, false, b);
    buf_add(b, "</ul>\n<div class=\"basis\">\n<p>The bars are the hours of the day: white on grass, hatched off "
               "grass.</p>\n");
    today_say_basis(s->v, &lines.to);
    buf_add(b, "</div>\n</section>\n");
}

static void ahead_row(const struct today_view *day, const struct run_animal *a, struct buf *b)
{
    const struct advice *x = &a->advice;
    char date[16], hours[32], window[TODAY_WINDOW], sugar[UNITS_TEXT];
    const char *frost = today_frost_name(day->day);
    buf_addf(b, "<tr><th scope=\"row\">%s</th><td>%s", date_format_short(day->day->date, date, sizeof date),
             turnout_name(x->turnout));
    if (today_window(day, x, window)[0]) {
        buf_addf(b, ": %s, %s", units_hours(x->hours, hours, sizeof hours), window);
    }
    buf_addf(b, "%s%s%s</td><td>", x->muzzle ? ", muzzle" : "", frost[0] ? ", " : "", frost);
    buf_add_fixed(b, units_value(day->units, AMOUNT_MASS, today_hay_kg(x)), 1);
    buf_addf(
        b, "</td><td>%s</td></tr>\n",
        units_number(day->units, AMOUNT_SUGAR, day->day->run->paddock[a->group->paddock].expected.nsc_mean, 0, sugar));
}

void sheet_ahead(const struct sheet *s, struct buf *b)
{
    struct today_view day = *s->v;
    if (day.days < 2 || day.day->run->animals == 0) {
        return;
    }
    buf_add(b, "<section aria-labelledby=\"ahead\">\n<h2 id=\"ahead\">The next days, by the forecast</h2>\n"
               "<div class=\"pair\">\n");
    for (size_t i = 0; i < s->v->day->run->animals; i++) {
        buf_add(b, "<table>\n<caption>");
        html_name(b, s->v->day->run->animal[i].group->id);
        buf_addf(b, ": hay in %s a head, sugar of the grass in %s</caption>\n<thead><tr><th scope=\"col\">Day</th>",
                 units_name(day.units, AMOUNT_MASS), units_name(day.units, AMOUNT_SUGAR));
        buf_add(b, "<th scope=\"col\">Turnout</th><th scope=\"col\">Hay</th><th scope=\"col\">Sugar</th></tr></thead>\n"
                   "<tbody>\n");
        for (size_t k = 1; k < s->v->days; k++) {
            day.day = &s->v->day[k];
            ahead_row(&day, &day.day->run->animal[i], b);
        }
        buf_add(b, "</tbody>\n</table>\n");
    }
    buf_add(b, "</div>\n");
    html_element(b, "p", today_ahead_words);
    buf_add(b, "\n</section>\n");
}
