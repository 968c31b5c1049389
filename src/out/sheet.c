/* The page from top to bottom. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/sheet.h"

#include "advice/signs.h"
#include "out/html.h"
#include "out/reminders.h"
#include "out/text.h"
#include "out/today_words.h"

#include <string.h>

enum { TITLE_NAME = 24 }; /* characters of a holding's name in the title of the page: a tab shows no more */

static void head(const struct today_view *v, struct buf *b)
{
    char day[64];
    buf_add(b, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
               "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src '");
    buf_add(b, sheet_style_hash);
    buf_add(b, "'; base-uri 'none'; form-action 'none'\">\n"
               "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
               "<meta name=\"color-scheme\" content=\"light\">\n<title>");
    html_text(b, date_format_long(v->day->date, day, sizeof day), HTML_WHOLE);
    buf_add(b, v->holding->name[0] ? ": " : "");
    html_text(b, v->holding->name, TITLE_NAME);
    buf_add(b, "</title>\n<style>");
    buf_add(b, sheet_style);
    buf_add(b, "</style>\n</head>\n<body>\n");
}

static void header(const struct today_view *v, struct buf *b)
{
    char day[64];
    buf_add(b, "<header>\n");
    html_element(b, "h1", date_format_long(v->day->date, day, sizeof day));
    if (v->holding->name[0]) {
        buf_add(b, "\n<p class=\"place\">");
        html_name(b, v->holding->name);
        buf_add(b, "</p>");
    }
    if (v->provisional) {
        buf_addf(b, "\n<p><strong>Provisional: the weather is %d days old.</strong></p>", v->age_days);
    }
    if (today_first_caution(v)[0]) {
        buf_add(b, "\n<p><strong>");
        html_text(b, today_first_caution(v), HTML_WHOLE);
        buf_add(b, "</strong></p>");
    }
    buf_add(b, "\n</header>\n");
}

static void alarms(const struct today_view *v, struct buf *b)
{
    if (v->alarms == 0) {
        return;
    }
    buf_add(b, "<section aria-labelledby=\"lost\">\n<h2 id=\"lost\">Foot signs that reach no animal</h2>\n"
               "<div class=\"sore\">\n");
    for (size_t i = 0; i < v->alarms; i++) {
        html_element(b, "p", v->alarm[i]);
        buf_add_char(b, '\n');
    }
    buf_add(b, "</div>\n</section>\n");
}

static void list(struct buf *b, const char *class, const char *const *text, size_t n)
{
    buf_addf(b, "<ul class=\"%s\">\n", class);
    for (size_t i = 0; i < n; i++) {
        html_element(b, "li", text[i]);
        buf_add_char(b, '\n');
    }
    buf_add(b, "</ul>\n");
}

static unsigned species_held(const struct today_view *v)
{
    unsigned held = 0;
    for (size_t i = 0; i < v->day->run->animals; i++) {
        held |= 1u << v->day->run->animal[i].group->rules.species;
    }
    return held;
}

static void look_over(const struct today_view *v, struct buf *b)
{
    unsigned held = species_held(v);
    buf_add(b, "<section aria-labelledby=\"look\">\n<h2 id=\"look\">Look at each animal, every morning</h2>\n"
               "<ul class=\"ticks\">\n");
    for (size_t i = 0; i < SIGNS_CHECKS; i++) {
        if (held && signs_checks[i].species && !(signs_checks[i].species & held)) {
            continue;
        }
        buf_add(b, "<li><span aria-hidden=\"true\">\xe2\x98\x90</span> ");
        html_text(b, signs_checks[i].well, HTML_WHOLE);
        buf_add(b, "</li>\n");
    }
    buf_add(b, "</ul>\n<div class=\"pair ring\">\n<div>\n<h3>Ring the vet the same day</h3>\n");
    list(b, "plain", signs_same_day, SIGNS_SAME_DAY_CASES);
    buf_add(b, "</div>\n<div>\n<h3>Ring the vet at once</h3>\n");
    list(b, "plain", signs_at_once, SIGNS_AT_ONCE_CASES);
    buf_add(b, "</div>\n</div>\n");
    html_element(b, "p", signs_alike);
    buf_add(b, "\n</section>\n");
}

static void reminders(const struct today_view *v, struct buf *b)
{
    struct buf line;
    bool begun = false;
    buf_init(&line);
    for (int i = 0; i < REMINDERS; i++) {
        buf_clear(&line);
        if (reminders_text(v, (enum reminder)i, &line)) {
            buf_add(b, begun ? ""
                             : "<section aria-labelledby=\"due\">\n<h2 id=\"due\">To do and to write down</h2>\n"
                               "<ul class=\"ticks due\">\n");
            begun = true;
            buf_add(b, "<li>");
            buf_add(b, i == REMIND_LAST ? "" : "<span aria-hidden=\"true\">\xe2\x98\x90</span> ");
            html_text(b, line.text, HTML_WHOLE);
            buf_add(b, "</li>\n");
        }
    }
    buf_add(b, begun ? "</ul>\n</section>\n" : "");
    buf_release_into(&line, b);
}

static void notes(const struct today_view *v, struct buf *b)
{
    if (v->warnings) {
        buf_add(b, "<section aria-labelledby=\"notes\">\n<h2 id=\"notes\">Notes on the weather and the holding</h2>\n");
        list(b, "plain", v->warning, v->warnings);
        buf_add(b, "</section>\n");
    }
}

static void cautions(const struct today_view *v, struct buf *b)
{
    const char *said[TODAY_CAUTIONS];
    size_t n = today_cautions(v, said);
    buf_add(b, "<section class=\"small\" aria-labelledby=\"mind\">\n<h2 id=\"mind\">Mind</h2>\n");
    list(b, "plain columns", said, n);
    html_element(b, "p", today_level_words);
    buf_add(b, "\n</section>\n");
}

static void footer(const struct today_view *v, struct buf *b)
{
    char date[DATE_TEXT];
    buf_add(b, "<footer>\n<p><strong>");
    html_text(b, text_closing_words, HTML_WHOLE);
    buf_addf(b, "</strong></p>\n<p>Weather %d day%s old, %zu day%s filled in", v->age_days, v->age_days == 1 ? "" : "s",
             v->filled_days, v->filled_days == 1 ? "" : "s");
    if (v->forecast_to != DATE_NONE && v->forecast_to >= v->day->date) {
        buf_addf(b, ", forecast to %s", date_format(v->forecast_to, date));
    }
    buf_add(b, "; its days are");
    for (size_t i = 0; i < v->n_origins; i++) {
        buf_addf(b, "%s %s", i ? "," : "", v->origins[i]);
    }
    buf_add(b, ".</p>\n");
    for (size_t i = 0; i < v->credits; i++) {
        html_element(b, "p", v->credit[i]);
        buf_add_char(b, '\n');
    }
    buf_addf(b, "<p>sugarlea %s, models %s.</p>\n</footer>\n", SUGARLEA_VERSION, v->day->run->params->hash);
}

void sheet_page(const struct sheet *s, struct buf *b)
{
    head(s->v, b);
    header(s->v, b);
    buf_add(b, "<main>\n");
    alarms(s->v, b);
    sheet_groups(s, b);
    sheet_ahead(s, b);
    look_over(s->v, b);
    sheet_grass(s, b);
    reminders(s->v, b);
    notes(s->v, b);
    cautions(s->v, b);
    buf_add(b, "</main>\n");
    footer(s->v, b);
    buf_add(b, "</body>\n</html>\n");
}
