/* Lines of separated fields. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/fields.h"

#include <string.h>

void fields_start(struct fields *s, const struct weather_file *f, struct err *e)
{
    static const char delimiters[] = {',', ';', '\t'};
    size_t count[sizeof delimiters] = {0}, best = 0;
    const char *end = f->bytes + f->size;
    *s = (struct fields){.csv = {.file = f, .p = f->bytes, .end = end, .row = f->bytes, .line = 1, .e = e}};
    for (const char *p = f->bytes; p < end && *p != '\n'; p++) {
        for (size_t i = 0; i < sizeof delimiters; i++) {
            count[i] += *p == delimiters[i];
        }
    }
    for (size_t i = 1; i < sizeof delimiters; i++) {
        best = count[i] > count[best] ? i : best;
    }
    s->csv.delimiter = delimiters[best];
}

static bool split(struct fields *s)
{
    struct csv *c = &s->csv;
    s->n = 0;
    do {
        c->p += s->n > 0;
        if (s->n == LIMIT_COLUMNS) {
            s->code = csv_fail(c, c->p, -1, "more than %d fields", LIMIT_COLUMNS);
            return false;
        }
        if (!csv_next_field(c, &s->at[s->n++])) {
            s->code = ERR_DATA;
            return false;
        }
    } while (!csv_at_line_end(c));
    return true;
}

bool fields_next(struct fields *s)
{
    struct csv *c = &s->csv;
    s->code = ERR_OK;
    while (c->p < c->end) {
        if (!split(s)) {
            return false;
        }
        bool blank = s->n == 1 && s->at[0].n == 0;
        csv_skip_line_end(c);
        if (!blank) {
            return true;
        }
    }
    return false;
}

bool fields_is(const struct fields *s, size_t i, const char *word)
{
    return i < s->n && s->at[i].n == strlen(word) && memcmp(s->at[i].text, word, s->at[i].n) == 0;
}

uint32_t fields_offset(const struct fields *s, size_t i)
{
    return (uint32_t)(s->at[i].at - s->csv.file->bytes);
}
