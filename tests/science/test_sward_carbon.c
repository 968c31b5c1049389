/* Ten thousand random years of every type, mixture and management, in weather worse
 * than any place has: the carbon account closes every day, and no state leaves its
 * range. Conservation is arithmetic and needs no source.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define YEARS 10000
#define YEARS_OF_A_SWARD 5
#define CONTENT_MOST 0.40 /* g/g: records give 0.021 to 0.335; see models/METHOD.md */

struct run {
    unsigned long long random;
    double mean, swing, noise, light, wet; /* the year's climate */
    unsigned manage;
    double account_worst, content_most;
};

static double between(struct run *run, double low, double high)
{
    return low + (high - low) * support_random(&run->random);
}

static unsigned pick(struct run *run, unsigned n)
{
    return (unsigned)(support_random(&run->random) * n) % n;
}

static struct sward random_sward(struct run *run)
{
    const struct params *p = support_params();
    const struct grass *grass[3];
    double share[3];
    struct sward s;
    size_t n = 1 + pick(run, 3);
    for (size_t i = 0; i < n; i++) {
        grass[i] = &p->grass[pick(run, (unsigned)p->grasses)];
        share[i] = between(run, 0.05, 1);
    }
    sward_init(&s, p->kind, n, grass, share, p->soil[pick(run, (unsigned)p->soils)].capacity_mm,
               between(run, 0.8, 1.15));
    return s;
}

static void random_climate(struct run *run)
{
    run->mean = between(run, -20, 32);
    run->swing = between(run, 0, 20);
    run->noise = between(run, 0, 12);
    run->light = between(run, 0, 35);
    run->wet = between(run, 0, 8);
    run->manage = pick(run, 5);
}

static struct sward_day random_day(struct run *run, int date)
{
    double season = cos((date % 365 - 200) / 58.0),
           t = run->mean + run->swing * season + between(run, -1, 1) * run->noise;
    double range = between(run, 0, 25), n = fmin(24, fmax(0, 12 + 14 * season));
    struct sward_day d;
    struct sward_weather w = {.date = date,
                              .tmin = t - 0.5 * range,
                              .tmax = t + 0.5 * range,
                              .rad = between(run, 0, run->light) * fmin(1, n / 10),
                              .rain = between(run, 0, 1) > 0.7 ? between(run, 0, 10 * run->wet) : 0,
                              .et0 = between(run, 0, 12)};
    w.tmax_before = w.tmax + between(run, -10, 10);
    w.tmin_after = w.tmin + between(run, -10, 10);
    sward_day_force(&d, &w, n, run->random & 1, run->random & 2);
    return d;
}

static void manage(struct run *run, struct sward *s)
{
    if (run->manage == 1 && pick(run, 20) == 0) {
        sward_cut(s, between(run, 0, 12));
    } else if (run->manage == 2) {
        sward_graze_to_cover(s, between(run, 0, 4000));
    } else if (run->manage == 3) {
        double unmet, wanted = between(run, 0, 200), taken = sward_graze_intake(s, wanted, &unmet);
        assert_true(fabs(taken + unmet - wanted) <= 1e-9 * (1 + wanted));
    } else if (run->manage == 4 && pick(run, 30) == 0) {
        sward_graze_down(s, between(run, 0, 3000));
    }
}

static double sugar_of(const struct sward *s)
{
    double sum = 0;
    for (size_t i = 0; i < s->parts; i++) {
        sum += s->share[i] * s->part[i].sugar;
    }
    return sum;
}

static void check_account(struct run *run, const struct sward_result *r, double before, double after)
{
    double turnover = r->assimilated + r->respired + r->built + r->lost;
    double off = fabs(r->assimilated - (r->respired + r->built + r->lost + after - before));
    double allowed = fmax(1e-9 * turnover, 1e-12 * fmax(before, after));
    run->account_worst = fmax(run->account_worst, allowed > 0 ? off / allowed : off);
    if (!(off <= allowed)) {
        fail_msg("the account is off by %g of a turnover of %g g/m2", off, turnover);
    }
}

static void check_states(struct run *run, const struct sward *s)
{
    assert_true(s->water >= 0 && s->water <= 1);
    for (size_t i = 0; i < s->parts; i++) {
        const struct sward_part *p = &s->part[i];
        double content = p->sugar / (p->leaf + p->stem + p->sugar);
        run->content_most = fmax(run->content_most, content);
        if (!(p->leaf > 0 && p->stem >= 0 && p->dead >= 0 && p->sugar >= 0 && content <= CONTENT_MOST)) {
            fail_msg("leaf %g stem %g dead %g sugar %g content %g", p->leaf, p->stem, p->dead, p->sugar, content);
        }
        assert_true(isfinite(p->leaf_age) && isfinite(p->stem_age) && isfinite(p->slow_lai));
    }
}

static void check_result(const struct sward_result *r)
{
    if (!(r->nsc_min >= 0 && r->nsc_max <= 1000 * CONTENT_MOST && r->nsc_min <= r->nsc_mean + 1e-9 &&
          r->nsc_mean <= r->nsc_max + 1e-9)) {
        fail_msg("NSC minimum %g, mean %g, maximum %g g/kg", r->nsc_min, r->nsc_mean, r->nsc_max);
    }
    assert_true(r->growth >= 0 && r->respired >= 0 && r->assimilated >= 0 && r->lost >= 0);
    assert_true(fabs(r->wsc + r->starch - r->nsc_mean) <= 1e-9 * (1 + r->nsc_mean));
    assert_true(r->fructan >= 0 && r->fructan <= r->wsc && r->esc >= 0 && r->esc <= r->wsc + 1e-9);
}

static void test_random_years(void **state)
{
    (void)state;
    struct run run = {.random = 20250504};
    struct sward s = {0};
    for (int year = 0; year < YEARS; year++) {
        if (year % YEARS_OF_A_SWARD == 0) {
            s = random_sward(&run);
        }
        random_climate(&run);
        for (int i = 0; i < 365; i++) {
            struct sward_day d = random_day(&run, 365 * (year % 200) + i);
            struct sward_result r;
            double before = sugar_of(&s);
            sward_step(&s, &d, &r);
            check_account(&run, &r, before, sugar_of(&s));
            check_result(&r);
            manage(&run, &s);
            check_states(&run, &s);
        }
    }
    print_message("# %d random years: account off by at most %.2g of what is allowed, richest %.0f g/kg\n", YEARS,
                  run.account_worst, 1000 * run.content_most);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random_years),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
