/* Global daily climatology, long: one value a line, whole tenths. As the archive's files
 * of a year and of a station write it, without names (station, YYYYMMDD, element, value,
 * flags M, Q, S, hour of reading); with names, and with columns added; and with the
 * names date,attr,value,a,b,c,d of one station. Lines come in any order.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/fields.h"
#include "weather/ghcn.h"

#include <ctype.h>
#include <string.h>

enum part { ID, DATE, ELEMENT, VALUE, MEASURED, QUALITY, SOURCE, HOUR, LATITUDE, LONGITUDE, ELEVATION, PARTS };

#define PLAIN_PARTS (HOUR + 1) /* of a file without names, in this order; the last may be absent */
#define ID_WIDTH 11

static const struct part_name {
    const char *key; /* capital letters only */
    enum part part;
} part_names[] = {
    {"ID", ID},
    {"STATION", ID},
    {"YEARMONTHDAY", DATE},
    {"YYYYMMDD", DATE},
    {"DATE", DATE},
    {"ELEMENT", ELEMENT},
    {"ATTR", ELEMENT},
    {"DATAVALUE", VALUE},
    {"VALUE", VALUE},
    {"MFLAG", MEASURED},
    {"A", MEASURED},
    {"QFLAG", QUALITY},
    {"B", QUALITY},
    {"SFLAG", SOURCE},
    {"C", SOURCE},
    {"OBSTIME", HOUR},
    {"D", HOUR},
    {"LATITUDE", LATITUDE},
    {"LONGITUDE", LONGITUDE},
    {"ELEVATION", ELEVATION},
};

struct long_file {
    struct ghcn g;
    struct fields s;
    size_t columns;
    int of[PARTS]; /* column of each part, -1 none */
};

static int part_of(const struct csv_field *f)
{
    char key[24];
    size_t n = 0;
    for (size_t i = 0; i < f->n && n + 1 < sizeof key; i++) {
        if (isalpha((unsigned char)f->text[i])) {
            key[n++] = (char)toupper((unsigned char)f->text[i]);
        }
    }
    key[n] = 0;
    for (size_t i = 0; i < sizeof part_names / sizeof part_names[0]; i++) {
        if (strcmp(part_names[i].key, key) == 0) {
            return (int)part_names[i].part;
        }
    }
    return -1;
}

static bool all(const struct csv_field *f, size_t n, int (*is)(int))
{
    for (size_t i = 0; i < f->n; i++) {
        if (!is((unsigned char)f->text[i])) {
            return false;
        }
    }
    return f->n == n;
}

static bool is_plain(const struct fields *s)
{
    long value;
    return s->n >= VALUE + 1 && s->n <= PLAIN_PARTS && all(&s->at[ID], ID_WIDTH, isalnum) &&
           all(&s->at[DATE], 8, isdigit) && all(&s->at[ELEMENT], 4, isalnum) &&
           num_parse_long(s->at[VALUE].text, s->at[VALUE].n, -99999, 99999, &value);
}

/* The columns of the line at s, which is the first: *names when it holds names. */
static bool map_columns(const struct fields *s, int of[PARTS], bool *names)
{
    memset(of, -1, PARTS * sizeof *of);
    *names = !is_plain(s);
    for (size_t k = 0; k < s->n; k++) {
        int part = *names ? part_of(&s->at[k]) : (int)k;
        if (part >= 0 && of[part] < 0) {
            of[part] = (int)k;
        }
    }
    return of[DATE] >= 0 && of[ELEMENT] >= 0 && of[VALUE] >= 0;
}

bool ghcn_by_year_is(const struct weather_file *f)
{
    struct err unused = {0};
    struct fields s;
    int of[PARTS];
    bool names;
    fields_start(&s, f, &unused);
    return fields_next(&s) && map_columns(&s, of, &names);
}

static const struct csv_field *field_of(const struct long_file *l, enum part part)
{
    static const struct csv_field none = {"", "", 0};
    return l->of[part] >= 0 ? &l->s.at[l->of[part]] : &none;
}

static char flag_of(const struct long_file *l, enum part part)
{
    const struct csv_field *f = field_of(l, part);
    return f->n ? f->text[0] : ' ';
}

static enum err_code read_place(struct long_file *l)
{
    enum err_code code = ERR_OK;
    for (int i = 0; i < 3 && code == ERR_OK; i++) {
        const struct csv_field *f = field_of(l, (enum part)(LATITUDE + i));
        code = ghcn_place(&l->g, i, f->text, f->n, (uint32_t)(f->n ? f->at - l->g.file->bytes : 0));
    }
    return code;
}

static enum err_code read_value(struct long_file *l)
{
    const struct csv_field *element = field_of(l, ELEMENT), *date = field_of(l, DATE), *hour = field_of(l, HOUR);
    struct ghcn_value v = {.element = ghcn_element(element->text, element->n),
                           .at = fields_offset(&l->s, (size_t)l->of[VALUE]),
                           .measured = flag_of(l, MEASURED),
                           .quality = flag_of(l, QUALITY),
                           .hour = ghcn_hour(hour->text, hour->n)};
    if (v.element == GHCN_OTHER) {
        ghcn_ignore(&l->g, element->text, element->n);
        return ERR_OK;
    }
    enum err_code code = ghcn_date(&l->g, date->text, date->n, fields_offset(&l->s, (size_t)l->of[DATE]), &v.date);
    code = code == ERR_OK ? ghcn_station(&l->g, field_of(l, ID)->text, field_of(l, ID)->n, v.at) : code;
    code = code == ERR_OK ? read_place(l) : code;
    code = code == ERR_OK ? ghcn_number(&l->g, field_of(l, VALUE)->text, field_of(l, VALUE)->n, &v) : code;
    return code == ERR_OK ? ghcn_add(&l->g, &v) : code;
}

static enum err_code read_lines(struct long_file *l)
{
    bool names, line = fields_next(&l->s);
    if (!line || !map_columns(&l->s, l->of, &names)) {
        return ghcn_fail(&l->g, 0, "",
                         "the first line has no date, element and value (ID,YYYYMMDD,ELEMENT,VALUE,M,Q,S,HHMM)");
    }
    l->columns = l->s.n;
    line = names ? fields_next(&l->s) : line;
    for (; line; line = fields_next(&l->s)) {
        if (l->s.n > l->columns || l->s.n <= (size_t)l->of[VALUE]) {
            return ghcn_fail(&l->g, fields_offset(&l->s, 0), "", "the line has %zu fields where the first has %zu",
                             l->s.n, l->columns);
        }
        enum err_code code = read_value(l);
        if (code != ERR_OK) {
            return code;
        }
    }
    return l->s.code;
}

enum err_code ghcn_by_year_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct long_file l;
    ghcn_start(&l.g, f, a, e);
    fields_start(&l.s, f, e);
    enum err_code code = read_lines(&l);
    code = code == ERR_OK ? ghcn_finish(&l.g, UNITS_TENTHS, set) : code;
    ghcn_release(&l.g);
    return code;
}
