/* Scores of yes or no and of probabilities. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/verify.h"

#include <assert.h>
#include <math.h>

/* Not defined where the denominator is zero. */
static double ratio(double numerator, double denominator)
{
    return denominator != 0.0 ? numerator / denominator : (double)NAN;
}

void verify_table_add(struct verify_table *t, bool called, bool happened)
{
    double *cell = called ? (happened ? &t->hits : &t->false_alarms) : (happened ? &t->misses : &t->rejections);
    *cell += 1.0;
}

/* Not defined at rates of 0 or 1, where its logarithms are not. */
static double sedi(double hit_rate, double alarm_rate)
{
    double f = log(alarm_rate), h = log(hit_rate), not_f = log1p(-alarm_rate), not_h = log1p(-hit_rate);
    double all = f + h + not_f + not_h;
    return isfinite(all) ? ratio(f - h - not_f + not_h, all) : (double)NAN;
}

void verify_table_scores(const struct verify_table *t, struct verify_scores *s)
{
    double a = t->hits, b = t->false_alarms, c = t->misses, d = t->rejections, n = a + b + c + d;
    double by_chance = ratio((a + b) * (a + c), n);
    s->n = n;
    s->accuracy = ratio(a + d, n);
    s->base_rate = ratio(a + c, n);
    s->bias = ratio(a + b, a + c);
    s->hit_rate = ratio(a, a + c);
    s->false_alarm_ratio = ratio(b, a + b);
    s->false_alarm_rate = ratio(b, b + d);
    s->threat = ratio(a, a + b + c);
    s->random_hits = by_chance;
    s->gilbert = ratio(a - by_chance, a + b + c - by_chance);
    s->peirce = s->hit_rate - s->false_alarm_rate;
    s->heidke = ratio(2.0 * (a * d - b * c), (a + c) * (c + d) + (a + b) * (b + d));
    s->odds_ratio = ratio(a * d, b * c);
    s->yule = ratio(a * d - b * c, a * d + b * c);
    s->clayton = ratio(a, a + b) - ratio(c, c + d);
    s->sedi = sedi(s->hit_rate, s->false_alarm_rate);
}

void verify_bins_init(struct verify_bin *bin, size_t bins)
{
    assert(bins > 1);
    for (size_t k = 0; k < bins; k++) {
        bin[k] = (struct verify_bin){.p = (double)k / (double)(bins - 1)};
    }
}

void verify_bins_add(struct verify_bin *bin, size_t bins, double p, bool happened)
{
    assert(p >= 0.0 && p <= 1.0);
    size_t k = (size_t)lround(p * (double)(bins - 1));
    bin[k].n += 1.0;
    bin[k].happened += happened ? 1.0 : 0.0;
}

void verify_brier_find(const struct verify_bin *bin, size_t bins, struct verify_brier *b)
{
    double n = 0.0, happened = 0.0, squares = 0.0, reliability = 0.0, resolution = 0.0;
    for (size_t k = 0; k < bins; k++) {
        n += bin[k].n;
        happened += bin[k].happened;
    }
    double frequency = ratio(happened, n);
    for (size_t k = 0; k < bins; k++) {
        if (bin[k].n > 0.0) {
            double p = bin[k].p, of_bin = bin[k].happened / bin[k].n;
            squares += bin[k].happened * (1.0 - p) * (1.0 - p) + (bin[k].n - bin[k].happened) * p * p;
            reliability += bin[k].n * (p - of_bin) * (p - of_bin);
            resolution += bin[k].n * (of_bin - frequency) * (of_bin - frequency);
        }
    }
    b->n = n;
    b->brier = ratio(squares, n);
    b->reliability = ratio(reliability, n);
    b->resolution = ratio(resolution, n);
    b->uncertainty = frequency * (1.0 - frequency);
    b->skill = 1.0 - ratio(b->brier, b->uncertainty);
}

double verify_roc_area(const struct verify_bin *bin, size_t bins)
{
    double happened = 0.0, not_happened = 0.0, pairs = 0.0, above = 0.0;
    for (size_t k = bins; k-- > 0;) { /* from the surest on: what did not happen here loses to all above */
        double not_here = bin[k].n - bin[k].happened;
        pairs += not_here * (above + bin[k].happened / 2.0);
        above += bin[k].happened;
        happened += bin[k].happened;
        not_happened += not_here;
    }
    return ratio(pairs, happened * not_happened);
}

double verify_rps(const double *p, size_t classes, size_t observed)
{
    assert(observed < classes);
    double below = 0.0, sum = 0.0;
    for (size_t k = 0; k + 1 < classes; k++) {
        below += p[k];
        double short_by = below - (observed <= k ? 1.0 : 0.0);
        sum += short_by * short_by;
    }
    return sum;
}
