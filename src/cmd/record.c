/* Writes into the diary, and takes the last line of it back.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/signs.h"
#include "base/clock.h"
#include "base/file.h"
#include "cmd/amiss.h"
#include "cmd/context.h"
#include "cmd/record_check.h"
#include "cmd/today.h"
#include "data/diary_rows.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

struct recording {
    const struct options *o;
    struct context c;
    char path[LIMIT_PATH + 16];
    bool others; /* the entry is of foot signs, and another group has some, too */
    bool unread; /* nobody knows: the diary has a bad line */
};

/* Errors about the entry speak of the command line here. */
static enum err_code usage(enum err_code code, struct err *e)
{
    static const char *const option[][2] = {{"time", "--at"}, {"date", "--date"}};
    for (size_t i = 0; i < sizeof option / sizeof option[0]; i++) {
        if (e && strcmp(e->field, option[i][0]) == 0) {
            err_at(e, NULL, 0, 0, option[i][1]);
        }
    }
    if (e && code == ERR_DATA) {
        e->code = ERR_USAGE;
    }
    return code == ERR_DATA ? ERR_USAGE : code;
}

static enum err_code no_words(struct err *e)
{
    err_set(e, ERR_USAGE, "say what to write: sugarlea record WHAT SUBJECT VALUE; \"sugarlea help record\" lists WHAT");
    return err_at(e, NULL, 0, 0, "record");
}

/* Words three and on make up the value: signs, or a number and its unit. */
static void join_value(const struct options *o, char *value, size_t size)
{
    size_t used = 0;
    value[0] = 0;
    for (size_t i = 2; i < o->words && used < size; i++) {
        used += (size_t)snprintf(value + used, size - used, "%s%s", i > 2 ? " " : "", o->word[i]);
    }
}

/* Now by the holding's clock, where no other day and no time was said. */
static void set_when(const struct options *o, const char *zone, char *date, char *time, struct diary_fields *f)
{
    int minute;
    date_t today = clock_moment(zone, &minute);
    bool now_said = o->date == DATE_NONE || o->date == today;
    f->date = date_format(now_said ? today : o->date, date);
    f->time = o->at ? o->at : now_said ? diary_time_text(minute, time) : "";
}

/* What comes later would stand above all that is written until then: no word of today could end it. */
static enum err_code check_past(const char *zone, const struct diary_fields *f, const struct diary_entry *entry,
                                struct err *e)
{
    int minute;
    date_t today = clock_moment(zone, &minute);
    char now[DIARY_TIME_TEXT];
    if (entry->date > today) {
        err_set(e, ERR_USAGE, "%s lies ahead; the diary holds what has been seen and done", f->date);
        return err_at(e, NULL, 0, 0, "--date");
    }
    if (entry->date == today && entry->minute > clock_latest_minute(zone)) {
        err_set(
            e, ERR_USAGE,
            "%s today lies ahead: by the holding's clock it is %s; give a time up to now, --date for another day, or "
            "leave --at out",
            f->time, diary_time_text(minute, now));
        return err_at(e, NULL, 0, 0, "--at");
    }
    return ERR_OK;
}

static enum err_code check_entry(const struct recording *r, struct diary_entry *entry, struct err *e)
{
    const struct options *o = r->o;
    char value[LIMIT_TEXT], date[DATE_TEXT], time[DIARY_TIME_TEXT];
    struct diary_fields f = {.what = o->words > 0 ? o->word[0] : "",
                             .subject = o->words > 1 ? o->word[1] : "",
                             .value = value,
                             .unit = "",
                             .note = o->note ? o->note : ""};
    if (o->words == 0) {
        return no_words(e);
    }
    join_value(o, value, sizeof value);
    set_when(o, r->c.holding.site.timezone, date, time, &f);
    enum err_code code = usage(diary_read_entry(&f, '.', &r->c.holding, entry, NULL, e), e);
    code = code == ERR_OK ? check_past(r->c.holding.site.timezone, &f, entry, e) : code;
    if (code == ERR_OK && options_units(o) == SHOW_US) {
        code = record_check_unit(value, entry, e);
    }
    code = code == ERR_OK ? record_check_hay(&r->c.params, entry, e) : code;
    return code == ERR_OK ? record_check_weight(&r->c.holding, entry, e) : code;
}

/* As the file has it: somebody's spreadsheet may have saved it with semicolons. */
static enum err_code find_delimiter(struct recording *r, char *delimiter, struct err *e)
{
    struct file_view view;
    struct diary_rows rows;
    *delimiter = ',';
    if (access(r->path, F_OK) != 0 && errno == ENOENT) {
        return ERR_OK;
    }
    enum err_code code = file_view(r->path, LIMIT_DIARY_BYTES, &view, e);
    if (code == ERR_OK) {
        code = diary_rows_begin(&rows, view.data, view.size, r->path, &r->c.arena, e);
        *delimiter = rows.delimiter;
        file_unview(&view);
    }
    return code;
}

static bool is_signs(const struct diary_entry *entry)
{
    return entry->what == DIARY_FOOT_SIGNS && !diary_ends_signs(entry);
}

/* As the diary is before. A bad line in it keeps no signs from being written down. */
static enum err_code find_others(struct recording *r, const struct diary_entry *entry, struct err *e)
{
    struct run run;
    struct amiss_sore lost;
    if (!is_signs(entry)) {
        return ERR_OK;
    }
    r->c.morning = true;
    enum err_code code = context_diary(&r->c, e);
    if (code == ERR_DATA) {
        err_clear(e);
        r->unread = true;
        return ERR_OK;
    }
    if (code == ERR_OK && !context_run(&r->c, true, &run)) {
        code = err_set(e, ERR_NOMEM, "out of memory");
    }
    if (code == ERR_OK) {
        const struct animal_group *g = &r->c.holding.animal[entry->subject];
        run_look_over(&run, r->c.until);
        amiss_sore(&r->c, &lost);
        r->others = run_others_sore(&run, g) || amiss_beside(&lost, g);
    }
    return code;
}

/* When to ring the vet. */
static void say_urgency(const struct recording *r, const struct diary_entry *entry, struct buf *out)
{
    enum signs_urgency u = signs_urgency(entry->words, &r->c.holding.animal[entry->subject].rules, r->others);
    buf_add(out, signs_call(u));
    buf_add(out, r->others ? signs_others : "");
    if (r->unread && u != SIGNS_AT_ONCE) {
        buf_add(out, " At once, if another group has signs too: the diary has a line that cannot be read, and nobody "
                     "can tell. \"sugarlea today\" names it.");
    }
}

/* What it means from now on. */
static void say_next(const struct recording *r, const struct diary_entry *entry, struct buf *out)
{
    const struct diary_kind *kind = &diary_kinds[entry->what];
    const char *id = diary_subject_id(entry, &r->c.holding);
    if (is_signs(entry)) {
        say_urgency(r, entry, out);
        buf_addf(out,
                 " From now on the advice for %s is none: off grass, deep bed, plain hay, no walking, until "
                 "\"sugarlea record foot-signs %s none\" or \"record vet %s cleared\". \"sugarlea help signs\" says "
                 "more.\n",
                 id, id, id);
    } else if (diary_ends_signs(entry)) {
        buf_addf(
            out,
            "If signs stood in the diary for %s, the way back to grass begins%s: a short time first, a little more "
            "each day, and only if your vet agrees.\n",
            id, entry->what == DIARY_VET ? "" : " tomorrow at the earliest");
    } else {
        buf_addf(out, "%s\n", kind->next);
    }
}

/* For --units us: the figure as people there read it, where it was written in metric units. */
static void say_in_us(const struct diary_entry *entry, struct buf *out)
{
    static const struct {
        const char *metric;
        enum amount amount;
        const char *of;
    } row[] = {{"kg", AMOUNT_MASS, ""}, {"cm", AMOUNT_LENGTH, ""}, {"kg/ha", AMOUNT_MASS_OF_LAND, " an acre"}};
    const char *unit = entry->unit < 0 ? "" : diary_kinds[entry->what].unit[entry->unit].name;
    char text[UNITS_TEXT];
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        if (strcmp(unit, row[i].metric) == 0) {
            buf_addf(out, "That is %s%s.\n", units_text(SHOW_US, row[i].amount, entry->value, 0, text), row[i].of);
        }
    }
}

static void say_written(const struct recording *r, const struct diary_entry *entry, const char *line, size_t n,
                        struct buf *out)
{
    buf_add(out, "Written to ");
    buf_add_clean(out, r->path, strlen(r->path), LIMIT_PATH);
    buf_addf(out, ": %.*s\n", (int)n, line);
    if (options_units(r->o) == SHOW_US) {
        say_in_us(entry, out);
    }
    say_next(r, entry, out);
}

static enum err_code write_entry(struct recording *r, struct buf *out, struct err *e)
{
    struct diary_entry entry = {.what = DIARY_GRASS_NSC};
    struct buf line, doubt;
    char delimiter = ',';
    enum err_code code = check_entry(r, &entry, e);
    code = code == ERR_OK ? find_delimiter(r, &delimiter, e) : code;
    code = code == ERR_OK ? find_others(r, &entry, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    buf_init(&line);
    buf_init(&doubt);
    code = record_doubt(&r->c, r->path, &entry, options_units(r->o), &doubt, e);
    diary_write_entry(&entry, &r->c.holding, delimiter, &line);
    if (line.failed || doubt.failed) {
        code = err_set(e, ERR_NOMEM, "out of memory");
    }
    code = code == ERR_OK ? file_append(r->path, diary_header, line.text, line.length, e) : code;
    if (code == ERR_OK) {
        say_written(r, &entry, line.text, line.length - 1, out);
        buf_add_bytes(out, doubt.text, doubt.length);
    }
    buf_release(&doubt);
    buf_release(&line);
    return code;
}

struct taking {
    const char *path;
    struct arena *a;
    struct buf *said;
};

static void show(const char *row, size_t n, struct buf *said)
{
    while (n && strchr("\r\n", row[n - 1])) {
        n--;
    }
    buf_add_clean(said, row, n, n); /* a terminal must not obey what stands in a file */
}

static enum err_code nothing_there(const char *path, struct err *e)
{
    err_set(e, ERR_NOINPUT, "the diary is empty: there is nothing to take back");
    return err_at(e, path, 0, 0, NULL);
}

/* The rows but the last. A bad row is one to take back, too, when it is a line of its own. */
static enum err_code drop_last(const char *bytes, size_t n, struct buf *out, void *context, struct err *e)
{
    struct taking *t = context;
    struct diary_rows r;
    const char *field[DIARY_COLUMNS], *last = NULL;
    enum err_code code = diary_rows_begin(&r, bytes, n, t->path, t->a, e), row_code = ERR_OK;
    while (code == ERR_OK && r.p < r.end) {
        const char *before = r.p;
        bool read = diary_rows_next(&r, field, &row_code, e);
        last = read || r.row >= before ? r.row : last;
        if (!read && row_code == ERR_OK) {
            break;
        }
        if (!read) {
            const char *end = memchr(r.row, '\n', (size_t)(r.end - r.row));
            bool whole = r.p == r.end && end && end + 1 < r.end; /* a quote that swallows later rows */
            code = whole ? row_code : code;
            r.p = end && !whole ? end + 1 : r.end;
            row_code = ERR_OK;
        }
    }
    if (code != ERR_OK) {
        return code;
    }
    if (!last) {
        return nothing_there(t->path, e);
    }
    buf_add_bytes(out, bytes, (size_t)(last - bytes));
    show(last, (size_t)(bytes + n - last), t->said);
    return ERR_OK;
}

static enum err_code take_back(struct recording *r, struct buf *out, struct err *e)
{
    struct taking t = {r->path, &r->c.arena, out};
    if (r->o->words) {
        err_set(e, ERR_USAGE, "is not understood beside --undo, which takes the last line back and no other");
        return err_at(e, NULL, 0, 0, r->o->word[0]);
    }
    if (access(r->path, F_OK) != 0 && errno == ENOENT) {
        return nothing_there(r->path, e);
    }
    buf_add(out, "Taken back from ");
    buf_add_clean(out, r->path, strlen(r->path), LIMIT_PATH);
    buf_add(out, ": ");
    enum err_code code = file_update(r->path, LIMIT_DIARY_BYTES, drop_last, &t, e);
    buf_add(out, "\n");
    return code;
}

enum err_code cmd_record(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct recording r = {.o = o};
    (void)status;
    context_init(&r.c);
    enum err_code code = context_holding(&r.c, o, e);
    if (code == ERR_OK) {
        diary_path(&r.c.holding, r.path, sizeof r.path);
        if (!r.path[0]) {
            err_set(e, ERR_USAGE, "the diary stands beside a holding file: name one, with --holding FILE");
            code = err_at(e, NULL, 0, 0, "--holding");
        }
    }
    if (code == ERR_OK) {
        code = o->undo ? take_back(&r, out, e) : write_entry(&r, out, e);
    }
    if (code != ERR_OK) {
        buf_clear(out); /* nothing was done: nothing is said to be */
    }
    context_release(&r.c);
    return code;
}
