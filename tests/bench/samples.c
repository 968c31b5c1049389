/* What the readers make of a folder of sample files:
 *
 *   samples FOLDER ...
 *
 * prints one row of a Markdown table a file: the layout that knew it, or why it was
 * refused; its sites, days and sums, to be held against sums made with other tools.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "weather/weather.h"

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define SITES_SHOWN 3

static int is_file(const struct dirent *entry)
{
    return entry->d_name[0] != '.';
}

/* Text within a cell: a bar would end it. */
static void put_cell(const char *text)
{
    for (; *text; text++) {
        fputs(*text == '|' ? "\\|" : (char[2]){*text, 0}, stdout);
    }
    fputs(" | ", stdout);
}

struct mean {
    double sum;
    size_t n;
};

static struct mean mean_of(const struct weather_days *w, enum weather_var v)
{
    struct mean m = {0, 0};
    for (size_t i = 0; i < w->n; i++) {
        double x = weather_at(w, v, i);
        m.sum += isnan(x) ? 0 : x;
        m.n += !isnan(x);
    }
    return m;
}

static void put_sum(const struct weather_days *w, enum weather_var v)
{
    struct mean m = mean_of(w, v);
    if (m.n) {
        printf("%.1f (%zu)", m.sum, m.n);
    } else {
        putchar('-');
    }
}

static void put_first(const struct weather_days *w)
{
    char date[DATE_TEXT];
    fputs(date_format(w->day0, date), stdout);
}

static void put_last(const struct weather_days *w)
{
    char date[DATE_TEXT];
    fputs(date_format(w->day0 + (date_t)w->n - 1, date), stdout);
}

static void put_days(const struct weather_days *w)
{
    printf("%zu", w->n);
}

static void put_tmin(const struct weather_days *w)
{
    put_sum(w, WEATHER_TMIN);
}

static void put_rain(const struct weather_days *w)
{
    put_sum(w, WEATHER_RAIN);
}

/* The other variables with the mean of their values, by which a slip of unit is seen. */
static void put_means(const struct weather_days *w)
{
    const char *before = "";
    for (int v = 0; v < WEATHER_VARS; v++) {
        struct mean m = mean_of(w, (enum weather_var)v);
        if (m.n && v != WEATHER_TMIN && v != WEATHER_RAIN) {
            printf("%s%s %.2f (%zu)", before, weather_var_name((enum weather_var)v), m.sum / (double)m.n, m.n);
            before = ", ";
        }
    }
}

/* The cells of a file that was read; each shows the first sites. */
static void put_set(const struct weather_set *set)
{
    static void (*const put[])(const struct weather_days *) = {put_first, put_last, put_days,
                                                               put_tmin,  put_rain, put_means};
    put_cell(set->layout);
    printf("%zu | ", set->n);
    for (size_t k = 0; k < sizeof put / sizeof put[0]; k++) {
        for (size_t i = 0; i < set->n && i < SITES_SHOWN; i++) {
            fputs(i ? " / " : "", stdout);
            put[k](&set->site[i].days);
        }
        fputs(" | ", stdout);
    }
    put_cell(set->note);
}

static void put_file(const char *folder, const char *name)
{
    char path[LIMIT_PATH];
    struct arena a;
    struct weather_set set;
    struct err e;
    arena_init(&a);
    err_clear(&e);
    snprintf(path, sizeof path, "%s/%s", folder, name);
    fputs("| ", stdout);
    put_cell(name);
    if (weather_read(path, NULL, &a, &set, &e) == ERR_OK) {
        put_set(&set);
    } else {
        printf("refused, line %zu column %zu%s%s: ", e.line, e.column, e.field[0] ? ", " : "", e.field);
        put_cell(e.what);
        fputs("| | | | | | | |", stdout);
    }
    putchar('\n');
    arena_release(&a);
}

static int put_folder(const char *folder)
{
    struct dirent **names;
    int n = scandir(folder, &names, is_file, alphasort);
    if (n < 0) {
        perror(folder);
        return EXIT_FAILURE;
    }
    puts("| file | layout | sites | first | last | days | sum of Tmin C (days) | sum of rain mm (days) | means of the "
         "others (days) | "
         "note |\n|---|---|---|---|---|---|---|---|---|---|");
    for (int i = 0; i < n; i++) {
        put_file(folder, names[i]->d_name);
        free(names[i]);
    }
    free(names);
    return EXIT_SUCCESS;
}

int main(int argc, char **argv)
{
    int status = argc > 1 ? EXIT_SUCCESS : EXIT_FAILURE;
    for (int i = 1; i < argc && status == EXIT_SUCCESS; i++) {
        status = put_folder(argv[i]);
    }
    return status;
}
