/* United States daily summaries as CSV: the archive's order and service answers
 * ("STATION","NAME","DATE",elements in any number) and its file of a station
 * (LATITUDE, LONGITUDE, ELEVATION, and X_ATTRIBUTES behind each element X). All fields
 * may stand in quotes; empty is missing. The units are not said: see unit_sense.h.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/fields.h"
#include "weather/ghcn.h"

#include <math.h>
#include <string.h>

#define ATTRIBUTES "_ATTRIBUTES"

struct element_column {
    uint8_t element;
    size_t value;
    int attributes; /* column, -1 none */
};

struct summaries {
    struct ghcn g;
    struct fields s;
    size_t columns;
    int station, date, place[3]; /* columns, -1 none; latitude, longitude, elevation */
    struct element_column element[LIMIT_COLUMNS];
    size_t n;
};

static int column_of(const struct fields *s, const char *name)
{
    for (size_t k = 0; k < s->n; k++) {
        if (fields_is(s, k, name)) {
            return (int)k;
        }
    }
    return -1;
}

bool summaries_csv_is(const struct weather_file *f)
{
    struct err unused = {0};
    struct fields s;
    fields_start(&s, f, &unused);
    return fields_next(&s) && column_of(&s, "STATION") >= 0 && column_of(&s, "DATE") >= 0 &&
           (column_of(&s, "TMAX") >= 0 || column_of(&s, "TMIN") >= 0 || column_of(&s, "PRCP") >= 0);
}

static bool is_attributes(const struct csv_field *f)
{
    size_t n = strlen(ATTRIBUTES);
    return f->n > n && memcmp(f->text + f->n - n, ATTRIBUTES, n) == 0;
}

static int attributes_of(const struct fields *s, const struct csv_field *element)
{
    for (size_t k = 0; k < s->n; k++) {
        const struct csv_field *f = &s->at[k];
        if (is_attributes(f) && f->n == element->n + strlen(ATTRIBUTES) &&
            memcmp(f->text, element->text, element->n) == 0) {
            return (int)k;
        }
    }
    return -1;
}

static void map_columns(struct summaries *m)
{
    static const char *const places[] = {"LATITUDE", "LONGITUDE", "ELEVATION"};
    const struct fields *s = &m->s;
    m->columns = s->n;
    m->station = column_of(s, "STATION");
    m->date = column_of(s, "DATE");
    for (int i = 0; i < 3; i++) {
        m->place[i] = column_of(s, places[i]);
    }
    for (size_t k = 0; k < s->n; k++) {
        const struct csv_field *f = &s->at[k];
        uint8_t element = ghcn_element(f->text, f->n);
        if (element != GHCN_OTHER) {
            m->element[m->n++] = (struct element_column){element, k, attributes_of(s, f)};
        } else if (f->n == 4 && memcmp(f->text, "DATE", 4) != 0 && memcmp(f->text, "NAME", 4) != 0) {
            ghcn_ignore(&m->g, f->text, f->n);
        }
    }
}

static enum err_code read_names(struct summaries *m)
{
    if (!fields_next(&m->s)) {
        return m->s.code != ERR_OK ? m->s.code : ghcn_fail(&m->g, 0, "", "is empty");
    }
    map_columns(m);
    if (column_of(&m->s, "FRSHTT") >= 0) {
        return ghcn_fail(&m->g, 0, "",
                         "is the global summary of the day, whose days are cut at midnight UTC and whose rain is that "
                         "of other hours; "
                         "ask the archive for the data set daily-summaries (GHCN-Daily) with TMAX, TMIN and PRCP");
    }
    if (m->date < 0 || m->n == 0) {
        return ghcn_fail(&m->g, 0, "", "the first line names no DATE or none of TMAX, TMIN and PRCP");
    }
    return ERR_OK;
}

static enum err_code read_station(struct summaries *m)
{
    static const struct csv_field none = {"", "", 0};
    const struct csv_field *id = m->station >= 0 ? &m->s.at[m->station] : &none;
    enum err_code code = ghcn_station(&m->g, id->text, id->n, fields_offset(&m->s, 0));
    for (int i = 0; i < 3 && code == ERR_OK; i++) {
        if (m->place[i] >= 0) {
            const struct csv_field *f = &m->s.at[m->place[i]];
            code = ghcn_place(&m->g, i, f->text, f->n, fields_offset(&m->s, (size_t)m->place[i]));
        }
    }
    return code;
}

static enum err_code read_row(struct summaries *m)
{
    const struct fields *s = &m->s;
    struct ghcn_value v = {0};
    if (s->n != m->columns) {
        return ghcn_fail(&m->g, fields_offset(s, 0), "", "the line has %zu field%s where %zu are named at the top",
                         s->n, s->n == 1 ? "" : "s", m->columns);
    }
    const struct csv_field *date = &s->at[m->date];
    enum err_code code = ghcn_date(&m->g, date->text, date->n, fields_offset(s, (size_t)m->date), &v.date);
    code = code == ERR_OK ? read_station(m) : code;
    for (size_t i = 0; i < m->n && code == ERR_OK; i++) {
        const struct element_column *c = &m->element[i];
        const struct csv_field *f = &s->at[c->value];
        if (f->n) {
            v.element = c->element;
            v.at = fields_offset(s, c->value);
            ghcn_attributes(c->attributes < 0 ? "" : s->at[c->attributes].text,
                            c->attributes < 0 ? 0 : s->at[c->attributes].n, &v);
            code = ghcn_number(&m->g, f->text, f->n, &v);
            code = code == ERR_OK ? ghcn_add(&m->g, &v) : code;
        }
    }
    return code;
}

static enum err_code read_all(struct summaries *m, struct weather_set *set)
{
    enum err_code code = read_names(m);
    while (code == ERR_OK && fields_next(&m->s)) {
        code = read_row(m);
    }
    code = code == ERR_OK ? m->s.code : code;
    return code == ERR_OK ? ghcn_finish(&m->g, UNITS_UNSAID, set) : code;
}

enum err_code summaries_csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct summaries m = {.n = 0};
    ghcn_start(&m.g, f, a, e);
    fields_start(&m.s, f, e);
    enum err_code code = read_all(&m, set);
    ghcn_release(&m.g);
    return code;
}
