/* What must hold of every ration: ten thousand random holdings, written, read, advised
 * and added up. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advice/account.h"
#include "animal/ration.h"
#include "base/arena.h"
#include "base/buf.h"
#include "season/run.h"
#include "support/advice_support.h"

enum { HOLDINGS = 10000 };

struct trial {
    struct arena arena;
    struct holding holding;
    struct run run;
    struct advice_grass grass;
    struct advice advice;
    struct account account;
};

static size_t pick(unsigned long long *seed, size_t n)
{
    return (size_t)(advice_random(seed) * (double)n);
}

static bool chance(unsigned long long *seed, double share)
{
    return advice_random(seed) < share;
}

static void write_animal(unsigned long long *seed, struct buf *b)
{
    const struct params *p = support_params();
    const struct animal_class *c = &p->animal[pick(seed, p->animals)];
    buf_addf(b, "\"animals\": [{\"id\": \"a\", \"class\": \"%s\"", c->id);
    if (c->grown && c->species != SPECIES_ALPACA && chance(seed, 0.2)) {
        double side = cbrt(c->weight_kg * 11500.0) * (0.95 + 0.1 * advice_random(seed));
        buf_addf(b, ", \"girth_cm\": %.1f, \"length_cm\": %.1f", side * 1.05, side * 0.92);
    } else {
        buf_addf(b, ", \"weight_kg\": %.1f", c->weight_kg * (0.7 + 0.6 * advice_random(seed)));
    }
    buf_add(b, ", \"history\": [");
    if (chance(seed, 0.4)) {
        buf_addf(b, "\"%s\"", history_words[pick(seed, HISTORY_WORDS)]);
    }
    buf_add(b, "], \"fed_daily\": [");
    for (int i = 0; i < 3 && chance(seed, 0.45); i++) {
        double kg = 0.02 * c->weight_kg * pow(advice_random(seed), 2.0) + 0.01;
        buf_addf(b, "%s{\"feed\": \"%s\", \"kg\": %.3f}", i ? ", " : "", p->feed[pick(seed, p->feeds)].id, kg);
    }
    buf_add(b, "]}],\n");
}

/* Of the hay's first half; `wet` says whether it may be soaked or steamed. */
static void write_hay(unsigned long long *seed, bool wet, struct buf *b)
{
    const struct params *p = support_params();
    size_t feed = pick(seed, p->feeds);
    while (!p->feed[feed].may_be_hay) {
        feed = pick(seed, p->feeds);
    }
    buf_addf(b, "\"hay\": {\"stock\": [{\"feed\": \"%s\"", p->feed[feed].id);
    if (chance(seed, 0.4)) {
        double nsc = 4.0 + 20.0 * advice_random(seed);
        buf_addf(b, ", \"nsc_percent\": %.1f, \"nsc_is\": \"%s\"", nsc,
                 chance(seed, 0.3) ? "esc+starch" : "wsc+starch");
        if (chance(seed, 0.5)) {
            buf_addf(b, ", \"starch_percent\": %.1f", 0.4 * nsc * advice_random(seed));
        }
    }
    if (chance(seed, 0.3)) {
        buf_addf(b, ", \"ndf_percent\": %.1f", 35.0 + 40.0 * advice_random(seed));
    }
    if (chance(seed, 0.3)) {
        buf_addf(b, ", \"dm_percent\": %.1f, \"energy_mj_kg\": %.1f", 75.0 + 18.0 * advice_random(seed),
                 6.0 + 5.0 * advice_random(seed));
    }
    double hours = 0.1 + 14.0 * advice_random(seed), water_c = 2.0 + 28.0 * advice_random(seed);
    bool silage = strstr(p->feed[feed].id, "silage") != NULL;
    if (wet && !silage) {
        buf_addf(b, ", \"soaked\": {\"hours\": %.2f, \"water_c\": %.1f}", hours, water_c);
    } else if (wet) {
        buf_add(b, ", \"steamed\": true");
    }
    buf_add(b, "}]}}");
}

static void draw_grass(unsigned long long *seed, struct advice_grass *g)
{
    double level = 40.0 + 260.0 * advice_random(seed), swing = 0.4 * level * advice_random(seed);
    *g = advice_flat_grass(0.0);
    for (int i = 0; i < 24; i++) {
        g->nsc[i] = level + swing * sin((i - 9.0) * 0.2617993878);
    }
    g->ln_sd = 0.5 * advice_random(seed);
    g->starch_pct = 4.0 * advice_random(seed);
    g->days_since_killing_frost = chance(seed, 0.05) ? 3 : 500;
    g->available_kg_head = chance(seed, 0.2) ? 5.0 * advice_random(seed) : (double)NAN;
    g->lasting_kg_head = chance(seed, 0.3) ? 8.0 * advice_random(seed) : (double)NAN;
}

/* False where the holding was refused, which a history that the species has no rules for is. */
static bool make(unsigned long long seed, bool wet, struct trial *t)
{
    struct buf b;
    struct err e = {0};
    buf_init(&b);
    buf_add(&b, "{\"sugarlea\": 1, \"site\": {\"latitude\": 52}, \"paddocks\": [{\"id\": \"p\", \"area_ha\": 1}],\n");
    write_animal(&seed, &b);
    write_hay(&seed, wet, &b);
    enum err_code code = holding_parse(b.text, b.length, "h.json", support_params(), &t->arena, &t->holding, &e);
    buf_release(&b);
    if (code != ERR_OK) {
        /* histories that a class may not have, and feed that no animal eats */
        assert_true(strstr(e.field, "history") != NULL || strstr(e.what, "history") != NULL ||
                    strstr(e.what, "no animal of") != NULL);
        return false;
    }
    assert_true(run_init(&t->run, support_params(), &t->holding, &t->arena));
    draw_grass(&seed, &t->grass);
    struct run_animal *a = &t->run.animal[0];
    a->input.foot_signs = chance(&seed, 0.03);
    advise_with(&t->run.tables, &t->grass, &a->input, &support_params()->limits, &t->advice);
    account_make(&t->advice, &a->input, &t->grass, a->group, run_hay_of(&t->holding, a->group), support_params(),
                 &t->account);
    return true;
}

static void assert_near(double value, double expected)
{
    if (!(fabs(value - expected) <= 1e-9 * (1.0 + fabs(expected)))) {
        fail_msg("%.12g is not %.12g", value, expected);
    }
}

/* Never less forage than the class's floor; nobody is slimmed, least of all in kid, in
 * foal or milking; no muzzle on a goat or sheep. */
static void check_feeding(const struct trial *t)
{
    const struct animal_group *g = t->holding.animal;
    const struct animal_class *base = params_animal(support_params(), g->class_id);
    const struct ration *r = &t->advice.ration;
    assert_true(r->forage_pct_bw >= base->min_forage_pct - 1e-9);
    assert_true(r->forage_pct_bw >= g->rules.min_forage_pct - 1e-9);
    assert_true(r->dm_kg >= intake_day(base, g->weight_kg) - 1e-9);
    assert_true(t->account.verdict[VERDICT_FORAGE].state == STATE_WITHIN);
    assert_true(t->account.verdict[VERDICT_INTAKE].state == STATE_WITHIN);
    assert_true(!t->advice.muzzle || g->rules.species == SPECIES_EQUID);
}

static void check_sums(const struct trial *t)
{
    const struct account *a = &t->account;
    const struct ration *r = &t->advice.ration;
    double dm = 0.0, forage = 0.0, nsc = 0.0, bucket_starch = 0.0, ndf = 0.0, sugar = 0.0, starch = 0.0;
    for (size_t i = 0; i < a->parts; i++) {
        const struct account_part *p = &a->part[i];
        assert_true(p->dm_kg >= 0.0 && isfinite(p->fed_kg));
        assert_near(p->fed_kg * p->dm_pct / 100.0, p->dm_kg);
        dm += p->dm_kg;
        forage += p->kind == PART_BUCKET ? 0.0 : p->dm_kg;
        nsc += account_amount(p, CONTENT_NSC);
        ndf += account_amount(p, CONTENT_NDF);
        sugar += account_amount(p, CONTENT_SUGAR);
        starch += account_amount(p, CONTENT_STARCH);
        bucket_starch += p->kind == PART_BUCKET ? account_amount(p, CONTENT_STARCH) : 0.0;
        assert_true(p->content[CONTENT_STARCH] >= 0.0 && p->content[CONTENT_SUGAR] >= -1e-9);
    }
    assert_true(isfinite(r->dm_kg) && isfinite(r->nsc_pct) && r->nsc_pct > 0.0 && isfinite(starch));
    assert_near(dm, r->dm_kg);
    assert_near(100.0 * forage / a->weight_kg, r->forage_pct_bw);
    assert_near(nsc / 10.0 / dm, r->nsc_pct);
    assert_near(nsc / a->weight_kg, r->nsc_g_kg_bw);
    assert_near(sugar + starch, nsc);
    assert_near(bucket_starch / a->weight_kg, r->starch_meal_g_kg);
    assert_near(a->part[1].fed_kg, t->advice.hay_kg);
    assert_near(a->amount[CONTENT_NSC], nsc);
    assert_true(isnan(ndf) ? isnan(r->ndf_pct) : fabs(ndf / 10.0 / dm - r->ndf_pct) < 1e-9);
}

static void check_verdicts(const struct trial *t)
{
    char text[640];
    for (int i = 0; i < VERDICTS; i++) {
        const struct account_verdict *v = &t->account.verdict[i];
        assert_true(isnan(v->limit) == (v->state == STATE_NONE));
        assert_true(v->state != STATE_WITHIN || isfinite(v->value));
        assert_true(v->state != STATE_OVER || v->value > v->limit);
        assert_true(v->state != STATE_UNDER || v->value < v->limit);
        if (v->state != STATE_NONE) {
            account_verdict_text(&t->account, (enum account_rule)i, SHOW_METRIC, text, sizeof text);
            assert_true(strstr(text, "nan") == NULL && strstr(text, "inf") == NULL);
            assert_true(strlen(text) < sizeof text - 1);
        }
    }
    assert_true(t->account.verdict[VERDICT_NSC].state != STATE_WITHIN ||
                t->advice.ration.nsc_pct <= t->holding.animal->rules.nsc_caution_pct + 1e-6);
    /* hay in the place of grass that is not there may be the sweeter of the two: no hour less would help */
    assert_true(t->account.verdict[VERDICT_NSC_DAY].state != STATE_OVER || t->advice.hours == 0.0 ||
                t->advice.ration.lacking_dm_kg > 0.0);
}

static void test_every_ration_is_sound(void **state)
{
    (void)state;
    int made = 0, seen[4] = {0}, unsure = 0, over = 0;
    for (unsigned long long n = 0; n < HOLDINGS; n++) {
        struct trial t = {0};
        arena_init(&t.arena);
        if (make(7919 * n + 1, chance(&(unsigned long long){n}, 0.3), &t)) {
            check_feeding(&t);
            check_sums(&t);
            check_verdicts(&t);
            made++;
            seen[t.advice.turnout]++;
            over += t.account.verdict[VERDICT_NSC].state == STATE_OVER;
            unsure += t.account.verdict[VERDICT_NSC].state == STATE_UNSURE;
        }
        arena_release(&t.arena);
    }
    printf("# %d rations: free %d, timed %d, brief %d, none %d; sugar over %d, not sure %d\n", made, seen[0], seen[1],
           seen[2], seen[3], over, unsure);
    assert_true(made > HOLDINGS * 8 / 10 && over > HOLDINGS / 20 && unsure > HOLDINGS / 50);
    for (int i = 0; i < 4; i++) {
        assert_true(seen[i] > HOLDINGS / 50); /* else the draw proves little */
    }
}

/* The same holding with its hay soaked: to the last bit the same advice and the same
 * verdicts, whatever the credit says; so no soak passes what the dry hay fails. Poor
 * teeth are another matter: for them soaked hay may do, and never worse. */
static void test_soaking_passes_nothing(void **state)
{
    (void)state;
    int credited = 0, would_pass = 0;
    for (unsigned long long n = 0; n < HOLDINGS; n++) {
        struct trial dry = {0}, wet = {0};
        arena_init(&dry.arena);
        arena_init(&wet.arena);
        if (make(104729 * n + 3, false, &dry)) {
            assert_true(make(104729 * n + 3, true, &wet));
            const struct advice *d = &dry.advice, *w = &wet.advice;
            assert_true(d->turnout == w->turnout && d->hours == w->hours && d->muzzle == w->muzzle);
            assert_true(d->reasons == w->reasons && d->hay_over == w->hay_over && d->hay_kg == w->hay_kg);
            assert_true(d->ration.nsc_pct == w->ration.nsc_pct && d->ration.dm_kg == w->ration.dm_kg);
            for (int i = 0; i < VERDICTS; i++) {
                enum account_state of_dry = dry.account.verdict[i].state, of_wet = wet.account.verdict[i].state;
                assert_true(of_dry == of_wet || (i == VERDICT_TEETH && of_dry == STATE_OVER));
            }
            const struct account *a = &wet.account;
            double limit = a->verdict[VERDICT_NSC].limit;
            credited += a->credit != NULL;
            would_pass += a->credit && a->verdict[VERDICT_NSC].state == STATE_OVER && a->soaked_nsc_pct <= limit;
            assert_true(!a->credit || a->soaked_hay_nsc_pct <= a->part[1].content[CONTENT_NSC]);
        }
        arena_release(&dry.arena);
        arena_release(&wet.arena);
    }
    printf("# soaked: %d with a credit, of which %d would read as passed\n", credited, would_pass);
    assert_true(credited > HOLDINGS / 3 && would_pass > HOLDINGS / 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_ration_is_sound),
        cmocka_unit_test(test_soaking_passes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
