/* Reliability diagrams of the review. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/review.h"
#include "out/series.h"

#include <math.h>
#include <stdio.h>

/* Of plots/review.gp: height of a row of panels, units; what a page has room for; below so
 * many cases a point is hollow (common practice). */
enum { ROW_HEIGHT = 202, FOOT = 6, GROUPS_MOST = 4, CASES_LEAST = 10, LINE = 512 };

static bool tells(const struct review_view *v, enum review_what what, size_t group)
{
    const struct review_score *s = review_get(v->review, what, group, 0, "base_rate", REVIEW_OURS);
    return s && s->value > 0.0 && s->value < 1.0;
}

/* The event of the group's diagram. False: none tells anything apart. */
static bool choose(const struct review_view *v, size_t group, enum review_what *what)
{
    *what = tells(v, REVIEW_RESTRICTED, group) ? REVIEW_RESTRICTED : REVIEW_STRICT;
    return tells(v, *what, group);
}

static void add_points(const struct review_view *v, size_t group, enum review_what what, double row, struct plot *p)
{
    for (size_t k = 0; k < v->review->reliabilities; k++) {
        const struct review_reliability *r = &v->review->reliability[k];
        if (r->what != what || r->subject != group) {
            continue;
        }
        for (size_t i = 0; i < REVIEW_BINS; i++) {
            double share = r->n[i] > 0.0 ? 100.0 * r->happened[i] / r->n[i] : (double)NAN;
            plot_row(p,
                     (double[]){row, (double)r->lead + 1.0, 100.0 * (double)i / (REVIEW_BINS - 1), share, r->n[i],
                                r->n[i] < CASES_LEAST},
                     6);
        }
    }
}

static void add_title(const struct review_view *v, struct plot *p)
{
    char about[LINE], first[DATE_TEXT], last[DATE_TEXT];
    snprintf(about, sizeof about, "%s%s%s to %s", v->holding->name, v->holding->name[0] ? ": " : "",
             date_format(v->first, first), date_format(v->last, last));
    plot_title(p, "Did it come as often as was said?", about);
}

static void explain(struct plot *p, size_t rows, size_t groups)
{
    char text[LINE];
    plot_caption(p,
                 "Across: the chance of a shortened day that a morning could have named, in %. Up: how often it came "
                 "of the days given that chance. On the line the chance was right; above it came more often than "
                 "said, below less often.");
    snprintf(text, sizeof text, "Area of a point: the number of days; hollow: under %d of them, which says little.",
             CASES_LEAST);
    plot_caption(p, text);
    plot_caption(p, "Judged by the full record of the weather, not by tests of the grass.");
    if (rows < groups) {
        snprintf(text, sizeof text,
                 "Shown: %zu of %zu groups; of the others there is no room, or nothing to tell apart.", rows, groups);
        plot_caption(p, text);
    }
    plot_caption(p, picture_closing);
}

bool review_picture(const struct review_view *v, struct plot *p)
{
    char text[GROUPS_MOST][LINE];
    const char *name[GROUPS_MOST] = {"", "", "", ""};
    size_t rows = 0, groups = v->holding->animals;
    enum review_what what[GROUPS_MOST];
    size_t group[GROUPS_MOST];
    for (size_t i = 0; i < groups && rows < GROUPS_MOST; i++) {
        group[rows] = i;
        rows += choose(v, i, &what[rows]);
    }
    plot_init(p, "review", (double)(ROW_HEIGHT * rows + FOOT));
    add_title(v, p);
    plot_block(p, "point");
    for (size_t k = 0; k < rows; k++) {
        add_points(v, group[k], what[k], (double)k + 1.0, p);
        snprintf(text[k], sizeof text[k], "%s (%s): %s", v->holding->animal[group[k]].id,
                 v->holding->animal[group[k]].class_id,
                 what[k] == REVIEW_RESTRICTED ? "not free" : "an hour at most, or none");
        name[k] = text[k];
    }
    plot_block_end(p);
    plot_texts(p, "group_name", name, rows ? rows : 1);
    plot_number(p, "groups", (double)rows);
    plot_number(p, "most", (double)v->review->mornings);
    explain(p, rows, groups);
    return rows > 0;
}
