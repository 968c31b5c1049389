/* Loads diary.csv. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/diary.h"

#include "base/file.h"
#include "data/diary_rows.h"

#include <assert.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

const char diary_header[] = "date,time,subject,what,value,unit,note\n";

void diary_path(const struct holding *h, char *path, size_t size)
{
    assert(size > 0);
    path[0] = 0;
    if (h->path[0] && strcmp(h->path, "-") != 0) {
        file_beside(h->path, "diary.csv", path, size);
    }
}

bool diary_is_grass_test(const struct diary_entry *entry)
{
    return entry->what == DIARY_GRASS_NSC || entry->what == DIARY_GRASS_WSC;
}

bool diary_known(const struct diary_entry *entry, date_t morning, bool live)
{
    assert(entry->date != DATE_NONE);
    enum { NOON = 12 * 60 };
    return entry->date < morning || (entry->date == morning && (live || entry->minute <= NOON));
}

enum err_code diary_know(struct diary *d, date_t morning, bool live, struct arena *a, size_t *known, struct err *e)
{
    struct diary_entry *entry = d->n ? arena_alloc(a, d->n, sizeof *entry) : NULL;
    size_t n = 0, rest = 0;
    if (d->n && !entry) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    for (size_t i = 0; i < d->n; i++) {
        n += diary_known(&d->entry[i], morning, live);
    }
    *known = n;
    for (size_t i = d->n; i > 0; i--) {
        const struct diary_entry *x = &d->entry[i - 1];
        entry[diary_known(x, morning, live) ? --n : d->n - ++rest] = *x;
    }
    assert(n == 0 && *known + rest == d->n);
    d->entry = entry;
    return ERR_OK;
}

size_t diary_until(const struct diary *d, date_t day)
{
    size_t n = d->n;
    while (n && d->entry[n - 1].date > day) {
        n--;
    }
    return n;
}

struct loading {
    struct diary *diary;
    struct diary_entry *entry;
    size_t room;
    struct diary_stranger *stranger;
    size_t stranger_room;
    struct diary_stray *stray;
    size_t stray_room;
    struct arena *a;
};

/* Twice the room, the old rows kept. */
static void *grow(struct arena *a, const void *old, size_t n, size_t size, size_t *room)
{
    assert(n <= *room);
    enum { FIRST = 64 };
    size_t more = *room ? 2 * *room : FIRST;
    void *rows = arena_alloc(a, more, size);
    if (rows && old) {
        memcpy(rows, old, n * size);
    }
    *room = rows ? more : *room;
    return rows;
}

static bool add_entry(struct loading *l, const struct diary_entry *entry)
{
    assert(l->diary->n <= l->room);
    struct diary *d = l->diary;
    if (d->n == l->room) {
        l->entry = grow(l->a, l->entry, d->n, sizeof *l->entry, &l->room);
        d->entry = l->entry;
    }
    if (!l->entry) {
        return false;
    }
    l->entry[d->n] = *entry;
    l->entry[d->n].note = entry->note[0] ? arena_strdup(l->a, entry->note) : "";
    return l->entry[d->n++].note != NULL;
}

static bool add_stray(struct loading *l, const char *name, const struct diary_entry *entry)
{
    assert(l->diary->strays <= l->stray_room);
    struct diary *d = l->diary;
    if (!diary_tells_of_signs(entry)) {
        return true;
    }
    if (d->strays == l->stray_room) {
        l->stray = grow(l->a, l->stray, d->strays, sizeof *l->stray, &l->stray_room);
        d->stray = l->stray;
    }
    if (!l->stray) {
        return false;
    }
    l->stray[d->strays] = (struct diary_stray){*entry, name};
    l->stray[d->strays++].entry.note = "";
    return true;
}

static bool add_stranger(struct loading *l, const char *name, const struct diary_entry *entry)
{
    assert(l->diary->strangers <= l->stranger_room);
    struct diary *d = l->diary;
    for (size_t i = 0; l->stranger && i < d->strangers; i++) {
        if (strcmp(l->stranger[i].name, name) == 0) {
            l->stranger[i].entries++;
            return add_stray(l, l->stranger[i].name, entry);
        }
    }
    if (d->strangers == l->stranger_room) {
        l->stranger = grow(l->a, l->stranger, d->strangers, sizeof *l->stranger, &l->stranger_room);
        d->stranger = l->stranger;
    }
    const char *kept = arena_strdup(l->a, name);
    if (!l->stranger || !kept) {
        return false;
    }
    l->stranger[d->strangers++] = (struct diary_stranger){kept, entry->line, 1, diary_kinds[entry->what].subject};
    return add_stray(l, kept, entry);
}

static int minute_of(const struct diary_entry *e)
{
    assert(e->minute < 24 * 60);
    enum { DAY_END = 24 * 60 };
    bool signs = e->what == DIARY_FOOT_SIGNS && e->words != SIGN_NONE;
    return e->minute < 0 && signs ? DAY_END : e->minute;
}

static int by_time(const void *x, const void *y)
{
    const struct diary_entry *a = x, *b = y;
    int minute_a = minute_of(a), minute_b = minute_of(b);
    if (a->date != b->date) {
        return a->date < b->date ? -1 : 1;
    }
    if (minute_a != minute_b) {
        return minute_a < minute_b ? -1 : 1;
    }
    return a->line < b->line ? -1 : a->line > b->line;
}

static enum err_code read_row(struct loading *l, const struct diary_rows *r, const char *field[DIARY_COLUMNS],
                              const struct holding *h, struct err *e)
{
    const struct diary_fields f = {field[0], field[1], field[2], field[3], field[4], field[5], field[6]};
    struct diary_entry entry;
    bool stranger;
    enum err_code code = diary_read_entry(&f, r->delimiter == ',' ? '.' : ',', h, &entry, &stranger, e);
    if (code != ERR_OK) {
        return err_at(e, r->file, r->line, 0, NULL);
    }
    entry.line = r->line;
    assert(stranger || entry.what < DIARY_WHATS);
    bool kept = stranger ? add_stranger(l, f.subject, &entry) : add_entry(l, &entry);
    return kept ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory");
}

enum err_code diary_parse(const char *text, size_t size, const char *name, const struct holding *h, struct arena *a,
                          struct diary *d, struct err *e)
{
    assert(text != NULL || size == 0);
    struct diary_rows r;
    struct loading l = {.diary = d, .a = a};
    const char *field[DIARY_COLUMNS];
    *d = (struct diary){0};
    snprintf(d->path, sizeof d->path, "%s", name);
    enum err_code code = diary_rows_begin(&r, text, size, name, a, e);
    while (code == ERR_OK && diary_rows_next(&r, field, &code, e)) {
        code = read_row(&l, &r, field, h, e);
    }
    if (code == ERR_OK && l.entry) {
        qsort(l.entry, d->n, sizeof *l.entry, by_time);
    }
    if (code == ERR_OK && l.stray) { /* the entry is its first member */
        qsort(l.stray, d->strays, sizeof *l.stray, by_time);
    }
    return code;
}

enum err_code diary_load(const char *path, const struct holding *h, struct arena *a, struct diary *d, struct err *e)
{
    struct file_view view;
    *d = (struct diary){0};
    snprintf(d->path, sizeof d->path, "%s", path);
    if (!path[0] || (access(path, F_OK) != 0 && errno == ENOENT)) {
        return ERR_OK;
    }
    enum err_code code = file_view(path, LIMIT_DIARY_BYTES, &view, e);
    if (code == ERR_OK) {
        code = diary_parse(view.data, view.size, path, h, a, d, e);
        file_unview(&view);
    }
    return code;
}
