/* Years of weather shared out among threads; each year is worked through once for the
 * model's paddock and, day beside day, for its drawn ones: the day's sun and hours, the
 * sugar and the advice's hours for the model are found once for all of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/ensemble_draw.h"
#include "sward/many.h"

#include <assert.h>
#include <math.h>
#include <pthread.h>

struct job {
    const struct ensemble_ask *ask;
    const struct ensemble_draw *draw; /* of paddock p, draw d >= 1, year y: p * years * draws + (d - 1) * years + y */
    struct ensemble *e;
    size_t workers;
};

struct worker {
    const struct job *job;
    size_t first;               /* year; then every workers-th */
    struct run run;             /* the model's paddocks */
    struct sward *sward;        /* drawn ones: draw * paddocks + paddock */
    struct sward_result *drawn; /* of one paddock's drawn ones, today */
};

static const struct ensemble_draw *draw_of(const struct job *j, size_t paddock, size_t draw, size_t year)
{
    assert(draw >= 1 && draw <= j->ask->draws);
    assert(year < j->ask->years);
    size_t years = j->ask->years;
    return &j->draw[paddock * years * j->ask->draws + (draw - 1) * years + year];
}

static void start_year(struct worker *w, size_t year)
{
    assert(year < w->job->ask->years);
    const struct ensemble_ask *ask = w->job->ask;
    const struct run *now = ask->now;
    run_set(&w->run, now);
    for (size_t p = 0; p < now->paddocks; p++) {
        w->run.paddock[p].readings_seen = w->run.paddock[p].kept->readings; /* none is known of the coming days */
    }
    for (size_t d = 1; d <= ask->draws; d++) {
        for (size_t p = 0; p < now->paddocks; p++) {
            struct sward *s = &w->sward[(d - 1) * now->paddocks + p];
            *s = now->paddock[p].sward;
            ensemble_vary(s, draw_of(w->job, p, d, year), ask->doubt);
        }
    }
}

static void keep_advice(struct ensemble *e, size_t animal, size_t member, size_t day, const struct advice *a)
{
    assert(animal < e->animals && member < e->members && day < e->days);
    size_t at = ensemble_at(e, animal, member, day);
    e->hours[at] = (float)a->hours;
    e->hay[at] = (float)a->hay_kg;
    e->grass[at] = (float)a->ration.grass_dm_kg;
}

/* The advice of the same morning had the grass been tested, and found as the draw says. */
static void advise_tested(const struct worker *w, size_t animal, size_t draw, size_t year, const struct run_day *d,
                          struct advice *out)
{
    const struct run *r = &w->run;
    const struct run_animal *a = &r->animal[animal];
    size_t paddock = a->group->paddock;
    const struct sward_result *expected = &r->paddock[paddock].expected;
    const struct advice_limits *l = &r->params->limits;
    struct advice_grass g = a->grass;
    double level_sd = r->paddock[paddock].level_sd;
    double level = exp(ensemble_shown(draw_of(w->job, paddock, draw, year), l, level_sd) * run_doubt(r, expected));
    for (int h = 0; h < 24; h++) {
        g.nsc[h] *= level;
    }
    g.starch_pct *= level;
    g.ln_sd = run_spread(r, expected, d, fmin(l->spread_tested, level_sd));
    advise_plainly(&r->tables, &g, &a->input, l, out);
}

static void morning(struct worker *w, size_t year, size_t day, const struct run_day *d, const struct run_sky *sky)
{
    const struct ensemble_ask *ask = w->job->ask;
    struct ensemble *e = w->job->e;
    struct advice tested;
    run_morning_under(&w->run, d, sky);
    for (size_t i = 0; i < w->run.animals; i++) {
        keep_advice(e, i, year, day, &w->run.animal[i].advice);
        for (size_t k = 1; k <= ask->draws; k++) {
            advise_tested(w, i, k, year, d, &tested);
            keep_advice(e, i, k * ask->years + year, day, &tested);
        }
    }
}

static void keep_grass(struct ensemble *e, size_t paddock, size_t member, size_t day, double growth, double sugar)
{
    assert(paddock < e->paddocks && member < e->members && day < e->days);
    size_t at = ensemble_at(e, paddock, member, day);
    e->growth[at] = (float)growth;
    e->sugar[at] = (float)sugar;
}

static void evening(struct worker *w, size_t year, size_t day, const struct run_day *d, const struct run_sky *sky)
{
    const struct ensemble_ask *ask = w->job->ask;
    struct run *r = &w->run;
    run_evening_under(r, d, sky);
    for (size_t p = 0; p < r->paddocks; p++) {
        const struct run_paddock *model = &r->paddock[p];
        double doubt = run_doubt(r, &model->day);
        keep_grass(w->job->e, p, year, day, model->day.growth, model->day.nsc_mean);
        sward_step_many(&w->sward[p], ask->draws, r->paddocks, &sky->recorded, w->drawn);
        for (size_t k = 1; k <= ask->draws; k++) {
            struct sward *s = &w->sward[(k - 1) * r->paddocks + p];
            const struct ensemble_draw *z = draw_of(w->job, p, k, year);
            run_manage(model, s, d->recorded.date, r->south);
            double level = exp(ensemble_level(z, model->level_sd) * doubt);
            keep_grass(w->job->e, p, k * ask->years + year, day, w->drawn[k - 1].growth, level * model->day.nsc_mean);
        }
    }
}

static void *work(void *worker)
{
    struct worker *w = worker;
    const struct ensemble_ask *ask = w->job->ask;
    struct run_sky sky;
    for (size_t year = w->first; year < ask->years; year += w->job->workers) {
        start_year(w, year);
        for (size_t k = 0; k < ask->days; k++) {
            const struct run_day *d = &ask->day[year * ask->days + k];
            run_sky_make(&sky, d, &w->run);
            morning(w, year, k, d, &sky);
            evening(w, year, k, d, &sky);
        }
    }
    return NULL;
}

/* A thread that cannot be started has its share done here. */
static void work_together(struct worker *w, size_t n)
{
    assert(n >= 1 && n <= ENSEMBLE_THREADS);
    pthread_t thread[ENSEMBLE_THREADS];
    bool started[ENSEMBLE_THREADS] = {false};
    for (size_t i = 1; i < n; i++) {
        started[i] = pthread_create(&thread[i], NULL, work, &w[i]) == 0;
    }
    work(&w[0]);
    for (size_t i = 1; i < n; i++) {
        if (started[i]) {
            pthread_join(thread[i], NULL);
        } else {
            work(&w[i]);
        }
    }
}

static bool make_results(const struct ensemble_ask *ask, struct arena *a, struct ensemble *e)
{
    assert(ask->years > 0 && ask->days > 0);
    const struct run *now = ask->now;
    *e = (struct ensemble){.first = ask->day[0].recorded.date,
                           .years = ask->years,
                           .draws = ask->draws,
                           .days = ask->days,
                           .paddocks = now->paddocks,
                           .animals = now->animals,
                           .members = ask->years * (1 + ask->draws),
                           .brief_h = now->params->limits.brief_h};
    size_t cells = e->members * e->days;
    e->growth = arena_alloc(a, e->paddocks * cells, sizeof *e->growth);
    e->sugar = arena_alloc(a, e->paddocks * cells, sizeof *e->sugar);
    e->hours = arena_alloc(a, e->animals * cells, sizeof *e->hours);
    e->hay = arena_alloc(a, e->animals * cells, sizeof *e->hay);
    e->grass = arena_alloc(a, e->animals * cells, sizeof *e->grass);
    return e->growth && e->sugar && e->hours && e->hay && e->grass;
}

double ensemble_bytes(const struct ensemble_ask *ask)
{
    double cells = (double)ask->years * (double)(1 + ask->draws) * (double)ask->days;
    const double kept = 2.0 * (double)ask->now->paddocks + 3.0 * (double)ask->now->animals;
    return cells * kept * sizeof(float);
}

bool ensemble_run(const struct ensemble_ask *ask, struct arena *a, struct ensemble *e)
{
    assert(ask->threads > 0);
    struct ensemble_draw *draw = NULL;
    struct worker w[ENSEMBLE_THREADS] = {{0}};
    size_t n = ask->threads < ENSEMBLE_THREADS ? ask->threads : ENSEMBLE_THREADS;
    n = n > ask->years ? ask->years : n;
    if (!make_results(ask, a, e) || !ensemble_draws(ask->seed, ask->now->paddocks, ask->years * ask->draws, a, &draw)) {
        return false;
    }
    const struct job job = {.ask = ask, .draw = draw, .e = e, .workers = n};
    for (size_t i = 0; i < n; i++) {
        w[i].job = &job;
        w[i].first = i;
        w[i].sward = arena_alloc(a, ask->draws * ask->now->paddocks, sizeof *w[i].sward);
        w[i].drawn = arena_alloc(a, ask->draws, sizeof *w[i].drawn);
        if (!w[i].sward || !w[i].drawn || !run_copy(&w[i].run, ask->now, a)) {
            return false;
        }
    }
    work_together(w, n);
    return true;
}
