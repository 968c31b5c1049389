/* Two tables of the same place made one, cell by cell.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "weather/weather.h"

#include <math.h>

/* What a value is worth by where it comes from; a missing one is worth nothing. */
static int worth(const struct weather_days *w, enum weather_var v, size_t i)
{
    static const int of_origin[] = {[ORIGIN_NONE] = 0,   [ORIGIN_ASSUMED] = 1,  [ORIGIN_NORMAL] = 2,
                                    [ORIGIN_FILLED] = 3, [ORIGIN_FORECAST] = 4, [ORIGIN_RECORDED] = 5};
    if (isnan(weather_at(w, v, i))) {
        return -1;
    }
    bool estimated = w->filled[i] >> v & 1;
    bool read = w->origin[i] == ORIGIN_RECORDED || w->origin[i] == ORIGIN_FORECAST;
    return of_origin[estimated && read ? ORIGIN_FILLED : w->origin[i]];
}

struct side {
    const struct weather_days *w;
    size_t i; /* the day in it */
    bool there;
};

static int side_worth(const struct side *s, enum weather_var v)
{
    return s->there ? worth(s->w, v, s->i) : -1;
}

static void take(struct weather_days *to, size_t i, enum weather_var v, const struct side *from)
{
    to->col[v][i] = weather_at(from->w, v, from->i);
    to->filled[i] = (uint8_t)((to->filled[i] & ~(1u << v)) | (from->w->filled[from->i] & 1u << v));
}

/* Both temperatures, and not exchanged. */
static bool has_both(const struct side *s)
{
    return side_worth(s, WEATHER_TMIN) >= 0 && side_worth(s, WEATHER_TMAX) >= 0 &&
           weather_at(s->w, WEATHER_TMIN, s->i) <= weather_at(s->w, WEATHER_TMAX, s->i);
}

/* The origin of a merged day is the weaker one of its two temperatures, since what a
 * day counts as hangs on them; of a day without temperature, the better side's. */
static uint8_t origin_of(const struct side *low, const struct side *high, const struct side *a, const struct side *b)
{
    if (low && high) {
        const struct side *weaker = side_worth(low, WEATHER_TMIN) <= side_worth(high, WEATHER_TMAX) ? low : high;
        return weaker->w->origin[weaker->i];
    }
    const struct side *one = low ? low : high;
    if (one) {
        return one->w->origin[one->i];
    }
    bool from_a = a->there && (!b->there || a->w->origin[a->i] != ORIGIN_NONE);
    return from_a ? a->w->origin[a->i] : b->there ? b->w->origin[b->i] : (uint8_t)ORIGIN_NONE;
}

static void merge_day(struct weather_days *to, size_t i, const struct side *a, const struct side *b)
{
    const struct side *from[WEATHER_VARS] = {NULL};
    for (int v = 0; v < WEATHER_VARS; v++) {
        int worth_a = side_worth(a, (enum weather_var)v), worth_b = side_worth(b, (enum weather_var)v);
        from[v] = worth_a < 0 && worth_b < 0 ? NULL : worth_b > worth_a ? b : a;
        if (from[v]) {
            take(to, i, (enum weather_var)v, from[v]);
        }
    }
    if (weather_at(to, WEATHER_TMIN, i) > weather_at(to, WEATHER_TMAX, i)) {
        const struct side *one = has_both(a) ? a : b; /* two sources that do not fit: not half of each */
        if (has_both(one)) {
            take(to, i, WEATHER_TMIN, from[WEATHER_TMIN] = one);
            take(to, i, WEATHER_TMAX, from[WEATHER_TMAX] = one);
        } else if (from[WEATHER_TMIN] != from[WEATHER_TMAX]) {
            to->col[WEATHER_TMAX][i] = to->col[WEATHER_TMIN][i];
        } /* else exchanged in its own file: quality.h names it */
    }
    to->origin[i] = origin_of(from[WEATHER_TMIN], from[WEATHER_TMAX], a, b);
}

static struct side side_of(const struct weather_days *w, date_t date)
{
    bool there = date >= w->day0 && (size_t)(date - w->day0) < w->n;
    return (struct side){w, there ? (size_t)(date - w->day0) : 0, there};
}

static unsigned vars_of(const struct weather_days *w)
{
    unsigned vars = 0;
    for (int v = 0; v < WEATHER_VARS; v++) {
        vars |= w->col[v] ? 1u << v : 0;
    }
    return vars;
}

enum err_code weather_merge(struct weather_days *a, const struct weather_days *b, struct arena *arena, struct err *e)
{
    if (b->n == 0) {
        return ERR_OK;
    }
    if (a->n == 0) {
        a->day0 = b->day0;
    }
    date_t first = a->day0 < b->day0 ? a->day0 : b->day0;
    date_t end_a = a->day0 + (date_t)a->n, end_b = b->day0 + (date_t)b->n, end = end_a > end_b ? end_a : end_b;
    struct weather_days both;
    if (end - first >= LIMIT_DAYS) {
        char from[DATE_TEXT], to[DATE_TEXT];
        return err_set(e, ERR_DATA, "the weather files together span %s to %s; at most %d days are allowed",
                       date_format(first, from), date_format(end - 1, to), LIMIT_DAYS - 1);
    }
    if (!weather_days_alloc(&both, arena, first, (size_t)(end - first), vars_of(a) | vars_of(b))) {
        return err_set(e, ERR_NOMEM, "out of memory while merging weather");
    }
    for (size_t i = 0; i < both.n; i++) {
        struct side left = side_of(a, first + (date_t)i), right = side_of(b, first + (date_t)i);
        merge_day(&both, i, &left, &right);
    }
    *a = both;
    return ERR_OK;
}
