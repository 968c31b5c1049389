/* Cells, rows and verdicts. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/review_rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LABEL = 20, CELL = 20, PHRASE = 128 };

static const char *const lead_name[REPLAY_LEADS] = {"this morning", "a day ahead", "3 days ahead"};
static const char *const rival_label[REVIEW_RIVALS] = {"", "  as yesterday", "  the usual"};

const struct review_score *review_row(const struct review_writer *w, size_t lead, const char *score,
                                      enum review_rival rival)
{
    return review_get(w->v->review, w->what, w->subject, lead, score, rival);
}

double review_ours(const struct review_writer *w, size_t lead, const char *score)
{
    return review_row(w, lead, score, REVIEW_OURS)->value;
}

void review_percent(double x, char *text, size_t size)
{
    if (x > 0.995 && x < 1.0) {
        snprintf(text, size, ">99");
    } else if (x > 0.0 && x < 0.005) {
        snprintf(text, size, "<1");
    } else {
        snprintf(text, size, "%.0f", 100.0 * x);
    }
}

static void format_bound(enum review_form form, double x, char *text, size_t size)
{
    static const int decimals[] = {[AS_PERCENT] = 0, [AS_TENTHS] = 1, [AS_THOUSANDTHS] = 3};
    snprintf(text, size, "%.*f", decimals[form], form == AS_PERCENT ? 100.0 * x : x);
}

static void format_value(enum review_form form, double x, char *text, size_t size)
{
    if (form == AS_PERCENT) {
        review_percent(x, text, size);
    } else {
        format_bound(form, x, text, size);
    }
}

static void add_cell(const struct review_score *s, enum review_form form, struct buf *b)
{
    char value[24], low[24], high[24], cell[96] = "not defined";
    const char *unit = form == AS_PERCENT ? " %" : "";
    format_value(form, s->value, value, sizeof value);
    format_bound(form, s->low, low, sizeof low);
    format_bound(form, s->high, high, sizeof high);
    if (s->rival == REVIEW_OURS && !isnan(s->low)) {
        snprintf(cell, sizeof cell, "%s%s (%s-%s)", value, unit, low, high);
    } else if (!isnan(s->value)) {
        snprintf(cell, sizeof cell, "%s%s", value, unit);
    }
    buf_addf(b, "%-*s", CELL, cell);
}

static void add_row(const struct review_writer *w, const char *label, const char *score, enum review_rival rival,
                    enum review_form form)
{
    struct buf *b = w->page.b;
    buf_addf(b, "  %-*s", LABEL - 2, label);
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
        add_cell(review_row(w, lead, score, rival), form, b);
    }
    while (b->length > 0 && b->text[b->length - 1] == ' ') {
        b->text[--b->length] = 0;
    }
    buf_add_char(b, '\n');
}

void review_add_ours(const struct review_writer *w, const char *label, const char *score, enum review_form form)
{
    add_row(w, label, score, REVIEW_OURS, form);
}

void review_add_all(const struct review_writer *w, const char *label, const char *score, enum review_form form)
{
    add_row(w, label, score, REVIEW_OURS, form);
    for (enum review_rival r = REVIEW_PERSISTENCE; r < REVIEW_RIVALS; r++) {
        add_row(w, rival_label[r], score, r, form);
    }
}

void review_begin(const struct review_writer *w, const char *title)
{
    buf_add_char(w->page.b, '\n');
    text_wrap(&w->page, "", title);
    buf_addf(w->page.b, "%-*s", LABEL, "");
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
        buf_addf(w->page.b, "%-*s", lead + 1 < REPLAY_LEADS ? CELL : 0, lead_name[lead]);
    }
    buf_add_char(w->page.b, '\n');
}

void review_say(const struct review_writer *w, const char *line)
{
    text_wrap(&w->page, "  ", line);
}

static const char *verdict(const struct review_score *gain)
{
    if (isnan(gain->low)) {
        return "too few days to tell beside";
    }
    return gain->low > 0.0    ? "clearly better than"
           : gain->high < 0.0 ? "clearly worse than"
                              : "not clearly better than";
}

/* "clearly better than both": by the interval of the gain at one lead. */
static void compare(const struct review_writer *w, const char *gain, size_t lead, char *text, size_t size)
{
    const struct review_score *over_usual = review_row(w, lead, gain, REVIEW_NORMALS);
    const char *yesterday = verdict(review_row(w, lead, gain, REVIEW_PERSISTENCE)), *usual = verdict(over_usual);
    if (isnan(over_usual->value)) {
        snprintf(text, size, "%s \"as yesterday\"", yesterday);
    } else if (yesterday == usual) {
        snprintf(text, size, "%s both", usual);
    } else {
        snprintf(text, size, "%s \"as yesterday\", %s the usual", yesterday, usual);
    }
}

void review_say_verdicts(const struct review_writer *w, const char *gain)
{
    char phrase[REPLAY_LEADS][PHRASE], line[REVIEW_LINE];
    bool alike = true;
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
        compare(w, gain, lead, phrase[lead], PHRASE);
        alike = alike && strcmp(phrase[lead], phrase[0]) == 0;
    }
    if (alike) {
        snprintf(line, sizeof line, "This morning and ahead: %s.", phrase[0]);
    } else {
        snprintf(line, sizeof line, "This morning: %s; a day ahead: %s; 3 days ahead: %s.", phrase[0], phrase[1],
                 phrase[2]);
    }
    review_say(w, line);
}
