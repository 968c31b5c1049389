/* Hindcasts from a record. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hindcast.h"

#include "cmd/ahead.h"
#include "season/outlook.h"
#include "season/past_years.h"

#include <gsl/gsl_sort.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { FIRST_YEAR = 365, YEARS_MOST = 200, WINDOW = 7 };
#define WITHIN 1e-6 /* sums of floats */

const int hindcast_lead[HINDCAST_LEADS] = {10, 30, 90};

struct past { /* the model over the whole record */
    struct context c;
    double *hours, *growth; /* of each day */
    struct run *state;      /* on the first of each month, as of the evening before */
    size_t *first, n;       /* those days */
};

static void must(bool good, const char *what)
{
    if (!good) {
        fprintf(stderr, "hindcast: %s\n", what);
        exit(66);
    }
}

static void load(const struct hindcast_place *p, struct context *c)
{
    char command[] = "season", weather[] = "--weather", latitude[] = "--latitude", elevation[] = "--elevation",
         animal[] = "--animal";
    char file[512], north[32], high[32], class_id[64];
    char *argv[] = {command, weather, file, latitude, north, elevation, high, animal, class_id, NULL};
    struct options o;
    struct err e = {0};
    snprintf(file, sizeof file, "%s", p->file);
    snprintf(north, sizeof north, "%s", p->latitude);
    snprintf(high, sizeof high, "%s", p->elevation);
    snprintf(class_id, sizeof class_id, "%s", p->animal);
    setenv("SUGARLEA_MODELS", "models", 1);
    context_init(c);
    bool good = options_read(9, argv, FOR_SEASON, &o, &e) == ERR_OK && context_load(c, &o, &e) == ERR_OK;
    must(good, e.what);
}

static void run_all(struct past *p)
{
    struct arena *a = &p->c.arena;
    size_t n = p->c.weather.n;
    struct run r;
    p->hours = arena_alloc(a, n, sizeof *p->hours);
    p->growth = arena_alloc(a, n, sizeof *p->growth);
    p->first = arena_alloc(a, n / 28 + 1, sizeof *p->first);
    p->state = arena_alloc(a, n / 28 + 1, sizeof *p->state);
    must(p->hours && p->growth && p->first && p->state && run_init(&r, &p->c.params, &p->c.holding, a), "no memory");
    for (size_t i = 0; i < n; i++) {
        struct run_day d;
        bool starts = date_split(p->c.weather.day0 + (date_t)i).day == 1;
        if (starts && i >= FIRST_YEAR && i + HINDCAST_DAYS <= n) {
            p->first[p->n] = i;
            must(run_copy(&p->state[p->n++], &r, a), "no memory");
        }
        context_day(&p->c, i, &d);
        run_morning(&r, &d);
        run_evening(&r, &d);
        p->hours[i] = r.animal[0].advice.hours;
        p->growth[i] = r.paddock[0].day.growth;
    }
}

static bool is_restricted(double hours)
{
    return hours < 24.0;
}

/* Share of days not free at that time of the year, the hindcast's own stretch left out. */
static double normal_share(const struct past *p, size_t day, size_t from)
{
    double n = 0.0, restricted = 0.0;
    for (int year = -YEARS_MOST; year <= YEARS_MOST; year++) {
        long centre = (long)day + lround(365.25 * year);
        for (long i = centre - WINDOW; i <= centre + WINDOW; i++) {
            bool own = i >= (long)from - WINDOW && i < (long)from + HINDCAST_DAYS + WINDOW;
            if (i >= FIRST_YEAR && i < (long)p->c.weather.n && !own) {
                n += 1.0;
                restricted += is_restricted(p->hours[i]);
            }
        }
    }
    return n > 0.0 ? restricted / n : 0.5;
}

static void add_held(struct hindcast_held *h, double *member, size_t n, double came)
{
    gsl_sort(member, 1, n);
    double p10 = outlook_quantile(member, n, n, 0.1), p90 = outlook_quantile(member, n, n, 0.9);
    double less = 0.0, same = 0.0;
    for (size_t i = 0; i < n; i++) {
        less += member[i] < came - WITHIN;
        same += fabs(member[i] - came) <= WITHIN;
    }
    double low = less / (double)(n + 1), high = (less + same + 1.0) / (double)(n + 1);
    double inside = fmin(high, 0.9) - fmax(low, 0.1);
    h->even += inside > 0.0 ? inside / (high - low) : 0.0;
    h->closed += came >= p10 - WITHIN && came <= p90 + WITHIN;
    double at = 0.1 * (double)(n - 1);
    size_t k = (size_t)at;
    double low7 = member[k] + (at - (double)k) * (member[k + 1] - member[k]);
    double high7 = member[n - 1 - k] - (at - (double)k) * (member[n - 1 - k] - member[n - 2 - k]);
    h->type7 += came >= low7 - WITHIN && came <= high7 + WITHIN;
    h->width += p90 - p10;
    h->bias += came - outlook_quantile(member, n, n, 0.5);
}

/* The sums over the span: of the days that came with m < 0, else of member m. */
enum what { RESTRICTED, BRIEF, GROWTH };

static double sum_of(const struct past *p, const struct ensemble *e, size_t from, long m, enum what what)
{
    double sum = 0.0;
    for (size_t i = 0; i < HINDCAST_SPAN; i++) {
        size_t at = m < 0 ? 0 : ensemble_at(e, 0, (size_t)m, i);
        double hours = m < 0 ? p->hours[from + i] : (double)e->hours[at];
        sum += what == GROWTH  ? (m < 0 ? p->growth[from + i] : (double)e->growth[at])
               : what == BRIEF ? hours <= e->brief_h
                               : is_restricted(hours);
    }
    return sum;
}

static void score_sum(const struct past *p, const struct ensemble *e, size_t from, enum what what,
                      struct hindcast_held *h)
{
    double member[YEARS_MOST];
    for (size_t m = 0; m < e->years; m++) {
        member[m] = sum_of(p, e, from, (long)m, what);
    }
    add_held(h, member, e->years, sum_of(p, e, from, -1, what));
}

static void score_one(const struct past *p, size_t k, const struct ensemble *e, struct hindcast_score *s)
{
    size_t from = p->first[k];
    score_sum(p, e, from, RESTRICTED, &s->restricted);
    score_sum(p, e, from, BRIEF, &s->brief);
    score_sum(p, e, from, GROWTH, &s->growth);
    for (int l = 0; l < HINDCAST_LEADS; l++) {
        size_t day = (size_t)hindcast_lead[l];
        double share = 0.0, normal = normal_share(p, from + day, from), came = is_restricted(p->hours[from + day]);
        for (size_t m = 0; m < e->years; m++) {
            share += is_restricted((double)e->hours[ensemble_at(e, 0, m, day)]) / (double)e->years;
        }
        s->brier[l] += (share - came) * (share - came);
        s->normal[l] += (normal - came) * (normal - came);
    }
    s->n++;
    s->years += e->years;
}

static void hindcast(const struct past *p, size_t k, bool by_earlier, struct hindcast_score *s)
{
    size_t start[YEARS_MOST], from = p->first[k];
    struct arena a;
    struct ensemble e;
    arena_init(&a);
    size_t years =
        past_years_find(&p->c.weather, p->c.weather.day0 + (date_t)from, HINDCAST_DAYS,
                        by_earlier ? from : p->c.weather.n, start, by_earlier ? AHEAD_YEARS_MOST : YEARS_MOST);
    struct run_day *day = arena_alloc(&a, years * HINDCAST_DAYS, sizeof *day);
    must(day && years > 1, "too few years");
    for (size_t y = 0; y < years; y++) {
        must(ahead_lay_out(&p->c, from, start[y], HINDCAST_DAYS, &a, &day[y * HINDCAST_DAYS]), "no memory");
    }
    const struct ensemble_ask ask = {
        .now = &p->state[k], .years = years, .days = HINDCAST_DAYS, .day = day, .threads = 1};
    must(ensemble_run(&ask, &a, &e), "no memory");
    score_one(p, k, &e, s);
    arena_release(&a);
}

static void finish(struct hindcast_held *h, double n)
{
    h->closed /= n;
    h->even /= n;
    h->type7 /= n;
    h->width /= n;
    h->bias /= n;
}

struct hindcast_score hindcast_run(const struct hindcast_place *place)
{
    struct past p = {.n = 0};
    struct hindcast_score s = {0};
    load(place, &p.c);
    run_all(&p);
    size_t outlooks = 12 * (size_t)place->late;
    for (size_t k = outlooks && p.n > outlooks ? p.n - outlooks : 0; k < p.n; k++) {
        hindcast(&p, k, outlooks > 0, &s);
    }
    finish(&s.restricted, (double)s.n);
    finish(&s.brief, (double)s.n);
    finish(&s.growth, (double)s.n);
    s.years /= s.n;
    context_release(&p.c);
    return s;
}

double hindcast_skill(const struct hindcast_score *s, int lead)
{
    return s->normal[lead] > 0.0 ? 1.0 - s->brier[lead] / s->normal[lead] : (double)NAN;
}

static void print_held(const char *what, const struct hindcast_held *h)
{
    printf("#   %-22s held %.2f, ties split %.2f (GSL's own quantiles %.2f); width %.1f, what came less p50 %+.1f\n",
           what, h->closed, h->even, h->type7, h->width, h->bias);
}

void hindcast_print(const struct hindcast_place *place, const struct hindcast_score *s)
{
    printf("# %s, %s%s: %zu outlooks of %zu years each\n", place->name, place->animal,
           place->late ? ", late years by earlier ones" : "", s->n, s->years);
    print_held("days not free in 90", &s->restricted);
    print_held("of which brief or none", &s->brief);
    print_held("growth in 90, kg/ha", &s->growth);
    printf("#   skill against day-of-year shares, \"not free\":");
    for (int l = 0; l < HINDCAST_LEADS; l++) {
        printf("  %d d %+.2f", hindcast_lead[l], hindcast_skill(s, l));
    }
    printf("\n");
}
