/* A day's feed as a sum that can be followed by hand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/ration.h"

#include "animal/ration.h"

#include <math.h>
#include <stdio.h>

static const char *const names[CONTENTS] = {
    [CONTENT_NSC] = "NSC", [CONTENT_SUGAR] = "sugar", [CONTENT_STARCH] = "starch", [CONTENT_NDF] = "NDF",
    [CONTENT_ADF] = "ADF", [CONTENT_CP] = "protein",  [CONTENT_ENERGY] = "energy"};

/* Where the weight of grass comes from. */
static void grass_kg(const struct page *page, const struct account *a)
{
    const struct advice *x = a->advice;
    const struct advice_limits *l = a->limits;
    double day_kg = intake_day(&a->group->rules, a->weight_kg);
    double factor = x->muzzle ? intake_muzzle_factor(l, a->weight_kg) : 1.0;
    double wanted = factor * intake_session(day_kg, x->hours, l->intake_exponent);
    char line[320];
    snprintf(line, sizeof line, "%.3g %% of %.1f kg body weight = %.3f kg dry matter in 24 h.",
             100.0 * day_kg / a->weight_kg, a->weight_kg, day_kg);
    text_wrap(page, "    Appetite: ", line);
    if (x->hours <= 0.0) {
        return;
    }
    snprintf(line, sizeof line, "%.3f kg x (%g h / 24 h)^%g x %g = %.3f kg%s.", day_kg, x->hours, l->intake_exponent,
             factor, wanted,
             a->part[0].dm_kg < wanted - 1e-9 ? "; the sward can give no more than the row below says" : "");
    text_wrap(page, "    Grass eaten: ", line);
    snprintf(line, sizeof line,
             "%.0f g/kg over the day by the estimate; counted at %.0f, under which it stays in %.0f cases of 100; over "
             "the hours eaten %.1f g/kg = %.2f %%.",
             a->grass_mean_g_kg, x->level_g_kg, 100.0 * a->group->rules.level_probability,
             10.0 * x->ration.grass_nsc_pct, x->ration.grass_nsc_pct);
    text_wrap(page, "    Its NSC: ", line);
}

/* Hay fills the day, and the forage floor where that asks for more. */
static void hay_kg(const struct page *page, const struct account *a)
{
    const struct ration *r = &a->advice->ration;
    double day_kg = intake_day(&a->group->rules, a->weight_kg);
    double filled = fmax(day_kg - r->grass_dm_kg - r->fed_dm_kg, 0.0);
    char line[256];
    if (fabs(filled - r->hay_dm_kg) < 1e-9) {
        snprintf(line, sizeof line, "%.3f kg - %.3f grass - %.3f other feed = %.3f kg, nothing below 0.", day_kg,
                 r->grass_dm_kg, r->fed_dm_kg, r->hay_dm_kg);
    } else {
        double floor_kg = a->group->rules.min_forage_pct / 100.0 * a->weight_kg;
        snprintf(line, sizeof line, "least forage %.3g %% of %.1f kg = %.3f kg, less grass and other forage = %.3f kg.",
                 a->group->rules.min_forage_pct, a->weight_kg, floor_kg, r->hay_dm_kg);
    }
    text_wrap(page, "    Hay: ", line);
}

static void part(const struct page *page, const struct account_part *p)
{
    char line[640], lead[LIMIT_NAME + 8];
    int at = snprintf(line, sizeof line, "%.3f kg x %.1f %% = %.3f kg dry;", p->fed_kg, p->dm_pct, p->dm_kg);
    for (int c = 0; c < CONTENTS && at > 0 && (size_t)at < sizeof line; c++) {
        bool energy = c == CONTENT_ENERGY;
        const char *end = c + 1 < CONTENTS ? "," : "";
        int n;
        if (isnan(p->content[c])) {
            n = snprintf(line + at, sizeof line - (size_t)at, " %s not known%s", names[c], end);
        } else {
            n = snprintf(line + at, sizeof line - (size_t)at, " %s x %.2f %s = %.*f %s%s", names[c], p->content[c],
                         energy ? "MJ" : "%", energy ? 2 : 1, account_amount(p, (enum account_content)c),
                         energy ? "MJ" : "g", end);
        }
        at += n;
    }
    snprintf(lead, sizeof lead, "    %s: ", p->id);
    text_wrap(page, lead, line);
}

/* "NSC: 44.0 + 377.1 = 421.1 g; / 4.275 kg / 10 = 9.85 %". */
static void content(const struct page *page, const struct account *a, enum account_content c)
{
    char line[640], lead[32];
    bool energy = c == CONTENT_ENERGY;
    int at = 0, decimals = energy ? 2 : 1;
    snprintf(lead, sizeof lead, "    %s: ", names[c]);
    if (isnan(a->amount[c])) {
        text_wrap(page, lead, "not known of every feed, so not of the whole.");
        return;
    }
    for (size_t i = 0; i < a->parts && (size_t)at < sizeof line; i++) {
        if (a->part[i].dm_kg > 0.0) {
            at += snprintf(line + at, sizeof line - (size_t)at, "%s%.*f", at ? " + " : "", decimals,
                           account_amount(&a->part[i], c));
        }
    }
    if ((size_t)at < sizeof line) {
        snprintf(line + at, sizeof line - (size_t)at,
                 " = %.*f %s; / %.3f kg%s = %.2f %s; / %.1f kg body weight = %.3f "
                 "%s/kg",
                 decimals, a->amount[c], energy ? "MJ" : "g", a->dm_kg, energy ? "" : " / 10", a->content[c],
                 energy ? "MJ/kg" : "%", a->weight_kg, a->amount[c] / a->weight_kg, energy ? "MJ" : "g");
    }
    text_wrap(page, lead, line);
}

static void bucket(const struct page *page, const struct account *a)
{
    const struct ration *r = &a->advice->ration;
    char line[256];
    if (r->bucket_nsc_g_kg > 0.0) {
        snprintf(
            line, sizeof line,
            "all buckets taken as one meal: starch %.1f g / %.1f kg = %.3f g/kg; NSC %.1f g / %.1f kg = %.3f g/kg.",
            r->starch_meal_g_kg * a->weight_kg, a->weight_kg, r->starch_meal_g_kg, r->bucket_nsc_g_kg * a->weight_kg,
            a->weight_kg, r->bucket_nsc_g_kg);
        text_wrap(page, "    Bucket: ", line);
    }
}

static void concentrate(const struct page *page, const struct account *a)
{
    const struct account_verdict *v = &a->verdict[VERDICT_CONCENTRATE];
    char line[128];
    if (v->state != STATE_NONE && v->value > 0.0) {
        snprintf(line, sizeof line, "all buckets %.3f kg dry / %.3f kg = %.1f %%.", v->value / 100.0 * a->dm_kg,
                 a->dm_kg, v->value);
        text_wrap(page, "    Concentrate: ", line);
    }
}

void ration_arithmetic(const struct page *page, const struct account *a)
{
    char line[160];
    buf_add(page->b, "  By hand (shown rounded, reckoned unrounded):\n");
    grass_kg(page, a);
    hay_kg(page, a);
    for (size_t i = 0; i < a->parts; i++) {
        if (a->part[i].dm_kg > 0.0) {
            part(page, &a->part[i]);
        }
    }
    text_wrap(page, "    Mind: ",
              "fibre, protein and energy of the grass are those of a table's young pasture; ADF and protein of tables "
              "are unsure: no figures to judge by.");
    for (int c = 0; c < CONTENTS; c++) {
        content(page, a, (enum account_content)c);
    }
    snprintf(line, sizeof line, "%.3f kg / %.1f kg body weight = %.3f %%.", a->forage_kg, a->weight_kg,
             a->advice->ration.forage_pct_bw);
    text_wrap(page, "    Forage: ", line);
    bucket(page, a);
    concentrate(page, a);
}
