/* The distribution of a series at each time of the year, by a window that slides over
 * the days of the year with all years in it. A histogram makes that cheap: each value
 * is added once and taken out once. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quality_inner.h"

#include <math.h>
#include <string.h>

#define STRIDE 6            /* days between two looks; between them the line */
#define LEAST 20            /* values in the window for a look */
#define TAIL 0.1            /* share of values beyond each spread: so much may be wrong and hurt little */
#define TAIL_SPREADS 1.2816 /* of a normal distribution */

#define COARSE 32 /* bins that a look passes over together */

struct window {
    const struct season_scale *scale;
    uint32_t count[QUALITY_BINS], coarse[QUALITY_BINS / COARSE];
    uint32_t n;
};

/* Bin of every value, the values of one day of the year after another. */
struct by_day {
    uint16_t *bin;
    uint32_t first[QUALITY_YEAR + 1];
};

static uint16_t bin_of(const struct season_scale *scale, double x)
{
    double at = (x - scale->low) / scale->step;
    return (uint16_t)(at < 0 ? 0 : at > QUALITY_BINS - 1 ? QUALITY_BINS - 1 : at);
}

static void sort_days(const double *x, size_t n, const uint16_t *day_of_year, const struct season_scale *scale,
                      struct by_day *days)
{
    uint32_t next[QUALITY_YEAR];
    memset(days->first, 0, sizeof days->first);
    for (size_t i = 0; i < n; i++) {
        days->first[day_of_year[i] + 1] += !isnan(x[i]);
    }
    for (size_t d = 0; d < QUALITY_YEAR; d++) {
        days->first[d + 1] += days->first[d];
        next[d] = days->first[d];
    }
    for (size_t i = 0; i < n; i++) {
        if (!isnan(x[i])) {
            days->bin[next[day_of_year[i]]++] = bin_of(scale, x[i]);
        }
    }
}

static void slide(struct window *w, const struct by_day *days, long day, int32_t sign)
{
    size_t d = (size_t)(day + QUALITY_YEAR) % QUALITY_YEAR;
    for (uint32_t i = days->first[d]; i < days->first[d + 1]; i++) {
        w->count[days->bin[i]] += (uint32_t)sign;
        w->coarse[days->bin[i] / COARSE] += (uint32_t)sign;
    }
    w->n += (uint32_t)sign * (days->first[d + 1] - days->first[d]);
}

/* The quantiles TAIL, half and 1 - TAIL, each within its bin by the line. */
static void look(const struct window *w, double quantile[3])
{
    const double share[3] = {TAIL, 0.5, 1 - TAIL};
    uint32_t below = 0;
    size_t b = 0;
    for (int k = 0; k < 3; k++) {
        double wanted = share[k] * w->n;
        while (b < QUALITY_BINS - 1) {
            uint32_t run = w->coarse[b / COARSE];
            bool whole = b % COARSE == 0 && b < QUALITY_BINS - COARSE && below + run < wanted;
            uint32_t more = whole ? run : w->count[b];
            if (below + more >= wanted) {
                break;
            }
            below += more;
            b += whole ? COARSE : 1;
        }
        double within = w->count[b] ? (wanted - below) / w->count[b] : 0.5;
        quantile[k] = w->scale->low + w->scale->step * ((double)b + within);
    }
}

static void put(struct season *s, size_t day, const double quantile[3], double least)
{
    s->middle[day] = quantile[1];
    s->below[day] = fmax((quantile[1] - quantile[0]) / TAIL_SPREADS, least);
    s->above[day] = fmax((quantile[2] - quantile[1]) / TAIL_SPREADS, least);
}

static void between(double *x, size_t from, size_t to)
{
    double first = x[from], last = x[to % QUALITY_YEAR];
    for (size_t d = from + 1; d < to; d++) {
        x[d] = first + (last - first) * (double)(d - from) / (double)(to - from);
    }
}

bool quality_season(const double *x, size_t n, const uint16_t *day_of_year, const struct season_scale *scale,
                    struct arena *a, struct season *s)
{
    struct window w = {.scale = scale};
    struct by_day days = {.bin = arena_alloc(a, n, sizeof *days.bin)};
    const long half = (long)scale->half_window;
    if (!days.bin) {
        return false;
    }
    sort_days(x, n, day_of_year, scale, &days);
    for (long d = -half; d < half; d++) {
        slide(&w, &days, d, 1);
    }
    for (long d = 0; d < QUALITY_YEAR; d++) {
        double quantile[3] = {NAN, NAN, NAN};
        slide(&w, &days, d + half, 1);
        if (d % STRIDE == 0) {
            if (w.n >= LEAST) {
                look(&w, quantile);
            }
            put(s, (size_t)d, quantile, scale->step);
        }
        slide(&w, &days, d - half, -1);
    }
    for (size_t d = 0; d < QUALITY_YEAR; d += STRIDE) {
        between(s->middle, d, d + STRIDE);
        between(s->below, d, d + STRIDE);
        between(s->above, d, d + STRIDE);
    }
    return true;
}

double quality_spreads(const struct season *s, size_t day_of_year, double x)
{
    double off = x - s->middle[day_of_year];
    return off / (off < 0 ? s->below : s->above)[day_of_year];
}

double quality_of_spreads(const struct season *s, size_t day_of_year, double spreads)
{
    return s->middle[day_of_year] + spreads * (spreads < 0 ? s->below : s->above)[day_of_year];
}
