/* The coming months as fans. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/outlook.h"
#include "out/series.h"
#include "season/fan.h"

#include <math.h>
#include <stdio.h>

/* Heights of plots/outlook.gp, units; what a page has room for. */
enum { PADDOCK_HEIGHT = 262, GROUP_HEIGHT = 102, FOOT = 20, PADDOCKS_MOST = 2, GROUPS_MOST = 4, LINE = 512 };

struct fans {
    const struct outlook_view *v;
    struct arena *arena;
    struct fan_week *week; /* room for one fan */
    size_t paddocks, groups;
};

static double middle(const struct fans *f, const struct fan_week *w)
{
    return (double)f->v->ensemble.first + (double)w->from + (double)w->days / 2.0;
}

/* A block of all paddocks, and the highest p90 in it. */
static bool add_fan(const struct fans *f, const char *block, const float *x, struct plot *p, double *most)
{
    bool good = true;
    *most = 0.0;
    plot_block(p, block);
    for (size_t i = 0; i < f->paddocks && good; i++) {
        good = fan_make(&f->v->ensemble, x, i, f->arena, f->week);
        for (size_t k = 0; k < fan_weeks(&f->v->ensemble) && good; k++) {
            const double *q = f->week[k].value;
            plot_row(p, (double[]){(double)i + 1.0, middle(f, &f->week[k]), q[0], q[1], q[2], q[3], q[4]}, 7);
            *most = fmax(*most, q[FAN_LINES - 1]);
        }
        plot_row(p, NULL, 0);
    }
    plot_block_end(p);
    return good;
}

/* After a fan: the weeks are set. */
static void add_shares(const struct fans *f, struct plot *p)
{
    const struct ensemble *e = &f->v->ensemble;
    plot_block(p, "share");
    for (size_t i = 0; i < f->groups; i++) {
        for (size_t k = 0; k < fan_weeks(e); k++) {
            const struct fan_week *w = &f->week[k];
            plot_row(p,
                     (double[]){(double)i + 1.0, middle(f, w), 100.0 * fan_share_restricted(e, i, w),
                                100.0 * fan_share_brief(e, i, w)},
                     4);
        }
        plot_row(p, NULL, 0);
    }
    plot_row(p, (double[]){0.0, 0.0, 0.0, 0.0}, 4); /* a block of no rows is an error to gnuplot */
    plot_block_end(p);
}

static void add_names(const struct fans *f, struct plot *p)
{
    const struct holding *h = f->v->holding;
    char text[GROUPS_MOST][LINE];
    const char *name[GROUPS_MOST] = {"", "", "", ""};
    for (size_t i = 0; i < f->paddocks; i++) {
        snprintf(text[i], sizeof text[i], "%s: NSC of the grass, g in a kg of dry matter", h->paddock[i].id);
        name[i] = text[i];
    }
    plot_texts(p, "paddock_name", name, f->paddocks);
    for (size_t i = 0; i < f->groups; i++) {
        snprintf(text[i], sizeof text[i], "%s (%s): %% of days not free; dark, brief or none", h->animal[i].id,
                 h->animal[i].class_id);
        name[i] = text[i];
    }
    plot_texts(p, "group_name", name, f->groups ? f->groups : 1);
    plot_number(p, "paddocks", (double)f->paddocks);
    plot_number(p, "groups", (double)f->groups);
}

static void add_title(const struct outlook_view *v, struct plot *p)
{
    char about[LINE], first[DATE_TEXT], last[DATE_TEXT];
    date_format(v->ensemble.first, first);
    date_format(v->ensemble.first + (date_t)v->ensemble.days - 1, last);
    snprintf(about, sizeof about, "%s%s%s to %s", v->holding->name, v->holding->name[0] ? ": " : "", first, last);
    plot_title(p, "The coming months, by past years", about);
}

static void explain(const struct fans *f, struct plot *p)
{
    const struct ensemble *e = &f->v->ensemble;
    char text[LINE];
    size_t n = (size_t)snprintf(text, sizeof text,
                                "From the grass as it stands on the first day through the weather of %zu past years "
                                "(%d to %d)",
                                e->years, f->v->first_year, f->v->last_year);
    if (e->draws) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", %zu paddocks each, seed %lu", e->draws, f->v->seed);
    }
    snprintf(text + n, sizeof text - n, "; weekly means.");
    plot_caption(p, text);
    plot_caption(p, picture_nsc);
    plot_caption(p, "Line: the middle. Dark band: 5 cases in 10 lie within it. Light band: 8 in 10.");
    if (f->groups) {
        plot_caption(p, "Days not free are what will be advised if those years come again.");
    }
    if (f->paddocks < e->paddocks || f->groups < e->animals) {
        snprintf(text, sizeof text, "Shown: the first %zu of %zu paddocks, the first %zu of %zu groups.", f->paddocks,
                 e->paddocks, f->groups, e->animals);
        plot_caption(p, text);
    }
    plot_caption(p, picture_closing);
}

bool outlook_picture(const struct outlook_view *v, struct arena *a, struct plot *p)
{
    const struct ensemble *e = &v->ensemble;
    const struct fans f = {.v = v,
                           .arena = a,
                           .week = arena_alloc(a, fan_weeks(e), sizeof *f.week),
                           .paddocks = e->paddocks < PADDOCKS_MOST ? e->paddocks : PADDOCKS_MOST,
                           .groups = e->animals < GROUPS_MOST ? e->animals : GROUPS_MOST};
    double sugar = 0.0, growth = 0.0;
    plot_init(p, "outlook", (double)(PADDOCK_HEIGHT * f.paddocks + GROUP_HEIGHT * f.groups + FOOT));
    add_title(v, p);
    plot_time_axis(p, e->first, e->first + (date_t)e->days - 1);
    if (!f.week || !add_fan(&f, "sugar", e->sugar, p, &sugar) || !add_fan(&f, "growth", e->growth, p, &growth)) {
        return false;
    }
    add_shares(&f, p);
    add_names(&f, p);
    plot_scale(p, "sugar", sugar, 5);
    plot_scale(p, "growth", fmax(growth, 10.0), 4);
    explain(&f, p);
    return true;
}
