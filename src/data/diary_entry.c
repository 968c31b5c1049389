/* One entry: from fields to values by the table, and back.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json_scan.h"
#include "base/num.h"
#include "data/diary.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

static enum err_code fail(struct err *e, const char *field)
{
    return err_at(e, NULL, 0, 0, field);
}

/* 7:10, 07:10, 07:10:00; -1 when empty, -2 when it is none. */
static int minute_of(const char *text)
{
    long hour, minute, second = 0;
    const char *colon = strchr(text, ':'), *behind = colon ? strchr(colon + 1, ':') : NULL;
    size_t minute_digits = behind ? (size_t)(behind - colon - 1) : colon ? strlen(colon + 1) : 0;
    if (!text[0]) {
        return -1;
    }
    bool good = colon && colon - text <= 2 && minute_digits == 2 &&
                num_parse_long(text, (size_t)(colon - text), 0, 23, &hour) &&
                num_parse_long(colon + 1, minute_digits, 0, 59, &minute) &&
                (!behind || num_parse_long(behind + 1, strlen(behind + 1), 0, 59, &second));
    return good ? (int)(60 * hour + minute) : -2;
}

static enum err_code read_when(const struct diary_fields *f, struct diary_entry *entry, struct err *e)
{
    entry->date = date_parse_iso(f->date, strlen(f->date));
    if (entry->date == DATE_NONE) {
        err_set(e, ERR_DATA,
                "\"%.40s\" is not a date written as 2025-05-04; a spreadsheet may have written it anew: give the "
                "column the format YYYY-MM-DD",
                f->date);
        return fail(e, "date");
    }
    entry->minute = minute_of(f->time);
    if (entry->minute < -1) {
        err_set(e, ERR_DATA, "\"%.40s\" is not a time of the day written as 07:10, from 00:00 to 23:59", f->time);
        return fail(e, "time");
    }
    return ERR_OK;
}

static size_t subjects(const struct holding *h, enum diary_subject kind)
{
    return kind == DIARY_OF_PADDOCK ? h->paddocks : kind == DIARY_OF_GROUP ? h->animals : h->lots;
}

static const char *subject_id(const struct holding *h, enum diary_subject kind, size_t i)
{
    assert(i < subjects(h, kind));
    return kind == DIARY_OF_PADDOCK ? h->paddock[i].id : kind == DIARY_OF_GROUP ? h->animal[i].id : h->lot[i].id;
}

const char *diary_subject_id(const struct diary_entry *entry, const struct holding *h)
{
    assert(entry->what < DIARY_WHATS);
    return subject_id(h, diary_kinds[entry->what].subject, entry->subject);
}

bool diary_has_subject(const struct holding *h, const char *id)
{
    bool has = false;
    for (enum diary_subject kind = DIARY_OF_PADDOCK; kind <= DIARY_OF_LOT; kind++) {
        for (size_t i = 0; i < subjects(h, kind) && !has; i++) {
            has = strcmp(id, subject_id(h, kind, i)) == 0;
        }
    }
    return has;
}

enum { NAMED_MOST = 64 };

/* "oat-hay-1, oat-hay-2": the ids of the lots of one feed. */
static void lots_text(const struct holding *h, const struct feed *feed, char all[LIMIT_TEXT])
{
    size_t used = 0;
    for (size_t i = 0; i < h->lots && used < LIMIT_TEXT; i++) {
        if (h->lot[i].feed == feed) {
            used += (size_t)snprintf(all + used, LIMIT_TEXT - used, "%s%s", used ? ", " : "", h->lot[i].id);
        }
    }
}

static enum err_code unknown_subject(const struct holding *h, enum diary_subject kind, const char *name, struct err *e)
{
    const char *id[NAMED_MOST];
    char all[LIMIT_TEXT] = "";
    size_t n = 0, used = 0;
    for (; n < subjects(h, kind) && n < NAMED_MOST; n++) {
        id[n] = subject_id(h, kind, n);
        used += used + strlen(id[n]) + 3 < sizeof all
                    ? (size_t)snprintf(all + used, sizeof all - used, "%s%s", n ? ", " : "", id[n])
                    : 0;
    }
    const char *near = err_did_you_mean(name, id, n);
    if (near) {
        err_set(e, ERR_DATA, "the holding has no %s \"%.40s\"; did you mean \"%s\"?", diary_subject_names[kind], name,
                near);
    } else {
        err_set(e, ERR_DATA, "the holding has no %s \"%.40s\"; it has %s", diary_subject_names[kind], name,
                n ? all : "none");
    }
    return fail(e, "subject");
}

/* The lot that the name of a feed stands for, and how many are of that feed; h->lots: none. It is the first of them, if
 * that has no id of its own. A number is never taken for another: its hay may be eaten by now. */
static size_t find_lot(const struct holding *h, const char *name, size_t *of_feed)
{
    size_t i = 0;
    while (i < h->lots && strcmp(h->lot[i].feed->id, name) != 0) {
        i++;
    }
    *of_feed = 0;
    for (size_t k = i; k < h->lots; k++) {
        *of_feed += h->lot[k].feed == h->lot[i].feed;
    }
    return i < h->lots && h->lot[i].named ? h->lots : i;
}

/* Of several lots of one feed, what is in the file already is of the first; who writes now must say which. */
static enum err_code read_lot(const char *name, const struct holding *h, struct diary_entry *entry, bool *stranger,
                              struct err *e)
{
    size_t of_feed, i = find_lot(h, name, &of_feed);
    if (i == h->lots && stranger && name[0]) {
        *stranger = true;
        return ERR_OK;
    }
    if (i == h->lots) {
        return unknown_subject(h, DIARY_OF_LOT, name, e);
    }
    if (of_feed > 1 && !stranger) {
        char all[LIMIT_TEXT];
        lots_text(h, h->lot[i].feed, all);
        err_set(e, ERR_DATA,
                "the holding has %zu lots of %s; say which, by its id or by its number as they stand there: %s",
                of_feed, name, all);
        return fail(e, "subject");
    }
    entry->subject = i;
    return ERR_OK;
}

static enum err_code read_subject(const struct diary_fields *f, const struct holding *h, const struct diary_kind *kind,
                                  struct diary_entry *entry, bool *stranger, struct err *e)
{
    for (size_t i = 0; i < subjects(h, kind->subject); i++) {
        if (strcmp(f->subject, subject_id(h, kind->subject, i)) == 0) {
            entry->subject = i;
            return ERR_OK;
        }
    }
    if (kind->subject == DIARY_OF_LOT) {
        return read_lot(f->subject, h, entry, stranger, e);
    }
    if (!stranger || !f->subject[0]) {
        return unknown_subject(h, kind->subject, f->subject, e);
    }
    *stranger = true;
    return ERR_OK;
}

char *diary_words_text(const struct diary_kind *kind, unsigned words, const char *between, char *text, size_t size)
{
    assert(size > 0);
    size_t used = 0;
    text[0] = 0;
    for (unsigned i = 0; i < DIARY_WORDS && kind->word[i] && used < size; i++) {
        if (words >> i & 1u) {
            used += (size_t)snprintf(text + used, size - used, "%s%s", used ? between : "", kind->word[i]);
        }
    }
    return text;
}

static enum err_code unknown_word(const struct diary_kind *kind, const char *word, struct err *e)
{
    char all[LIMIT_TEXT];
    size_t n = 0;
    while (n < DIARY_WORDS && kind->word[n]) {
        n++;
    }
    const char *near = err_did_you_mean(word, kind->word, n);
    diary_words_text(kind, ~0u, ", ", all, sizeof all);
    if (near) {
        err_set(e, ERR_DATA, "\"%.40s\" is no word of %s; did you mean \"%s\"?", word, kind->name, near);
    } else {
        err_set(e, ERR_DATA, "\"%.40s\" is no word of %s; it takes %s", word, kind->name, all);
    }
    return fail(e, "value");
}

/* Words with blanks, commas, semicolons or plus signs between. "none" stands alone. */
static enum err_code read_words(const char *text, const struct diary_kind *kind, struct diary_entry *entry,
                                struct err *e)
{
    assert(kind->word[0] != NULL);
    static const char between[] = " ,;+";
    for (const char *p = text + strspn(text, between); *p; p += strspn(p, between)) {
        char word[LIMIT_NAME];
        size_t n = strcspn(p, between), i = 0;
        snprintf(word, sizeof word, "%.*s", (int)(n < sizeof word ? n : sizeof word - 1), p);
        while (i < DIARY_WORDS && kind->word[i] && strcasecmp(kind->word[i], word) != 0) {
            i++;
        }
        if (i == DIARY_WORDS || !kind->word[i]) {
            return unknown_word(kind, word, e);
        }
        entry->words |= 1u << i;
        p += n;
    }
    if (entry->words == 0) {
        return unknown_word(kind, "", e);
    }
    if (entry->what == DIARY_FOOT_SIGNS && (entry->words & SIGN_NONE) && entry->words != SIGN_NONE) {
        err_set(e, ERR_DATA, "says none and a sign at once; none means that all signs are gone");
        return fail(e, "value");
    }
    return ERR_OK;
}

static enum err_code unknown_unit(const struct diary_kind *kind, const char *unit, struct err *e)
{
    char all[LIMIT_TEXT] = "";
    size_t used = 0;
    for (size_t i = 0; i < DIARY_UNITS && kind->unit[i].name; i++) {
        used += (size_t)snprintf(all + used, sizeof all - used, "%s%s", i ? ", " : "", kind->unit[i].name);
    }
    if (unit[0]) {
        err_set(e, ERR_DATA, "\"%.40s\" is no unit of %s; it takes %s", unit, kind->name, all);
    } else {
        err_set(e, ERR_DATA, "the unit of %s must be said behind the number: %s", kind->name, all);
    }
    return fail(e, "unit");
}

static int unit_of(const struct diary_kind *kind, const char *unit)
{
    assert(unit != NULL);
    for (int i = 0; i < DIARY_UNITS && kind->unit[i].name; i++) {
        if (strcasecmp(kind->unit[i].name, unit) == 0) {
            return i;
        }
    }
    return -1;
}

static enum err_code not_a_number(const struct diary_fields *f, const struct diary_kind *kind, struct err *e)
{
    err_set(e, ERR_DATA, "\"%.40s\" is not a number; behind %s comes one%s (%s)", f->value, kind->name,
            kind->bare ? ", or nothing" : "", kind->what);
    return fail(e, "value");
}

/* A number, its unit behind it or in the field of the unit. */
static enum err_code read_number(const struct diary_fields *f, char point, const struct diary_kind *kind,
                                 struct diary_entry *entry, struct err *e)
{
    char digits[] = "+-.0123456789", other[2] = {point, 0}, unit[LIMIT_NAME];
    size_t n = strspn(f->value, digits);
    n += point != '.' && f->value[n] == point ? 1 + strspn(f->value + n + 1, digits) : 0;
    const char *behind = f->value + n + strspn(f->value + n, " ");
    double x;
    snprintf(unit, sizeof unit, "%s", behind[0] ? behind : f->unit);
    bool read = num_parse(f->value, n, '.', &x) || num_parse(f->value, n, other[0], &x);
    if (!read || behind[0] == ',' || (behind[0] && f->unit[0] && strcasecmp(behind, f->unit) != 0)) {
        return not_a_number(f, kind, e);
    }
    entry->unit = !unit[0] && !kind->unit_needed ? 0 : unit_of(kind, unit);
    if (entry->unit < 0) {
        return unknown_unit(kind, unit, e);
    }
    const struct diary_unit *u = &kind->unit[entry->unit];
    if (x < u->low || x > u->high) {
        err_set(e, ERR_DATA, "%.10g %s is out of range: %s goes from %g to %g %s; is it another unit?", x, u->name,
                kind->name, u->low, u->high, u->name);
        return fail(e, "value");
    }
    entry->value = x * u->scale;
    assert(isfinite(entry->value));
    return ERR_OK;
}

static enum err_code read_value(const struct diary_fields *f, char point, const struct diary_kind *kind,
                                struct diary_entry *entry, struct err *e)
{
    if (kind->word[0]) {
        return read_words(f->value, kind, entry, e);
    }
    if (f->value[0] && !kind->unit[0].name) {
        err_set(e, ERR_DATA, "\"%.40s\" stands where nothing belongs: %s has no value; put words into the note",
                f->value, kind->name);
        return fail(e, "value");
    }
    if (!f->value[0] && !kind->bare) {
        err_set(e, ERR_DATA, "is missing; behind %s comes a number (%s)", kind->name, kind->what);
        return fail(e, "value");
    }
    return f->value[0] ? read_number(f, point, kind, entry, e) : ERR_OK;
}

enum err_code diary_read_entry(const struct diary_fields *f, char point, const struct holding *h,
                               struct diary_entry *entry, bool *stranger, struct err *e)
{
    assert(point == '.' || point == ',');
    const struct diary_kind *kind = diary_kind_of(f->what, e);
    if (stranger) {
        *stranger = false;
    }
    if (!kind) {
        return ERR_DATA;
    }
    *entry = (struct diary_entry){
        .what = (enum diary_what)(kind - diary_kinds), .unit = -1, .value = (double)NAN, .note = f->note};
    assert(entry->what < DIARY_WHATS);
    enum err_code code = read_when(f, entry, e);
    code = code == ERR_OK ? read_subject(f, h, kind, entry, stranger, e) : code;
    return code == ERR_OK ? read_value(f, point, kind, entry, e) : code;
}

char *diary_time_text(int minute, char *text)
{
    int m = minute < 0 ? 0 : minute % 1440;
    assert(m >= 0 && m < 24 * 60);
    snprintf(text, DIARY_TIME_TEXT, "%02d:%02d", m / 60, m % 60);
    return text;
}

/* The note on one line: control characters become blanks, what is no UTF-8 a question mark. */
static void add_note(const char *note, struct buf *b)
{
    char clean[DIARY_NOTE];
    size_t n = 0;
    const unsigned char *s = (const unsigned char *)note;
    while (*s) {
        size_t length = json_scan_utf8(s, strlen((const char *)s));
        size_t step = length ? length : 1;
        if (n + step >= sizeof clean) {
            break;
        }
        if (step == 1) {
            clean[n++] = *s < 0x20 || *s == 0x7f ? ' ' : *s < 0x80 ? (char)*s : '?';
        } else {
            memcpy(clean + n, s, step);
            n += step;
        }
        s += step;
    }
    assert(n < sizeof clean);
    clean[n] = 0;
    buf_add_csv_field(b, clean + strspn(clean, " "));
}

void diary_write_entry(const struct diary_entry *entry, const struct holding *h, char delimiter, struct buf *b)
{
    assert(entry->unit < DIARY_UNITS);
    const struct diary_kind *kind = &diary_kinds[entry->what];
    assert(entry->unit < 0 || kind->unit[entry->unit].name != NULL);
    char date[DATE_TEXT], text[LIMIT_TEXT];
    buf_addf(b, "%s%c", date_format(entry->date, date), delimiter);
    buf_addf(b, "%s%c", entry->minute < 0 ? "" : diary_time_text(entry->minute, text), delimiter);
    buf_add_csv_field(b, diary_subject_id(entry, h));
    buf_addf(b, "%c%s%c", delimiter, kind->name, delimiter);
    if (kind->word[0]) {
        buf_add(b, diary_words_text(kind, entry->words, "+", text, sizeof text));
    } else if (entry->unit >= 0) {
        buf_add_number(b, entry->value / kind->unit[entry->unit].scale, 6);
    }
    buf_addf(b, "%c%s%c", delimiter, entry->unit < 0 ? "" : kind->unit[entry->unit].name, delimiter);
    add_note(entry->note, b);
    buf_add_char(b, '\n');
}
