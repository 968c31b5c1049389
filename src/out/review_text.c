/* Scores for people: a few rows, a column for each lead, and under them a sentence that
 * says what they mean. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/review.h"
#include "out/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LABEL = 20, CELL = 20, LINE = 512, PHRASE = 128 };

static const char *const lead_name[REPLAY_LEADS] = {"this morning", "a day ahead", "3 days ahead"};
static const char *const rival_label[REVIEW_RIVALS] = {"", "  as yesterday", "  the usual"};

enum form { AS_PERCENT, AS_TENTHS, AS_THOUSANDTHS };

struct writer {
    const struct review_view *v;
    struct page page;
    enum review_what what;
    size_t subject;
};

static const struct review_score *find(const struct writer *w, size_t lead, const char *score, enum review_rival rival)
{
    return review_get(w->v->review, w->what, w->subject, lead, score, rival);
}

static double value_of(const struct writer *w, size_t lead, const char *score)
{
    return find(w, lead, score, REVIEW_OURS)->value;
}

/* Not quite all is not all, and hardly ever is not never. */
static void format_percent(double x, char *text, size_t size)
{
    if (x > 0.995 && x < 1.0) {
        snprintf(text, size, ">99");
    } else if (x > 0.0 && x < 0.005) {
        snprintf(text, size, "<1");
    } else {
        snprintf(text, size, "%.0f", 100.0 * x);
    }
}

static void format_bound(enum form form, double x, char *text, size_t size)
{
    static const int decimals[] = {[AS_PERCENT] = 0, [AS_TENTHS] = 1, [AS_THOUSANDTHS] = 3};
    snprintf(text, size, "%.*f", decimals[form], form == AS_PERCENT ? 100.0 * x : x);
}

static void format_value(enum form form, double x, char *text, size_t size)
{
    if (form == AS_PERCENT) {
        format_percent(x, text, size);
    } else {
        format_bound(form, x, text, size);
    }
}

static void add_cell(const struct review_score *s, enum form form, struct buf *b)
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

static void add_row(const struct writer *w, const char *label, const char *score, enum review_rival rival,
                    enum form form)
{
    struct buf *b = w->page.b;
    buf_addf(b, "  %-*s", LABEL - 2, label);
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
        add_cell(find(w, lead, score, rival), form, b);
    }
    while (b->length > 0 && b->text[b->length - 1] == ' ') {
        b->text[--b->length] = 0;
    }
    buf_add_char(b, '\n');
}

static void add_rows(const struct writer *w, const char *label, const char *score, enum form form)
{
    add_row(w, label, score, REVIEW_OURS, form);
    for (enum review_rival r = REVIEW_PERSISTENCE; r < REVIEW_RIVALS; r++) {
        add_row(w, rival_label[r], score, r, form);
    }
}

/* A block's title, then the leads above their columns. */
static void begin(const struct writer *w, const char *title)
{
    buf_add_char(w->page.b, '\n');
    text_wrap(&w->page, "", title);
    buf_addf(w->page.b, "%-*s", LABEL, "");
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
        buf_addf(w->page.b, "%-*s", lead + 1 < REPLAY_LEADS ? CELL : 0, lead_name[lead]);
    }
    buf_add_char(w->page.b, '\n');
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
static void compare(const struct writer *w, const char *gain, size_t lead, char *text, size_t size)
{
    const struct review_score *over_usual = find(w, lead, gain, REVIEW_NORMALS);
    const char *yesterday = verdict(find(w, lead, gain, REVIEW_PERSISTENCE)), *usual = verdict(over_usual);
    if (isnan(over_usual->value)) {
        snprintf(text, size, "%s \"as yesterday\"", yesterday);
    } else if (yesterday == usual) {
        snprintf(text, size, "%s both", usual);
    } else {
        snprintf(text, size, "%s \"as yesterday\", %s the usual", yesterday, usual);
    }
}

static void say_verdicts(const struct writer *w, const char *gain)
{
    char phrase[REPLAY_LEADS][PHRASE], line[LINE];
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
    text_wrap(&w->page, "  ", line);
}

static void say(const struct writer *w, const char *line)
{
    text_wrap(&w->page, "  ", line);
}

static void add_sugar(struct writer *w)
{
    char line[LINE];
    w->what = REVIEW_NSC;
    snprintf(line, sizeof line, "Sugar and starch, %s: how far off on average (g a kg of dry matter)",
             review_id(w->v, w->what, w->subject));
    begin(w, line);
    add_rows(w, "off by", "mae", AS_TENTHS);
    snprintf(line, sizeof line,
             "On average the day's sugar lay %.0f g a kg from what its morning said, and %.0f from what was said three "
             "days before.",
             value_of(w, 0, "mae"), value_of(w, REPLAY_LEADS - 1, "mae"));
    say(w, line);
    say_verdicts(w, "mae_gain");
    add_row(w, "in the 80 % band", "coverage80", REVIEW_OURS, AS_PERCENT);
    snprintf(line, sizeof line,
             "The allowance for unknown weather should hold 80 days in 100: it held %.0f on the day, and %.0f when "
             "looking three days ahead without a forecast.",
             100.0 * value_of(w, 0, "coverage80"), 100.0 * value_of(w, REPLAY_LEADS - 1, "coverage80"));
    say(w, line);
}

static void add_growth(struct writer *w)
{
    char line[LINE];
    w->what = REVIEW_GROWTH;
    snprintf(line, sizeof line, "Growth, %s: how far off on average (kg of dry matter a hectare and day)",
             review_id(w->v, w->what, w->subject));
    begin(w, line);
    add_rows(w, "off by", "mae", AS_TENTHS);
    snprintf(line, sizeof line, "On average the day grew %.0f kg a hectare more or less than its morning said.",
             value_of(w, 0, "mae"));
    say(w, line);
    say_verdicts(w, "mae_gain");
}

/* Words of an event: restricted or strict. */
struct event {
    enum review_what what;
    const char *name, *means, *not_so;
};
static const struct event event_table[] = {
    {REVIEW_RESTRICTED, "restricted", "not free", "\"free\""},
    {REVIEW_STRICT, "brief or none", "an hour at most, or off grass", "a longer time"},
};
enum { EVENTS = sizeof event_table / sizeof event_table[0] };

static void say_calls(const struct writer *w, const struct event *e)
{
    char line[LINE], share[REPLAY_LEADS][24];
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
        format_percent(value_of(w, lead, "hit_rate"), share[lead], sizeof share[lead]);
    }
    snprintf(line, sizeof line,
             "Of the days that turned out %s, %s %% had been called so that morning, %s %% the day before, %s %% three "
             "days before; of the others %s had been said.",
             e->name, share[0], share[1], share[2], e->not_so);
    say(w, line);
}

static void say_alarms(const struct writer *w, const struct event *e)
{
    char line[LINE];
    double today = value_of(w, 0, "false_alarm_ratio"), ahead = value_of(w, REPLAY_LEADS - 1, "false_alarm_ratio");
    if (isnan(today) || isnan(ahead)) {
        snprintf(line, sizeof line, "There are leads at which no day was called %s: nothing could be called in vain.",
                 e->name);
    } else {
        char now[24], later[24];
        format_percent(today, now, sizeof now);
        format_percent(ahead, later, sizeof later);
        snprintf(line, sizeof line,
                 "Of the mornings that called %s, %s %% could have had %s by the full record; of calls three days "
                 "ahead, %s %%.",
                 e->name, now, e->not_so, later);
    }
    say(w, line);
}

static void add_event(struct writer *w, const struct event *e)
{
    char line[LINE], share[24];
    w->what = e->what;
    const struct review_score *base = find(w, 0, "base_rate", REVIEW_OURS);
    const char *id = review_id(w->v, w->what, w->subject);
    if (isnan(base->value) || base->value <= 0.0 || base->value >= 1.0) {
        snprintf(line, sizeof line, "Turnout of %s, %s (%s): %s of %zu days. Nothing to tell apart: not defined.", id,
                 e->name, e->means, base->value >= 1.0 ? "all" : "none", base->n);
        text_wrap(&w->page, "\n", line);
        return;
    }
    format_percent(base->value, share, sizeof share);
    snprintf(line, sizeof line, "Turnout of %s, %s (%s): %s of 100 days", id, e->name, e->means, share);
    begin(w, line);
    add_rows(w, "called beforehand", "hit_rate", AS_PERCENT);
    say_calls(w, e);
    add_rows(w, "called in vain", "false_alarm_ratio", AS_PERCENT);
    say_alarms(w, e);
    add_rows(w, "Brier, 0 best", "brier", AS_THOUSANDTHS);
    say(w, "The Brier score judges the chance of it that a morning could have named.");
    say_verdicts(w, "brier_gain");
}

static void add_turnout(struct writer *w)
{
    char line[LINE], today[24], ahead[24];
    w->what = REVIEW_TURNOUT;
    snprintf(line, sizeof line, "Turnout of %s, which of free, timed, brief and none",
             review_id(w->v, w->what, w->subject));
    begin(w, line);
    add_rows(w, "the very one", "same", AS_PERCENT);
    format_percent(value_of(w, 0, "same"), today, sizeof today);
    format_percent(value_of(w, REPLAY_LEADS - 1, "same"), ahead, sizeof ahead);
    snprintf(line, sizeof line,
             "%s mornings in 100 named the very turnout that the full record gives for the day; three days before, "
             "%s did.",
             today, ahead);
    say(w, line);
    add_rows(w, "RPS, 0 best", "rps", AS_THOUSANDTHS);
    say(w, "The ranked probability score judges the chances of all four; a miss by two steps costs more.");
    say_verdicts(w, "rps_gain");
}

static bool any_undefined(const struct review *r)
{
    for (size_t i = 0; i < r->n; i++) {
        if (isnan(r->score[i].value)) {
            return true;
        }
    }
    return false;
}

static void add_preface(const struct writer *w)
{
    char line[LINE], first[DATE_TEXT], last[DATE_TEXT];
    snprintf(line, sizeof line,
             "%zu mornings from %s to %s, each replayed with what it knew, against what the full record gives for the "
             "day. Ahead means without a forecast: as if the weather of the last days went on.",
             w->v->review->mornings, date_format(w->v->first, first), date_format(w->v->last, last));
    text_wrap(&w->page, "", line);
    text_wrap(&w->page, "",
              "This judges what a morning cannot know of its weather. It does not judge the sugar itself: nobody "
              "tested this grass.");
    text_wrap(&w->page, "",
              "The rivals: as yesterday, and the usual for the date in the other years. In brackets the 90 % interval; "
              "where there is none, too few independent days.");
    if (any_undefined(w->v->review)) {
        text_wrap(&w->page, "",
                  "Not defined: no such day came or was called, or (the usual) the record is under two years.");
    }
}

void review_text(const struct review_view *v, int width, struct buf *b)
{
    struct writer w = {.v = v, .page = {b, width, false}};
    add_preface(&w);
    for (w.subject = 0; w.subject < v->holding->paddocks; w.subject++) {
        add_sugar(&w);
        add_growth(&w);
    }
    for (w.subject = 0; w.subject < v->holding->animals; w.subject++) {
        for (size_t k = 0; k < EVENTS; k++) {
            add_event(&w, &event_table[k]);
        }
        add_turnout(&w);
    }
    buf_add(b, "\nPlanning help, not a diagnosis. A lame, hot-footed or feed-refusing animal needs a vet today.\n"
               "Local rules and your vet come first.\n");
}
