/* Reads the advice log back. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/advice_log.h"

#include "base/num.h"
#include "out/today_words.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    FIELDS_OLD = 9,      /* before muzzle and what follows were written */
    FIELDS_UNDATED = 14, /* before written was */
    FIELDS = 15,
    LINE_MOST = 1024, /* bytes; a line of the log is far shorter */
    DAY_MINUTES = 24 * 60,
    WINDOW_SAME = 30 /* minutes: our judgement of what nobody has to get up earlier for */
};
#define HOURS_SAME 0.01 /* h: the log has two decimals */

enum field { DATE, ANIMAL, TURNOUT, HOURS, FROM, MUZZLE = FIELDS_OLD, SIGNS, FROST, WARNING, TOLD, WRITTEN };

const char *const today_frost_words[TODAY_FROSTS] = {"", "ground", "air"};
const char *const today_age_words[TODAY_AGES] = {"", "provisional", "stale"};
const char *const today_told_words[TODAY_TOLDS] = {"0", "1", "sheet"};

struct log_line {
    date_t date;
    date_t written; /* DATE_NONE not known */
    enum turnout turnout;
    double hours;
    int from;   /* minutes; -1: no window */
    int muzzle; /* -1 not known */
    char signs[LIMIT_TEXT];
    int frost, age, told;
};

enum today_frost today_frost(const struct today_view *v)
{
    return v->day->air_frost ? TODAY_AIR_FROST : v->day->ground_frost ? TODAY_GROUND_FROST : TODAY_NO_FROST;
}

enum today_age today_age(const struct today_view *v)
{
    bool stale = v->age_days > v->day->run->params->limits.stale_refuse_days;
    return stale ? TODAY_STALE : v->provisional ? TODAY_PROVISIONAL : TODAY_FRESH;
}

const char *today_signs_words(const struct run_animal *a, char *text, size_t size)
{
    return diary_words_text(&diary_kinds[DIARY_FOOT_SIGNS], a->seen.words, "+", text, size);
}

/* Which of n words; n: none of them. */
static int word_index(const char *word, const char *const *words, int n)
{
    int i = 0;
    while (i < n && strcmp(word, words[i]) != 0) {
        i++;
    }
    return i;
}

static bool read_turnout(const char *word, enum turnout *turnout)
{
    int t = TURNOUT_FREE;
    while (t <= TURNOUT_NONE && strcmp(word, turnout_name((enum turnout)t)) != 0) {
        t++;
    }
    *turnout = (enum turnout)t;
    return t <= TURNOUT_NONE;
}

static bool read_from(const char *text, int *minutes)
{
    long hour, minute;
    *minutes = -1;
    if (!text[0]) {
        return true;
    }
    if (strlen(text) != 5 || text[2] != ':' || !num_parse_long(text, 2, 0, 23, &hour) ||
        !num_parse_long(text + 3, 2, 0, 59, &minute)) {
        return false;
    }
    *minutes = (int)(60 * hour + minute);
    return true;
}

static bool read_flag(const char *text, int *flag)
{
    *flag = text[0] == '1';
    return (text[0] == '0' || text[0] == '1') && !text[1];
}

/* The part of the line that was added later. */
static bool read_rest(char *const *field, size_t n, struct log_line *l)
{
    l->written = n == FIELDS ? date_parse_iso(field[WRITTEN], strlen(field[WRITTEN])) : DATE_NONE;
    if (n == FIELDS_OLD) {
        l->muzzle = -1;
        l->told = TODAY_SAID;
        return true;
    }
    snprintf(l->signs, sizeof l->signs, "%s", field[SIGNS]);
    l->frost = word_index(field[FROST], today_frost_words, TODAY_FROSTS);
    l->age = word_index(field[WARNING], today_age_words, TODAY_AGES);
    l->told = word_index(field[TOLD], today_told_words, TODAY_TOLDS);
    return (n < FIELDS || l->written != DATE_NONE) && read_flag(field[MUZZLE], &l->muzzle) && l->frost < TODAY_FROSTS &&
           l->age < TODAY_AGES && l->told < TODAY_TOLDS;
}

static bool read_line(char *text, const char **animal, struct log_line *l)
{
    char *field[FIELDS + 1];
    size_t n = 0;
    field[n++] = text;
    for (char *p = text; *p && n <= FIELDS; p++) {
        if (*p == ',') {
            *p = 0;
            field[n++] = p + 1;
        }
    }
    if (n != FIELDS && n != FIELDS_UNDATED && n != FIELDS_OLD) {
        return false;
    }
    *l = (struct log_line){.date = date_parse_iso(field[DATE], strlen(field[DATE]))};
    *animal = field[ANIMAL];
    return l->date != DATE_NONE && read_turnout(field[TURNOUT], &l->turnout) &&
           num_parse(field[HOURS], strlen(field[HOURS]), '.', &l->hours) && read_from(field[FROM], &l->from) &&
           read_rest(field, n, l);
}

struct last { /* what counts; a date of DATE_NONE: nothing */
    const struct today_view *v;
    struct log_line *told;
    struct log_line any;
};

static void take(void *context, const char *animal, const struct log_line *l)
{
    struct last *last = context;
    const struct run *r = last->v->day->run;
    if (l->date > last->v->day->date || l->told == TODAY_ON_SHEET) {
        return;
    }
    if (l->date >= last->any.date) {
        last->any = *l;
    }
    for (size_t i = 0; i < r->animals && l->told == TODAY_SAID; i++) {
        if (l->date >= last->told[i].date && strcmp(r->animal[i].group->id, animal) == 0) {
            last->told[i] = *l;
        }
    }
}

typedef void log_taker(void *context, const char *animal, const struct log_line *l);

static void read_log(const char *log, size_t n, log_taker *taker, void *context)
{
    char text[LINE_MOST];
    struct log_line l;
    const char *animal;
    for (const char *p = log, *end = log + n; p < end;) {
        const char *stop = memchr(p, '\n', (size_t)(end - p));
        size_t length = (size_t)((stop ? stop : end) - p);
        if (length < sizeof text) {
            memcpy(text, p, length);
            text[length] = 0;
            text[strcspn(text, "\r")] = 0;
            if (read_line(text, &animal, &l)) {
                taker(context, animal, &l);
            }
        }
        p += length + 1;
    }
}

struct days_seen {
    const struct today_view *v;
    struct today_advised *day;
};

static void take_day(void *context, const char *animal, const struct log_line *l)
{
    struct days_seen *s = context;
    const struct run *r = s->v->day->run;
    if (l->written > l->date || l->date > s->v->day->date || s->v->day->date - l->date >= TODAY_ADVISED) {
        return;
    }
    for (size_t i = 0; i < r->animals; i++) {
        struct today_advised *d = &s->day[i * TODAY_ADVISED + (size_t)(s->v->day->date - l->date)];
        bool muzzle = l->muzzle == 1;
        if (strcmp(r->animal[i].group->id, animal) != 0) {
            continue;
        }
        if (isnan(d->hours)) {
            *d = (struct today_advised){l->hours, (double)NAN, muzzle, false};
        } else {
            bool same = fabs(d->hours - l->hours) < HOURS_SAME && d->muzzle == muzzle;
            d->later_h = same ? (double)NAN : l->hours;
            d->later_muzzle = muzzle;
        }
    }
}

void advice_log_days(const struct today_view *v, const char *log, size_t n, struct today_advised *day)
{
    struct days_seen s = {v, day};
    for (size_t i = 0; i < v->day->run->animals * TODAY_ADVISED; i++) {
        day[i] = (struct today_advised){(double)NAN, (double)NAN, false, false};
    }
    read_log(log, n, take_day, &s);
}

static void now_line(const struct today_view *v, const struct run_animal *a, struct log_line *l)
{
    const struct advice *x = &a->advice;
    char from[6];
    *l = (struct log_line){.date = v->day->date, .turnout = x->turnout, .hours = x->hours, .muzzle = x->muzzle};
    today_signs_words(a, l->signs, sizeof l->signs);
    bool window = x->turnout == TURNOUT_TIMED || x->turnout == TURNOUT_BRIEF;
    read_from(window ? today_clock(v, x->from_h, from) : "", &l->from);
}

static bool same_window(int a, int b)
{
    int apart = abs(a - b);
    return apart < WINDOW_SAME || DAY_MINUTES - apart < WINDOW_SAME;
}

static bool same_advice(const struct log_line *a, const struct log_line *b)
{
    return a->turnout == b->turnout && fabs(a->hours - b->hours) < HOURS_SAME && same_window(a->from, b->from) &&
           a->muzzle == b->muzzle && strcmp(a->signs, b->signs) == 0;
}

/* "timed, 3 h from 05:50, with a muzzle". */
static void describe(const struct log_line *l, struct buf *b)
{
    char hours[32];
    buf_add(b, turnout_name(l->turnout));
    if (l->from >= 0) {
        buf_addf(b, ", %s from %02d:%02d", units_hours(l->hours, hours, sizeof hours), l->from / 60, l->from % 60);
    }
    buf_add(b, l->muzzle == 1 ? ", with a muzzle" : "");
    if (l->signs[0]) {
        buf_add(b, ", foot signs: ");
        for (const char *c = l->signs; *c; c++) {
            buf_add(b, *c == '+' ? ", " : (char[]){*c, 0});
        }
    }
}

static void say_group(const struct page *page, const char *id, const struct log_line *now, const struct log_line *told)
{
    char day[32];
    struct buf line;
    buf_init(&line);
    buf_addf(&line, "%s: now ", id);
    describe(now, &line);
    if (told->date == DATE_NONE) {
        buf_add(&line, "; nothing was told of it before.");
    } else {
        buf_addf(&line, "; last told, on %s: ", date_format_short(told->date, day, sizeof day));
        describe(told, &line);
        buf_add_char(&line, '.');
    }
    text_wrap(page, "  ", line.text);
    buf_release_into(&line, page->b);
}

/* What rose since the last morning of the log: frost, where somebody goes out, and the age of the weather. */
static bool say_rises(const struct today_view *v, const struct log_line *any, const struct page *page)
{
    enum today_frost frost = today_frost(v);
    enum today_age age = today_age(v);
    const char *out = "";
    char line[LIMIT_TEXT];
    bool known = any->date != DATE_NONE, rises = false;
    for (size_t i = 0; i < v->day->run->animals && !out[0]; i++) {
        out = v->day->run->animal[i].advice.turnout == TURNOUT_NONE ? "" : today_frost_told(v->day);
    }
    if (known && out[0] && (int)frost > any->frost) {
        text_wrap(page, "  Frost: ", out);
        rises = true;
    }
    if (age > TODAY_FRESH && (!known || (int)age > any->age)) {
        snprintf(line, sizeof line, "The weather is now %s: the last recorded day lies %d days before this morning.",
                 today_age_words[age], v->age_days + 1);
        text_wrap(page, "  ", line);
        rises = true;
    }
    return rises;
}

enum err_code advice_log_changes(const struct today_view *v, const char *log, size_t n, const struct page *page,
                                 struct arena *a, bool *changed, struct err *e)
{
    const struct run *r = v->day->run;
    struct last last = {v, arena_alloc(a, r->animals, sizeof *last.told), {.date = DATE_NONE}};
    if (!last.told) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    for (size_t i = 0; i < r->animals; i++) {
        last.told[i].date = DATE_NONE;
    }
    read_log(log, n, take, &last);
    text_bold(page, "Changed:");
    buf_add_char(page->b, '\n');
    *changed = say_rises(v, &last.any, page);
    for (size_t i = 0; i < r->animals; i++) {
        struct log_line now;
        now_line(v, &r->animal[i], &now);
        if (last.told[i].date == DATE_NONE || !same_advice(&now, &last.told[i])) {
            say_group(page, r->animal[i].group->id, &now, &last.told[i]);
            *changed = true;
        }
    }
    return ERR_OK;
}
