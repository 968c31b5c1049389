/* The table that `sugarlea weather --csv` writes: any table, and an origin for each day.
 * Without it a forecast that was written out would come back as a record.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/layout.h"

#include <string.h>

#define NAMES "date,origin,tmin_c,"
#define DATE_LENGTH (DATE_TEXT - 1)

bool tidy_csv_is(const struct weather_file *f)
{
    return f->size > strlen(NAMES) && memcmp(f->bytes, NAMES, strlen(NAMES)) == 0;
}

static bool origin_of(const char *text, size_t n, uint8_t *origin)
{
    for (enum day_origin o = ORIGIN_NONE; o <= ORIGIN_ASSUMED; o++) {
        const char *name = day_origin_name(o);
        if (strlen(name) == n && memcmp(name, text, n) == 0) {
            *origin = (uint8_t)o;
            return true;
        }
    }
    return false;
}

static enum err_code unknown(const struct weather_file *f, size_t line, const char *text, size_t n, struct err *e)
{
    err_set(e, ERR_DATA, "\"%.*s\" is no origin; none, recorded, filled, forecast, normal and assumed are",
            n < 40 ? (int)n : 40, text);
    return err_at(e, f->path, line, DATE_LENGTH + 2, "origin");
}

/* One row: its date and origin, in the day that the reader of all tables has filled. */
static enum err_code read_row(const struct weather_file *f, size_t line, const char *row, size_t n,
                              struct weather_days *w, struct err *e)
{
    const char *text = row + DATE_LENGTH + 1, *stop = memchr(text, ',', n - DATE_LENGTH - 1);
    date_t date = date_parse_iso(row, DATE_LENGTH);
    uint8_t origin;
    if (!stop || row[DATE_LENGTH] != ',' || !origin_of(text, (size_t)(stop - text), &origin)) {
        return unknown(f, line, text, stop ? (size_t)(stop - text) : 0, e);
    }
    if (date >= w->day0 && date < w->day0 + (date_t)w->n && w->origin[date - w->day0] != ORIGIN_NONE) {
        w->origin[date - w->day0] = origin;
    }
    return ERR_OK;
}

enum err_code tidy_csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    enum err_code code = csv_read(f, a, set, e);
    const char *row = memchr(f->bytes, '\n', f->size), *end = f->bytes + f->size;
    for (size_t line = 2; code == ERR_OK && row && ++row < end; line++) {
        const char *stop = memchr(row, '\n', (size_t)(end - row));
        size_t n = (size_t)((stop ? stop : end) - row);
        if (n > DATE_LENGTH + 1) {
            code = read_row(f, line, row, n, &set->site[0].days, e);
        }
        row = stop;
    }
    set->ignored = "";
    return code;
}
