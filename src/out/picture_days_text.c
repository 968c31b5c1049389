/* Day by day in letters: sugar as a chart, turnout and frost as strips, growth as bars.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/picture_text.h"

#include "base/json_scan.h"

#include <math.h>
#include <stdio.h>

enum { NSC_ROWS = 12, GROWTH_ROWS = 5, ROW_LABELS = 3, NAME_MOST = 30 };

static size_t days_a_column(const struct series *s)
{
    return (s->n + LETTERS_CHART - 1) / LETTERS_CHART;
}

static size_t columns_of(const struct series *s)
{
    return (s->n + days_a_column(s) - 1) / days_a_column(s);
}

/* Days of column k: *from up to the one returned. */
static size_t column_days(const struct series *s, size_t k, size_t *from)
{
    size_t step = days_a_column(s), end = (k + 1) * step;
    *from = k * step;
    return end < s->n ? end : s->n;
}

static double low(const struct series_day *d)
{
    return d->nsc_low;
}

static double mean(const struct series_day *d)
{
    return d->nsc_mean;
}

static double high(const struct series_day *d)
{
    return d->nsc_high;
}

static double growth(const struct series_day *d)
{
    return d->growth;
}

static double average(const struct series *s, size_t k, double (*of)(const struct series_day *))
{
    size_t i, end = column_days(s, k, &i);
    double sum = 0.0, n = (double)(end - i);
    for (; i < end; i++) {
        sum += of(&s->day[i]);
    }
    return sum / n;
}

static double highest(const struct series *s, double (*of)(const struct series_day *))
{
    double most = 1.0;
    for (size_t k = 0; k < columns_of(s); k++) {
        most = fmax(most, average(s, k, of));
    }
    return most;
}

/* A row's height that makes round labels. */
static double row_height(double most, int rows)
{
    static const double round_height[] = {1, 2, 2.5, 5, 10, 20, 25, 30, 40, 50, 100};
    size_t i = 0;
    while (i + 1 < sizeof round_height / sizeof round_height[0] && round_height[i] * rows < most) {
        i++;
    }
    return round_height[i];
}

static void add_nsc(const struct series *s, struct buf *b)
{
    double step = row_height(highest(s, high), NSC_ROWS);
    int rows = (int)ceil(highest(s, high) / step);
    buf_add(b, "Sugar and starch (NSC) of the grass, g a kg of dry matter: o mean,\n"
               ": where 8 paddocks in 10 of this kind lie\n");
    for (int row = rows - 1; row >= 0; row--) {
        double foot = row * step, middle = foot + step / 2.0;
        if (row % ROW_LABELS == 0) {
            buf_addf(b, "%6.0f |", foot);
        } else {
            buf_add(b, "       |");
        }
        for (size_t k = 0; k < columns_of(s); k++) {
            double m = average(s, k, mean);
            bool in_band = average(s, k, low) <= middle && middle <= average(s, k, high);
            buf_add_char(b, m >= foot && m < foot + step ? 'o' : in_band ? ':' : ' ');
        }
        buf_add_char(b, '\n');
    }
}

static void add_growth(const struct series *s, struct buf *b)
{
    double step = row_height(fmax(highest(s, growth), 4.0), GROWTH_ROWS);
    buf_add(b, "\nGrowth, kg of dry matter a hectare and day\n");
    for (int row = GROWTH_ROWS - 1; row >= 0; row--) {
        buf_addf(b, "%6.0f |", row * step);
        for (size_t k = 0; k < columns_of(s); k++) {
            buf_add_char(b, average(s, k, growth) >= (row + 0.5) * step ? '#' : ' ');
        }
        buf_add_char(b, '\n');
    }
}

/* The most restrictive level of each column: days that matter must not vanish. */
static void add_turnout(const struct series *s, size_t group, struct buf *b)
{
    struct buf name;
    size_t muzzled = series_muzzled(s, group);
    buf_init(&name);
    picture_group_name(s, group, &name);
    if (muzzled) {
        buf_addf(&name, ", with a muzzle %zu of %zu days", muzzled, s->n);
    }
    buf_addf(b, "%.*s\n%*s", (int)json_scan_cut(name.text, LETTERS_CHART), name.text, LETTERS_SIDE, "");
    for (size_t k = 0; k < columns_of(s); k++) {
        size_t i, end = column_days(s, k, &i);
        enum turnout worst = TURNOUT_FREE;
        for (; i < end; i++) {
            enum turnout now = series_turnout(s, group, i)->turnout;
            worst = now > worst ? now : worst;
        }
        buf_add_char(b, letters_turnout[worst]);
    }
    buf_add_char(b, '\n');
    buf_release_into(&name, b);
}

static void add_frost(const struct series *s, struct buf *b)
{
    buf_addf(b, "frost: A air, g ground only (estimated)\n%*s", LETTERS_SIDE, "");
    for (size_t k = 0; k < columns_of(s); k++) {
        size_t i, end = column_days(s, k, &i);
        bool air = false, ground = false;
        for (; i < end; i++) {
            air |= s->day[i].air_frost;
            ground |= s->day[i].ground_frost;
        }
        buf_add_char(b, air ? 'A' : ground ? 'g' : '.');
    }
    buf_add_char(b, '\n');
}

/* A month where it begins, and the first day. */
static void label(const struct series *s, size_t k, char *text, size_t size)
{
    size_t i, end = column_days(s, k, &i);
    char day[64];
    text[0] = 0;
    for (bool first = i == 0; i < end; i++, first = false) {
        date_t d = s->first + (date_t)i;
        if (first || date_split(d).day == 1) {
            date_format_short(d, day, sizeof day); /* "Sun 4 May" */
            snprintf(text, size, "%.6s", day + 4);
        }
    }
}

void picture_days_text(const struct series *s, struct buf *b)
{
    letters_head(s, "Sugar in the grass, day by day", b);
    if (days_a_column(s) > 1) {
        buf_addf(b, "A column is %zu days: their mean; the most restrictive turnout; any frost.\n\n", days_a_column(s));
    }
    add_nsc(s, b);
    letters_marks(s, columns_of(s), label, b);
    if (s->animals) {
        buf_addf(b, "\n%s\n", letters_level_key);
    }
    for (size_t a = 0; a < s->animals; a++) {
        add_turnout(s, a, b);
    }
    add_frost(s, b);
    add_growth(s, b);
    letters_marks(s, columns_of(s), label, b);
    letters_close(b);
}
