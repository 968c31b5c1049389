/* What must hold for every animal on every day, over random ones.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "support/advice_support.h"

enum { CASES = 10000 };

static struct advice_tables tables;

static int make_tables(void **state)
{
    (void)state;
    advice_tables_make(&support_params()->limits, &tables);
    return 0;
}

struct trial {
    struct advice_subject s;
    struct advice_grass g;
};

static void draw(unsigned long long *seed, struct trial *t)
{
    const struct params *p = support_params();
    const struct animal_class *c = &p->animal[(size_t)(advice_random(seed) * (double)p->animals)];
    advice_subject(&t->s, c->id);
    t->s.rules.muzzle_offered = c->muzzle_offered;
    t->s.animal.weight_kg = c->weight_kg * (0.7 + 0.6 * advice_random(seed));
    t->s.animal.hay_nsc_pct = 5.0 + 20.0 * pow(advice_random(seed), 2.0);
    t->s.animal.foot_signs = advice_random(seed) < 0.03;
    while (t->s.animal.feds < 2 && advice_random(seed) < 0.3) {
        const struct feed *f = &p->feed[(size_t)(advice_random(seed) * (double)p->feeds)];
        advice_feed(&t->s, f->id, 0.02 * c->hay_pct * advice_random(seed) * c->weight_kg / 10.0 + 0.01);
    }
    double level = 40.0 + 260.0 * advice_random(seed);
    double swing = 0.4 * level * advice_random(seed);
    t->g = advice_flat_grass(0.0);
    for (int i = 0; i < 24; i++) {
        t->g.nsc[i] = level + swing * sin((i - 9.0) * 0.2617993878) * (0.8 + 0.2 * advice_random(seed));
    }
    t->g.ln_sd = 0.5 * advice_random(seed);
    t->g.dawn_h = 4.0 + 4.0 * advice_random(seed);
    t->g.days_since_killing_frost = advice_random(seed) < 0.05 ? 3 : 500;
    t->g.available_kg_head = advice_random(seed) < 0.2 ? advice_random(seed) * 5.0 : (double)NAN;
}

static void advise_trial(const struct trial *t, struct advice *a)
{
    advise_with(&tables, &t->g, &t->s.animal, &support_params()->limits, a);
}

static void check_feeding(const struct trial *t, const struct advice *a)
{
    const struct animal_class *r = &t->s.rules;
    double intake = isnan(r->intake_pct) ? r->hay_pct : r->intake_pct;
    assert_true(a->ration.forage_pct_bw >= r->min_forage_pct - 1e-9);
    assert_true(a->ration.dm_kg >= intake / 100.0 * t->s.animal.weight_kg - 1e-9); /* slims nobody */
    assert_true(a->hay_kg >= a->ration.hay_dm_kg && isfinite(a->hay_kg));
}

static void check_turnout(const struct trial *t, const struct advice *a)
{
    const struct animal_class *r = &t->s.rules;
    assert_true(a->hours >= 0.0 && a->hours <= r->max_hours);
    assert_true(!a->muzzle || r->species == SPECIES_EQUID);
    assert_true(!a->muzzle || a->hours <= 12.0);
    assert_true(!t->s.animal.foot_signs || a->turnout == TURNOUT_NONE);
    assert_true((a->turnout == TURNOUT_FREE) == (a->hours == 24.0));
    assert_true((a->turnout == TURNOUT_NONE) == (a->hours == 0.0));
    assert_true((a->turnout == TURNOUT_BRIEF) == (a->hours > 0.0 && a->hours <= 1.0));
    assert_true(a->reasons != 0);
    if (a->turnout == TURNOUT_TIMED || a->turnout == TURNOUT_BRIEF) {
        double end = fmod(a->to_h, 24.0);
        assert_true(fabs(a->to_h - a->from_h - a->hours) < 1e-9);
        assert_true(a->from_h >= 5.0 && a->from_h <= 21.0 && end >= 5.0 - 1e-9 && end <= 21.0 + 1e-9);
    }
}

/* Within caution, but for brief by the stop limit and for no grass at all. */
static void check_limits(const struct trial *t, const struct advice *a)
{
    if (a->turnout == TURNOUT_NONE) {
        return;
    }
    double limit = advice_has(a, REASON_WITHIN_STOP) ? a->stop_pct : a->limit_pct;
    double unjudged = fmax(a->hay_nsc_pct - a->limit_pct, 0.0); /* of hay that is worse than hours are judged by */
    assert_true(a->ration.nsc_pct <= limit + unjudged + 1e-6);
    assert_true(!advice_has(a, REASON_WITHIN_STOP) || a->turnout == TURNOUT_BRIEF);
    assert_false(a->ration.nsc_g_kg_bw > a->day_ceiling_g_kg + 1e-6);
    bool judged = !advice_has(a, REASON_FIBRE_UNKNOWN) && !a->hay_low_fibre && !a->bucket_low_fibre;
    assert_true(!judged || isnan(t->s.rules.min_ndf_pct) || a->ration.ndf_pct >= t->s.rules.min_ndf_pct - 1e-9);
}

static void test_every_advice_is_sound(void **state)
{
    (void)state;
    unsigned long long seed = 10;
    int seen[4] = {0};
    for (int n = 0; n < CASES; n++) {
        struct trial t;
        struct advice a;
        draw(&seed, &t);
        advise_trial(&t, &a);
        check_feeding(&t, &a);
        check_turnout(&t, &a);
        check_limits(&t, &a);
        seen[a.turnout]++;
    }
    for (int i = 0; i < 4; i++) {
        assert_true(seen[i] > CASES / 50); /* else the draw proves little */
    }
}

/* With `worse` done to it an animal never gets more: no milder word, and no more
 * hours unless the muzzle has just gone on. */
static void assert_no_milder(const struct trial *before, const struct trial *after)
{
    struct advice a;
    struct advice b;
    advise_trial(before, &a);
    advise_trial(after, &b);
    assert_true(b.turnout >= a.turnout);
    assert_true(b.hours <= a.hours || (b.muzzle && !a.muzzle));
}

static void test_more_sugar_never_gives_more(void **state)
{
    (void)state;
    unsigned long long seed = 11;
    for (int n = 0; n < CASES; n++) {
        struct trial t;
        draw(&seed, &t);
        struct trial sweeter = t;
        sweeter.s.animal.rules = &sweeter.s.rules;
        sweeter.s.animal.fed = sweeter.s.fed;
        for (int i = 0; i < 24; i++) {
            sweeter.g.nsc[i] += 40.0 * advice_random(&seed);
        }
        assert_no_milder(&t, &sweeter);
    }
}

/* Hay beyond the usual 12.8 % (limits.json) buys nothing, however bad. */
static void test_worse_hay_never_gives_more(void **state)
{
    (void)state;
    unsigned long long seed = 21;
    for (int n = 0; n < CASES; n++) {
        struct trial t;
        draw(&seed, &t);
        t.s.animal.rules = &t.s.rules;
        t.s.animal.fed = t.s.fed;
        t.s.animal.hay_nsc_pct = fmax(12.8, t.s.rules.nsc_caution_pct);
        struct trial bad = t;
        bad.s.animal.rules = &bad.s.rules;
        bad.s.animal.fed = bad.s.fed;
        bad.s.animal.hay_nsc_pct += 20.0 * advice_random(&seed);
        assert_no_milder(&t, &bad);
    }
}

static void test_more_doubt_never_gives_more(void **state)
{
    (void)state;
    unsigned long long seed = 12;
    for (int n = 0; n < CASES; n++) {
        struct trial t;
        draw(&seed, &t);
        struct trial doubted = t;
        doubted.s.animal.rules = &doubted.s.rules;
        doubted.s.animal.fed = doubted.s.fed;
        doubted.g.ln_sd += 0.3 * advice_random(&seed);
        assert_no_milder(&t, &doubted); /* every class is judged at 0.5 or above */
    }
}

/* Limits raised together; a history lowers them. */
static void test_lower_limits_never_give_more(void **state)
{
    (void)state;
    unsigned long long seed = 13;
    for (int n = 0; n < CASES; n++) {
        struct trial t;
        draw(&seed, &t);
        struct trial stricter = t;
        stricter.s.animal.rules = &stricter.s.rules;
        stricter.s.animal.fed = stricter.s.fed;
        double by = 4.0 * advice_random(&seed);
        stricter.s.rules.nsc_caution_pct -= by;
        stricter.s.rules.nsc_stop_pct -= by;
        assert_no_milder(&t, &stricter);
    }
}

/* The plain advice is the same but for the reasons that stop a longer session. */
static void plain_advice_is_the_same_advice(void **state)
{
    unsigned long long seed = 77;
    (void)state;
    for (int i = 0; i < CASES; i++) {
        struct trial t;
        struct advice full, plain;
        draw(&seed, &t);
        advise_trial(&t, &full);
        advise_plainly(&tables, &t.g, &t.s.animal, &support_params()->limits, &plain);
        assert_true(plain.turnout == full.turnout && plain.hours == full.hours && plain.muzzle == full.muzzle);
        assert_true(plain.from_h == full.from_h && plain.to_h == full.to_h && plain.hay_kg == full.hay_kg);
        assert_true((plain.reasons & ~full.reasons) == 0 && isnan(plain.longer_nsc_pct));
    }
}

/* Whether there is any grass is the same answer as the hours', found in another order. */
static void any_grass_is_hours_over_none(void **state)
{
    unsigned long long seed = 78;
    int none = 0;
    (void)state;
    for (int i = 0; i < CASES; i++) {
        struct trial t;
        struct advice full;
        draw(&seed, &t);
        t.s.animal.back = (struct way_back){0};
        advise_trial(&t, &full);
        assert_int_equal(advise_any(&tables, &t.g, &t.s.animal, &support_params()->limits), full.hours > 0.0);
        none += full.hours == 0.0;
    }
    assert_true(none > CASES / 20 && none < CASES - CASES / 20); /* both answers come up */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_advice_is_sound),        cmocka_unit_test(test_more_sugar_never_gives_more),
        cmocka_unit_test(test_worse_hay_never_gives_more),   cmocka_unit_test(test_more_doubt_never_gives_more),
        cmocka_unit_test(test_lower_limits_never_give_more), cmocka_unit_test(plain_advice_is_the_same_advice),
        cmocka_unit_test(any_grass_is_hours_over_none),
    };
    return cmocka_run_group_tests(tests, make_tables, NULL);
}
