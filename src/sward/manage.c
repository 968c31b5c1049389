/* Cutting and grazing, in the evening. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "sward/mixture.h"
#include "sward/sward.h"

#include <assert.h>
#include <math.h>

#define KG_HA_OF_G_M2 10.0
#define CONTINUOUS_DAYS 7 /* grazed within so many days: no leaf stage, our choice */

double sward_total_kg_ha(const struct sward *s)
{
    return mixture_mass(s, MIXTURE_ALL);
}

double sward_green_kg_ha(const struct sward *s)
{
    return mixture_mass(s, MIXTURE_GREEN);
}

double sward_cover_of_height(const struct sward *s, double height_cm)
{
    assert(height_cm >= 0.0);
    return height_cm * s->kind[0]->height_density;
}

double sward_height_cm(const struct sward *s)
{
    return sward_total_kg_ha(s) / s->kind[0]->height_density;
}

/* Takes masses off one part; its sugar goes with the green. */
static void take(struct sward *s, size_t i, double leaf, double stem, double dead)
{
    assert(leaf >= 0.0 && stem >= 0.0 && dead >= 0.0);
    struct sward_part *p = &s->part[i];
    double green = p->leaf + p->stem;
    assert(green > 0.0);
    p->sugar *= num_most(0.0, 1.0 - (leaf + stem) / green);
    if (stem > 0.0 && s->st >= s->kind[i]->st_heading) {
        p->reproductive = false;
    }
    p->leaf -= leaf;
    p->stem -= stem;
    p->dead -= dead;
}

double sward_cut(struct sward *s, double to_cm)
{
    assert(to_cm >= 0.0);
    double before = sward_total_kg_ha(s);
    for (size_t i = 0; i < s->parts; i++) {
        const struct sward_kind *k = s->kind[i];
        struct sward_part *p = &s->part[i];
        double scale = to_cm / k->stubble_cm;
        take(s, i, num_most(0.0, p->leaf - num_most(k->leaf_floor, k->stubble_leaf * scale)),
             num_most(0.0, p->stem - k->stubble_stem * scale), num_most(0.0, p->dead - k->stubble_dead * scale));
        if (s->st >= k->st_heading) {
            p->reproductive = false;
        }
    }
    s->leaf_clock = 0.0;
    s->days_since_grazed = SWARD_LONG_AGO;
    return before - sward_total_kg_ha(s);
}

/* Keeps a share of everything; never less than the stubble animals leave. */
static double graze_alike(struct sward *s, double cover_kg_ha, double rate)
{
    assert(rate > 0.0 && rate <= 1.0);
    double before = sward_total_kg_ha(s);
    double floor = sward_cover_of_height(s, s->kind[0]->graze_floor_cm);
    double share = rate * (before - num_most(cover_kg_ha, floor)) / before;
    if (!(share > 0.0)) {
        return 0.0;
    }
    for (size_t i = 0; i < s->parts; i++) {
        const struct sward_part *p = &s->part[i];
        take(s, i, share * p->leaf, share * p->stem, share * p->dead);
    }
    s->leaf_clock = 0.0;
    return before - sward_total_kg_ha(s);
}

double sward_graze_to_cover(struct sward *s, double cover_kg_ha)
{
    double taken = graze_alike(s, cover_kg_ha, s->kind[0]->graze_rate);
    if (taken > 0.0) {
        s->days_since_grazed = 0;
    }
    return taken;
}

double sward_graze_down(struct sward *s, double cover_kg_ha)
{
    double taken = graze_alike(s, cover_kg_ha, 1.0);
    s->days_since_grazed = SWARD_LONG_AGO;
    return taken;
}

/* What animals can reach of one part, g/m2; green comes with its sugar. */
struct within_reach {
    double leaf, stem, dead, with_sugar; /* with_sugar: g eaten a g of green structure */
};

static struct within_reach reach(const struct sward *s, size_t i)
{
    const struct sward_kind *k = s->kind[i];
    const struct sward_part *p = &s->part[i];
    double scale = k->graze_floor_cm / k->stubble_cm, green = p->leaf + p->stem;
    return (struct within_reach){num_most(0.0, p->leaf - num_most(k->leaf_floor, k->stubble_leaf * scale)),
                                 num_most(0.0, p->stem - k->stubble_stem * scale),
                                 num_most(0.0, p->dead - k->stubble_dead * scale), 1.0 + p->sugar / green};
}

struct reach_sums { /* over the whole ground, kg DM/ha */
    double leaf, stem, dead;
};

static struct reach_sums sum_reach(const struct sward *s)
{
    struct reach_sums sum = {0.0, 0.0, 0.0};
    for (size_t i = 0; i < s->parts; i++) {
        struct within_reach r = reach(s, i);
        double area = KG_HA_OF_G_M2 * s->share[i];
        sum.leaf += area * r.leaf * r.with_sugar;
        sum.stem += area * r.stem * r.with_sugar;
        sum.dead += area * r.dead;
    }
    return sum;
}

double sward_available_kg_ha(const struct sward *s)
{
    struct reach_sums sum = sum_reach(s);
    return sum.leaf + sum.stem + sum.dead;
}

/* The share of `there` that meets `wanted`, which is lowered by it. */
static double meet(double *wanted, double there)
{
    double got = num_least(*wanted, there);
    *wanted -= got;
    return there > 0.0 ? got / there : 0.0;
}

double sward_graze_intake(struct sward *s, double intake_kg_ha, double *unmet_kg_ha)
{
    double before = sward_total_kg_ha(s), wanted = num_most(intake_kg_ha, 0.0);
    struct reach_sums there = sum_reach(s);
    double leaf = meet(&wanted, there.leaf), stem = meet(&wanted, there.stem), dead = meet(&wanted, there.dead);
    for (size_t i = 0; i < s->parts; i++) {
        struct within_reach r = reach(s, i);
        take(s, i, leaf * r.leaf, stem * r.stem, dead * r.dead);
    }
    if (leaf + stem + dead > 0.0) {
        s->leaf_clock = 0.0;
        s->days_since_grazed = 0;
    }
    if (unmet_kg_ha) {
        *unmet_kg_ha = wanted;
    }
    return before - sward_total_kg_ha(s);
}

double sward_correct_cover(struct sward *s, double measured_kg_ha, double gain, double low, double high)
{
    double factor = num_clip(pow(measured_kg_ha / sward_total_kg_ha(s), gain), low, high);
    for (size_t i = 0; i < s->parts; i++) {
        struct sward_part *p = &s->part[i];
        p->sugar *= factor;
        p->leaf = num_most(num_least(p->leaf, s->kind[i]->leaf_floor), p->leaf * factor);
        p->stem *= factor;
        p->dead *= factor;
    }
    return factor;
}

double sward_leaf_stage(const struct sward *s)
{
    double phyllochron = 0.0;
    if (s->days_since_grazed < CONTINUOUS_DAYS) {
        return __builtin_nan("");
    }
    for (size_t i = 0; i < s->parts; i++) {
        phyllochron += s->share[i] * s->phyllochron[i];
    }
    return s->leaf_clock / phyllochron;
}

double sward_short_surplus(const struct sward *s)
{
    const struct sward_kind *k = s->kind[0];
    double slow = 0.0, lai = mixture_lai(s);
    for (size_t i = 0; i < s->parts; i++) {
        slow += s->share[i] * s->part[i].slow_lai;
    }
    double low = num_most(0.0, 1.0 - sward_height_cm(s) / k->short_cm);
    double rested = slow > lai ? 1.0 - lai / slow : 0.0;
    return k->short_surplus * low * rested;
}
