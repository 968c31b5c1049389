/* Tests, what they say, and what it is worth, in sentences. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json_scan.h"
#include "out/text.h"
#include "out/tune.h"
#include "season/run.h"

#include <math.h>
#include <stdio.h>

#define SAME_LEAST 0.01 /* a level nearer to 1 is called the same: our choice */
#define NARROWER 0.95   /* a spread under this share of the untested one is called narrower: our choice */

static double percent(double ln)
{
    return 100.0 * (exp(ln) - 1.0);
}

/* "about 17 % sweeter" */
static const char *level_words(double theta, char *text, size_t size)
{
    if (fabs(exp(theta) - 1.0) < SAME_LEAST) {
        snprintf(text, size, "as sweet");
    } else if (theta > 0.0) {
        snprintf(text, size, "about %.0f %% sweeter", percent(theta));
    } else {
        snprintf(text, size, "about %.0f %% less sweet", -percent(theta));
    }
    return text;
}

static const char *than_words(double theta)
{
    return fabs(exp(theta) - 1.0) < SAME_LEAST ? "as" : "than";
}

char *tune_level_text(const struct tuning *t, const struct tune_limits *l, char *text, size_t size)
{
    char level[48], date[DATE_TEXT];
    snprintf(text, size, "%d grass test%s, the last of %s: %s %s reckoned without %s.%s", t->tests,
             t->tests == 1 ? "" : "s", date_format(t->date, date), level_words(t->theta, level, sizeof level),
             than_words(t->theta), t->tests == 1 ? "it" : "them",
             tune_unusual(t, l) ? " 9 paddocks in 10 lie nearer: look at unit and method once more." : "");
    return text;
}

char *tune_measured_text(const struct tune_row *row, char *text, size_t size)
{
    snprintf(text, size, "%s%.0f", row->below ? "<" : "", row->entry->value);
    return text;
}

static void test_row(const struct page *p, const struct tune_paddock *k, const struct tune_row *row)
{
    char date[DATE_TEXT], time[DIARY_TIME_TEXT] = "-", measured[24];
    if (row->entry->minute >= 0) {
        diary_time_text(row->entry->minute, time);
    }
    buf_addf(p->b, "  %-10s  %-5s  %-4s  %8s", date_format(row->entry->date, date), time,
             row->entry->what == DIARY_GRASS_WSC ? "WSC" : "NSC", tune_measured_text(row, measured, sizeof measured));
    if (row->passed_over) {
        buf_addf(p->b, "  %s\n", row->passed_over);
    } else {
        buf_addf(p->b, "  %8.0f  %8.0f%s\n", row->modelled, exp(k->tuned.theta) * row->modelled,
                 row->doubtful ? "  doubtful" : "");
    }
}

static const char *tests_say(size_t tests, char *text, size_t size)
{
    snprintf(text, size, "Your %zu tests say", tests);
    return tests == 1 ? "Your test says" : text;
}

/* What the tests say of the level. */
static void verdict(const struct page *p, const struct tune_paddock *k)
{
    char line[LIMIT_TEXT + 160], level[48], say[40];
    const struct tune_fit *f = &k->fit;
    if (f->off && k->spread_now < NARROWER * k->spread_out) {
        snprintf(line, sizeof line, "Your %zu tests bear the reckoning out: it stays as it is, and is trusted more.",
                 f->tests);
    } else if (f->off) {
        snprintf(line, sizeof line,
                 "Your %zu tests do not agree on a level, so it stays as reckoned. Have one more test made; look at "
                 "hours, methods and where the samples were cut.",
                 f->tests);
    } else {
        snprintf(line, sizeof line, "%s this paddock is %s %s reckoned.", tests_say(f->tests, say, sizeof say),
                 level_words(f->theta, level, sizeof level), than_words(f->theta));
    }
    text_wrap(p, "  ", line);
    if (f->capped) {
        snprintf(line, sizeof line,
                 "The tests say even more (%.1f times), but no correction goes that far: check unit, method, and "
                 "whether the grasses of this paddock are those of the holding file.",
                 exp(f->found));
        text_wrap(p, "  ", line);
    }
}

/* What it is worth, by tests that were left out, and in spread. */
static void worth(const struct page *p, const struct tune_paddock *k)
{
    char line[LIMIT_TEXT + 160];
    const struct tune_fit *f = &k->fit;
    double low, before, now;
    if (f->tests > 1) {
        snprintf(line, sizeof line,
                 "Each test, held against what the others make of the paddock, is missed by %.0f %%; uncorrected by "
                 "%.0f %%.%s",
                 percent(f->after), percent(f->before), f->off ? " So the correction is switched off." : "");
    } else {
        snprintf(line, sizeof line,
                 "One test may err, so the reckoning goes only part of the way to it. With a second one it can be "
                 "seen whether the correction helps.");
    }
    text_wrap(p, "  ", line);
    run_band(1.0, k->spread_out, &low, &before);
    run_band(1.0, k->spread_now, &low, &now);
    snprintf(line, sizeof line,
             "In 8 cases of 10 the sugar is at most %.2f times more or less than reckoned; untested it would be %.2f.",
             now, before);
    text_wrap(p, "  ", line);
}

static void paddock(const struct page *p, const struct tune_paddock *k)
{
    buf_addf(p->b, "\n%s: tests of the grass, g a kg of dry matter\n", k->kept->id);
    buf_addf(p->b, "  %-10s  %-5s  %-4s  %8s  %8s  %8s\n", "date", "time", "what", "measured", "modelled", "tuned");
    for (size_t i = 0; i < k->rows; i++) {
        test_row(p, k, &k->row[i]);
    }
    if (k->fit.tests > 0) {
        verdict(p, k);
        worth(p, k);
    }
}

static void closing(const struct page *p, const struct tune_view *v)
{
    static const char *const words[] = {
        [TUNE_SHOWN] = "Nothing is written. \"sugarlea tune --apply\" lets the advice reckon with it.",
        [TUNE_WRITTEN] =
            "Written to tuning.json: today, season and outlook reckon with it from now on. \"sugarlea tune "
            "--undo\" takes it back.",
        [TUNE_AS_BEFORE] = "tuning.json holds this already; nothing is written."};
    for (size_t i = 0; i < v->diary->strangers; i++) {
        char line[LIMIT_TEXT + 80];
        snprintf(line, sizeof line, "\"%.*s\" of the diary (line %zu) is not in the holding: passed over.",
                 (int)json_scan_cut(v->diary->stranger[i].name, LIMIT_NAME), v->diary->stranger[i].name,
                 v->diary->stranger[i].line);
        text_wrap(p, i ? "" : "\n", line);
    }
    buf_add(p->b, "\n");
    text_wrap(p, "", words[v->done]);
    text_wrap(p, "", "Planning help, not a diagnosis: local rules and your vet come first.");
}

void tune_text(const struct tune_view *v, bool colour, int width, struct buf *b)
{
    const struct page p = {b, width, colour};
    text_bold(&p, v->holding->name);
    buf_add(b, "\n");
    if (v->paddocks == 0) {
        text_wrap(&p, "\n",
                  "There is no grass test in the diary. \"sugarlea record grass-nsc PADDOCK VALUE\" adds one; cut "
                  "twenty handfuls from all over the paddock, and note the time.");
    }
    for (size_t i = 0; i < v->paddocks; i++) {
        paddock(&p, &v->paddock[i]);
    }
    closing(&p, v);
}
