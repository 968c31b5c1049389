/* Reading weather from text in a test. The bytes are copied to a block of just their
 * size, so that a reader that looks beyond the end is caught by the address sanitizer.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/weather_text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void read_copy(struct weather_text *t, const char *bytes, size_t n, const struct weather_hints *h)
{
    char *copy = malloc(n ? n : 1);
    arena_init(&t->arena);
    err_clear(&t->err);
    memcpy(copy, bytes, n);
    t->code = weather_read_bytes(copy, n, "w.csv", h, &t->arena, &t->set, &t->err);
    free(copy); /* a set that still pointed into the file would be caught, too */
}

void weather_text_read_bytes(struct weather_text *t, const char *bytes, size_t n)
{
    read_copy(t, bytes, n, NULL);
}

void weather_text_read_hinted(struct weather_text *t, const char *text, const struct weather_hints *h)
{
    read_copy(t, text, strlen(text), h);
}

void weather_text_read(struct weather_text *t, const char *text)
{
    weather_text_read_bytes(t, text, strlen(text));
}

void weather_text_release(struct weather_text *t)
{
    arena_release(&t->arena);
}

double weather_text_at(const struct weather_text *t, const char *date, enum weather_var v)
{
    const struct weather_days *w = &t->set.site[0].days;
    date_t d = date_parse_iso(date, strlen(date));
    bool there = t->code == ERR_OK && d >= w->day0 && (size_t)(d - w->day0) < w->n;
    return there ? weather_at(w, v, (size_t)(d - w->day0)) : (double)NAN;
}
