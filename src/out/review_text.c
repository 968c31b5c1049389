/* Scores for people: a few rows, a column for each lead, and under them a sentence that
 * says what they mean. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/review_rows.h"

#include <math.h>
#include <stdio.h>

static void add_sugar(struct review_writer *w)
{
    char line[REVIEW_LINE];
    w->what = REVIEW_NSC;
    snprintf(line, sizeof line, "Sugar and starch, %s: how far off on average (g a kg of dry matter)",
             review_id(w->v, w->what, w->subject));
    review_begin(w, line);
    review_add_all(w, "off by", "mae", AS_TENTHS);
    snprintf(line, sizeof line,
             "On average the day's sugar lay %.0f g a kg from what its morning said, and %.0f from what was said three "
             "days before.",
             review_ours(w, 0, "mae"), review_ours(w, REPLAY_LEADS - 1, "mae"));
    review_say(w, line);
    review_say_verdicts(w, "mae_gain");
    review_add_ours(w, "in the 80 % band", "coverage80", AS_PERCENT);
    snprintf(line, sizeof line,
             "The allowance for unknown weather should hold 80 days in 100: it held %.0f on the day, and %.0f when "
             "looking three days ahead without a forecast.",
             100.0 * review_ours(w, 0, "coverage80"), 100.0 * review_ours(w, REPLAY_LEADS - 1, "coverage80"));
    review_say(w, line);
}

/* The only judge of the sugar itself. */
static void add_tests(const struct review_writer *w)
{
    const char *id = review_id(w->v, REVIEW_NSC, w->subject);
    struct review_tests t = review_tests_find(w->v, id);
    char line[REVIEW_LINE];
    if (t.n == 0) {
        return;
    }
    snprintf(
        line, sizeof line,
        "Against %zu grass test%s of %s, not used to tune it: off by %.0f %% on average, and in all reckoned %.0f %% "
        "too %s; %.0f of %zu lay where 8 in 10 should.",
        t.n, t.n == 1 ? "" : "s", id, 100.0 * (exp(t.mae) - 1.0), 100.0 * (exp(fabs(t.me)) - 1.0),
        t.me > 0.0 ? "low" : "high", t.coverage * (double)t.n, t.n);
    text_wrap(&w->page, "\n", line);
}

static void add_growth(struct review_writer *w)
{
    char line[REVIEW_LINE];
    w->what = REVIEW_GROWTH;
    snprintf(line, sizeof line, "Growth, %s: how far off on average (kg of dry matter a hectare and day)",
             review_id(w->v, w->what, w->subject));
    review_begin(w, line);
    review_add_all(w, "off by", "mae", AS_TENTHS);
    snprintf(line, sizeof line, "On average the day grew %.0f kg a hectare more or less than its morning said.",
             review_ours(w, 0, "mae"));
    review_say(w, line);
    review_say_verdicts(w, "mae_gain");
}

/* Words of an event: restricted or strict. */
struct event {
    enum review_what what;
    const char *name, *means, *not_so;
};
static const struct event event_table[] = {
    {REVIEW_RESTRICTED, "restricted", "not free", "\"free\""},
    {REVIEW_STRICT, "brief or none", "an hour at most", "a longer time"},
};
enum { EVENTS = sizeof event_table / sizeof event_table[0] };

static void say_calls(const struct review_writer *w, const struct event *e)
{
    char line[REVIEW_LINE], share[REPLAY_LEADS][REVIEW_SHARE];
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
        review_percent(review_ours(w, lead, "hit_rate"), share[lead], sizeof share[lead]);
    }
    snprintf(line, sizeof line,
             "Of the days that turned out %s, %s %% had been called so that morning, %s %% the day before, %s %% three "
             "days before; of the others %s had been said.",
             e->name, share[0], share[1], share[2], e->not_so);
    review_say(w, line);
}

static void say_alarms(const struct review_writer *w, const struct event *e)
{
    char line[REVIEW_LINE];
    double today = review_ours(w, 0, "false_alarm_ratio"),
           ahead = review_ours(w, REPLAY_LEADS - 1, "false_alarm_ratio");
    if (isnan(today) || isnan(ahead)) {
        snprintf(line, sizeof line, "There are leads at which no day was called %s: nothing could be called in vain.",
                 e->name);
    } else {
        char now[REVIEW_SHARE], later[REVIEW_SHARE];
        review_percent(today, now, sizeof now);
        review_percent(ahead, later, sizeof later);
        snprintf(line, sizeof line,
                 "Of the mornings that called %s, %s %% could have had %s by the full record; of calls three days "
                 "ahead, %s %%.",
                 e->name, now, e->not_so, later);
    }
    review_say(w, line);
}

static void add_event(struct review_writer *w, const struct event *e)
{
    char line[REVIEW_LINE], share[REVIEW_SHARE];
    w->what = e->what;
    const struct review_score *base = review_row(w, 0, "base_rate", REVIEW_OURS);
    const char *id = review_id(w->v, w->what, w->subject);
    if (isnan(base->value) || base->value <= 0.0 || base->value >= 1.0) {
        snprintf(line, sizeof line, "Turnout of %s, %s (%s): %s of %zu days. Nothing to tell apart: not defined.", id,
                 e->name, e->means, base->value >= 1.0 ? "all" : "none", base->n);
        text_wrap(&w->page, "\n", line);
        return;
    }
    review_percent(base->value, share, sizeof share);
    snprintf(line, sizeof line, "Turnout of %s, %s (%s): %s of 100 days", id, e->name, e->means, share);
    review_begin(w, line);
    review_add_all(w, "called beforehand", "hit_rate", AS_PERCENT);
    say_calls(w, e);
    review_add_all(w, "called in vain", "false_alarm_ratio", AS_PERCENT);
    say_alarms(w, e);
    review_add_all(w, "Brier, 0 best", "brier", AS_THOUSANDTHS);
    review_say(w, "The Brier score judges the chance of it that a morning could have named.");
    review_say_verdicts(w, "brier_gain");
}

static void add_turnout(struct review_writer *w)
{
    char line[REVIEW_LINE], today[REVIEW_SHARE], ahead[REVIEW_SHARE];
    w->what = REVIEW_TURNOUT;
    snprintf(line, sizeof line, "Turnout of %s, which of free, timed, brief and none",
             review_id(w->v, w->what, w->subject));
    review_begin(w, line);
    review_add_all(w, "the very one", "same", AS_PERCENT);
    review_percent(review_ours(w, 0, "same"), today, sizeof today);
    review_percent(review_ours(w, REPLAY_LEADS - 1, "same"), ahead, sizeof ahead);
    snprintf(line, sizeof line,
             "%s mornings in 100 named the very turnout that the full record gives for the day; three days before, "
             "%s did.",
             today, ahead);
    review_say(w, line);
    review_add_all(w, "RPS, 0 best", "rps", AS_THOUSANDTHS);
    review_say(w, "The ranked probability score judges the chances of all four; a miss by two steps costs more.");
    review_say_verdicts(w, "rps_gain");
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

static void add_preface(const struct review_writer *w)
{
    char line[REVIEW_LINE], first[DATE_TEXT], last[DATE_TEXT];
    snprintf(line, sizeof line,
             "%zu mornings from %s to %s, each replayed with what it knew, against what the full record gives for the "
             "day. Ahead means without a forecast: as if the weather of the last days went on.",
             w->v->review->mornings, date_format(w->v->first, first), date_format(w->v->last, last));
    text_wrap(&w->page, "", line);
    text_wrap(&w->page, "",
              "This judges what a morning cannot know of its weather. It does not judge the sugar itself: only "
              "laboratory tests of the grass can.");
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
    struct review_writer w = {.v = v, .page = {b, width, false}};
    add_preface(&w);
    for (w.subject = 0; w.subject < v->holding->paddocks; w.subject++) {
        add_sugar(&w);
        add_tests(&w);
        add_growth(&w);
    }
    for (w.subject = 0; w.subject < v->holding->animals; w.subject++) {
        for (size_t k = 0; k < EVENTS; k++) {
            add_event(&w, &event_table[k]);
        }
        add_turnout(&w);
    }
    buf_add_char(b, '\n');
    text_closing(&w.page);
}
