/* The dates of a CSV file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/csv.h"

#include <ctype.h>
#include <string.h>
#include <strings.h>

#define DATE_FORMS "2024-05-14, 20240514, 14.05.2024, 14/05/2024 or 05/14/2024, one way throughout the file"
#define CENTURY_HALF 50 /* years */

/* Three groups of a date as they stand. */
struct triplet {
    int value[3];
    size_t digits[3]; /* 3 letters of a month count as 0 */
    size_t at[3];     /* offsets in the text */
    size_t length;    /* of the whole date, without a time behind it */
    char separator;   /* 0: written without one */
};

static int month_of_name(const char *text, size_t n)
{
    static const char *const month[] = {"jan", "feb", "mar", "apr", "may", "jun",
                                        "jul", "aug", "sep", "oct", "nov", "dec"};
    for (int m = 0; m < 12 && n >= 3; m++) {
        if (strncasecmp(text, month[m], 3) == 0 && (n == 3 || !isalpha((unsigned char)text[3]))) {
            return m + 1;
        }
    }
    return 0;
}

/* One group at *i of text. */
static bool take_group(const char *text, size_t n, size_t *i, int group, struct triplet *t)
{
    t->at[group] = *i;
    while (*i < n && isdigit((unsigned char)text[*i]) && *i - t->at[group] < 4) {
        t->value[group] = t->value[group] * 10 + (text[(*i)++] - '0');
    }
    t->digits[group] = *i - t->at[group];
    if (t->digits[group] == 0 && group == 1) {
        t->value[1] = month_of_name(text + *i, n - *i);
        *i += t->value[1] ? 3 : 0;
        return t->value[1] > 0;
    }
    return t->digits[group] > 0;
}

static bool split_compact(const char *text, size_t n, struct triplet *t)
{
    size_t digits = 0;
    while (digits < n && isdigit((unsigned char)text[digits])) {
        digits++;
    }
    if (digits != 8) {
        return false;
    }
    static const size_t at[4] = {0, 4, 6, 8};
    for (int g = 0; g < 3; g++) {
        t->at[g] = at[g];
        t->digits[g] = at[g + 1] - at[g];
        for (size_t i = at[g]; i < at[g + 1]; i++) {
            t->value[g] = t->value[g] * 10 + (text[i] - '0');
        }
    }
    t->length = 8;
    return true;
}

static bool split(const char *text, size_t n, struct triplet *t)
{
    size_t i = 0;
    *t = (struct triplet){0};
    if (split_compact(text, n, t)) {
        return true;
    }
    *t = (struct triplet){0};
    for (int g = 0; g < 3; g++) {
        if (!take_group(text, n, &i, g, t)) {
            return false;
        }
        if (g < 2 && (i == n || !strchr("-/. ", text[i]) || (g == 1 && text[i] != t->separator))) {
            return false;
        }
        t->separator = g < 2 ? text[i++] : t->separator;
    }
    t->length = i;
    return true;
}

/* Behind a date: nothing, or midnight in any of its spellings. */
static bool is_midnight(const char *text, size_t n)
{
    if (n && (text[0] == 'T' || text[0] == ' ')) {
        text++;
        n--;
    }
    n -= n && text[n - 1] == 'Z';
    n -= n > 6 && memcmp(text + n - 6, "+00:00", 6) == 0 ? 6 : 0;
    for (size_t i = 0; i < n; i++) {
        if (!strchr("0:.", text[i]) || !text[i]) {
            return false;
        }
    }
    return true;
}

/* The layout that one date shows; UNKNOWN when day and month can be mixed up. */
static enum csv_date_layout layout_of(const struct triplet *t)
{
    if (!t->separator) {
        return CSV_DATE_COMPACT;
    }
    if (t->digits[0] == 4) {
        return CSV_DATE_YMD;
    }
    if (t->separator == '.' || t->digits[1] == 0 || t->value[0] > 12) {
        return CSV_DATE_DMY;
    }
    return t->value[1] > 12 ? CSV_DATE_MDY : CSV_DATE_UNKNOWN;
}

static enum err_code not_a_date(struct csv *c, const struct csv_field *f, int k)
{
    return csv_fail(c, f->text, k, "\"%.*s\" is not a date that can be read; allowed are " DATE_FORMS, CSV_SHOW(f->n),
                    f->text);
}

/* The field of column k in the row at c->p, which is left at its end. */
static bool field_of_row(struct csv *c, int k, struct csv_field *f)
{
    for (int i = 0; i <= k; i++) {
        c->p += i > 0;
        if (!csv_next_field(c, f) || (i < k && !csv_at_delimiter(c))) {
            return false;
        }
    }
    return true;
}

/* Goes through the rows until one tells day and month apart. */
static enum err_code find_clue(struct csv *c, int k)
{
    const char *ambiguous = NULL, *ambiguous_row = NULL;
    size_t ambiguous_line = 0, ambiguous_n = 0;
    struct csv_field f;
    struct triplet t;
    for (; c->p < c->end; csv_skip_row(c)) {
        if (!field_of_row(c, k, &f) || f.n == 0) {
            continue; /* the reading proper says what is wrong */
        }
        if (!split(f.text, f.n, &t)) {
            return not_a_date(c, &f, k);
        }
        c->date_layout = layout_of(&t);
        if (c->date_layout != CSV_DATE_UNKNOWN) {
            c->date_clue = c->line;
            return ERR_OK;
        }
        if (!ambiguous) {
            ambiguous = f.text;
            ambiguous_n = f.n;
            ambiguous_row = c->row;
            ambiguous_line = c->line;
        }
    }
    if (!ambiguous) {
        return ERR_OK; /* no rows */
    }
    c->row = ambiguous_row;
    c->line = ambiguous_line;
    return csv_fail(c, ambiguous, k,
                    "\"%.*s\" can be day/month or month/day, and no line of the file tells which; write the dates as "
                    "2024-05-14 (year-month-day)",
                    CSV_SHOW(ambiguous_n), ambiguous);
}

/* Which group is the year, month and day of each layout. */
static const int group_of[][3] = {
    [CSV_DATE_UNKNOWN] = {0, 1, 2}, [CSV_DATE_YMD] = {0, 1, 2}, [CSV_DATE_COMPACT] = {0, 1, 2},
    [CSV_DATE_DMY] = {2, 1, 0},     [CSV_DATE_MDY] = {2, 0, 1},
};

/* The year that two digits mean: the one nearest to the year of the row before. */
static int full_year(struct csv *c, int year)
{
    int step = year - c->century_year;
    c->century += step < -CENTURY_HALF ? 100 : step > CENTURY_HALF ? -100 : 0;
    c->century_year = year;
    return c->century + year;
}

/* With years of two digits: the century in which the rows begin, told by their one
 * turn from 99 to 00. */
static enum err_code find_century(struct csv *c, int k)
{
    const int *g = group_of[c->date_layout];
    const char *row = NULL;
    size_t line = 0;
    int begin = 0, century = 0;
    struct csv_field f, first = {0};
    struct triplet t;
    for (; c->p < c->end && c->century >= century; csv_skip_row(c)) {
        if (!field_of_row(c, k, &f) || !split(f.text, f.n, &t) || t.digits[g[0]] != 2) {
            continue;
        }
        if (!row) {
            first = f;
            row = c->row;
            line = c->line;
            begin = c->century_year = t.value[g[0]];
            c->century = c->preset->century;
        }
        century = c->century;
        full_year(c, t.value[g[0]]);
    }
    bool order = c->century >= century; /* else the reading proper says which row breaks it */
    int turns = (c->century - c->preset->century) / 100;
    if (row && order && turns != 1) {
        csv_go_to(c, row, line);
        return csv_fail(c, first.text, k,
                        "\"%.*s\" has a year of two digits, and the rows %s from 99 to 00, so that nothing tells which "
                        "century is meant; write all four digits",
                        CSV_SHOW(first.n), first.text, turns ? "pass more than once" : "never pass");
    }
    c->century = row ? c->preset->century : 0;
    c->century_year = begin;
    return ERR_OK;
}

enum err_code csv_date_settle(struct csv *c)
{
    int k = c->column_of[ROLE_DATE];
    const char *row = c->row;
    size_t line = c->line;
    enum err_code code = ERR_OK;
    if (k >= 0 && c->date_layout == CSV_DATE_UNKNOWN) {
        code = find_clue(c, k);
    }
    if (code == ERR_OK && k >= 0 && c->preset && c->preset->century) {
        csv_go_to(c, row, line);
        code = find_century(c, k);
    }
    if (code == ERR_OK) {
        csv_go_to(c, row, line);
    }
    return code;
}

static enum err_code not_in_calendar(struct csv *c, const struct csv_field *f, int k, int year, int month, int day)
{
    if (month == 2 && day == 29 && !date_is_leap(year)) {
        return csv_fail(c, f->text, k, "\"%.*s\" does not exist: %d is not a leap year", CSV_SHOW(f->n), f->text, year);
    }
    if (month > 12 && c->date_clue && c->date_layout >= CSV_DATE_DMY) {
        return csv_fail(c, f->text, k, "\"%.*s\" does not exist: line %zu shows that the dates are %s", CSV_SHOW(f->n),
                        f->text, c->date_clue, c->date_layout == CSV_DATE_DMY ? "day/month/year" : "month/day/year");
    }
    return csv_fail(c, f->text, k, "\"%.*s\" is not in the calendar; years 1700 to 2200 are allowed", CSV_SHOW(f->n),
                    f->text);
}

enum err_code csv_date_parse(struct csv *c, const struct csv_field *f, int k, date_t *date)
{
    struct triplet t;
    const int *g = group_of[c->date_layout];
    if (!split(f->text, f->n, &t)) {
        return not_a_date(c, f, k);
    }
    if (c->century && t.digits[g[0]] == 2) {
        t.value[g[0]] = full_year(c, t.value[g[0]]);
        t.digits[g[0]] = 4;
    }
    if (t.digits[g[0]] != 4 && (t.digits[2] == 2 || t.digits[0] == 2) && t.digits[0] != 4 && t.digits[2] != 4) {
        return csv_fail(c, f->text, k, "\"%.*s\" has a year of two digits; write all four", CSV_SHOW(f->n), f->text);
    }
    if (t.digits[g[0]] != 4 || (t.separator == 0) != (c->date_layout == CSV_DATE_COMPACT)) {
        return not_a_date(c, f, k);
    }
    if (!is_midnight(f->text + t.length, f->n - t.length)) {
        return csv_fail(c, f->text, k, "\"%.*s\" has more than a date; one row a day is needed, without a time of day",
                        CSV_SHOW(f->n), f->text);
    }
    *date = date_make(t.value[g[0]], t.value[g[1]], t.value[g[2]]);
    return *date != DATE_NONE ? ERR_OK : not_in_calendar(c, f, k, t.value[g[0]], t.value[g[1]], t.value[g[2]]);
}

enum err_code csv_date_of_parts(struct csv *c, date_t *date)
{
    const int *part = c->part;
    int k = c->column_of[ROLE_YEAR];
    bool by_month = c->column_of[ROLE_MONTH] >= 0;
    int within = by_month ? part[ROLE_MONTH] && part[ROLE_DAY] : part[ROLE_DAY_OF_YEAR];
    if (!part[ROLE_YEAR] || !within) {
        return csv_fail(c, c->date_at, k, "the row has values and no full date");
    }
    if (by_month) {
        *date = date_make(part[ROLE_YEAR], part[ROLE_MONTH], part[ROLE_DAY]);
    } else {
        bool beyond = part[ROLE_DAY_OF_YEAR] == 366 && !date_is_leap(part[ROLE_YEAR]);
        *date = beyond ? DATE_NONE : date_make(part[ROLE_YEAR], 1, 1) + part[ROLE_DAY_OF_YEAR] - 1;
    }
    if (*date != DATE_NONE) {
        return ERR_OK;
    }
    return by_month
               ? csv_fail(c, c->date_at, k, "%d-%02d-%02d does not exist%s", part[ROLE_YEAR], part[ROLE_MONTH],
                          part[ROLE_DAY],
                          part[ROLE_MONTH] == 2 && part[ROLE_DAY] == 29 ? ": it is not a leap year" : "")
               : csv_fail(c, c->date_at, k, "day 366 of %d does not exist: it is not a leap year", part[ROLE_YEAR]);
}

static void write_two(char *at, int value)
{
    at[0] = (char)('0' + value / 10);
    at[1] = (char)('0' + value % 10);
}

void csv_date_foresee_next(struct csv *c)
{
    struct date_parts *d = &c->next;
    if (++d->day > 28 && d->day > date_days_in_month(d->year, d->month)) {
        d->day = 1;
        if (++d->month > 12) {
            d->month = 1;
            d->year++;
            c->next_date_length = date_valid(d->year, 1, 1) ? c->next_date_length : 0;
            write_two(c->next_date + c->next_at[0], d->year / 100);
            write_two(c->next_date + c->next_at[0] + 2, d->year % 100);
        }
        write_two(c->next_date + c->next_at[1], d->month);
    }
    write_two(c->next_date + c->next_at[2], d->day);
}

void csv_date_foresee(struct csv *c, const struct csv_field *f, date_t date)
{
    struct triplet t;
    size_t length = (size_t)(c->p - f->at), lead = (size_t)(f->text - f->at);
    const int *g = group_of[c->date_layout];
    bool fixed = split(f->text, f->n, &t) && t.digits[g[0]] == 4 && t.digits[g[1]] == 2 && t.digits[g[2]] == 2;
    c->next_date_length = fixed && length <= sizeof c->next_date ? length : 0;
    if (c->next_date_length) {
        memcpy(c->next_date, f->at, length);
        for (int i = 0; i < 3; i++) {
            c->next_at[i] = lead + t.at[g[i]];
        }
        c->next = date_split(date);
        csv_date_foresee_next(c);
    }
}
