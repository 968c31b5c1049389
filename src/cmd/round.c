/* sugarlea round: many holdings in one go, and whom to ring first.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "cmd/context.h"
#include "cmd/round_list.h"
#include "cmd/round_look.h"
#include "cmd/round_work.h"
#include "cmd/today.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { SECONDS = 60, STATUS_FIRST = 10 };

struct round {
    struct round_ask ask;
    date_t date; /* that it is headed with */
    struct round_list list;
    struct round_row *row; /* one a place of the list, until it is sorted */
    struct arena arena;
};

/* Keeps what was found at the size that it has. */
static bool keep(struct round *r, const char *path, const struct round_found *f, struct round_row *row)
{
    const char **why = arena_alloc(&r->arena, f->whys, sizeof *why);
    struct buf key;
    buf_init(&key);
    round_key(f->name, path, &key);
    *row = (struct round_row){.path = path,
                              .name = arena_strdup(&r->arena, f->name),
                              .strictest = arena_strdup(&r->arena, f->strictest),
                              .credit = arena_strdup(&r->arena, f->credit),
                              .fault = arena_strdup(&r->arena, f->fault),
                              .reasons = f->reasons,
                              .due = f->due,
                              .turnout = f->turnout,
                              .whys = f->whys,
                              .more = f->more,
                              .why = why,
                              .key = key.failed ? NULL : arena_strdup(&r->arena, key.text)};
    buf_release(&key);
    bool kept = why && row->name && row->strictest && row->credit && row->fault && row->key;
    for (size_t i = 0; i < f->whys && kept; i++) {
        why[i] = arena_strdup(&r->arena, f->why[i].text);
        kept = why[i] != NULL;
    }
    return kept;
}

static void look(void *context, size_t i, void *found)
{
    const struct round *r = context;
    const struct round_place *p = &r->list.place[i];
    struct round_found *f = found;
    memset(f, 0, sizeof *f);
    if (p->trouble) {
        f->due = DATE_NONE;
        f->turnout = ROUND_UNADVISED;
        round_fault(f, p->trouble);
        return;
    }
    round_look(&r->ask, p->path, f);
}

static enum err_code take(void *context, size_t i, const void *found, const char *why, struct err *e)
{
    struct round *r = context;
    struct round_found lost = {.due = DATE_NONE, .turnout = ROUND_UNADVISED};
    char text[ROUND_TEXT];
    if (!found) {
        snprintf(text, sizeof text, "%s; nothing is known of it: try \"sugarlea today\" with it alone", why);
        round_fault(&lost, text);
    }
    bool kept = keep(r, r->list.place[i].path, found ? found : &lost, &r->row[i]);
    return kept ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory");
}

static unsigned cores(void)
{
    long n = sysconf(_SC_NPROCESSORS_ONLN);
    return n < 1 ? 1 : (unsigned)n;
}

static enum err_code find_places(struct round *r, const struct options *o, struct err *e)
{
    if (!o->list && o->words == 0) {
        return options_wrong(e, "round", "needs the folder that the holdings lie below, or --list FILE");
    }
    if (o->list && o->words > 0) {
        return options_wrong(e, "--list", "and a folder are too much: give one of them");
    }
    enum err_code code = o->list ? round_list_read(o->list, &r->arena, &r->list, e)
                                 : round_list_below(o->word, o->words, &r->arena, &r->list, e);
    if (code == ERR_OK && r->list.n == 0) {
        err_set(e, ERR_NOINPUT, "no holding.json is there; \"sugarlea help round\" says what is looked for");
        return err_at(e, o->list ? o->list : o->word[0], 0, 0, NULL);
    }
    return code;
}

static enum err_code go_round(struct round *r, const struct options *o, struct err *e)
{
    const struct round_work work = {.n = r->list.n,
                                    .jobs = isnan(o->jobs) ? cores() : (unsigned)o->jobs,
                                    .seconds = isnan(o->seconds) ? SECONDS : (unsigned)o->seconds,
                                    .size = sizeof(struct round_found),
                                    .context = r,
                                    .look = look,
                                    .take = take};
    r->row = arena_alloc(&r->arena, r->list.n, sizeof *r->row);
    if (!r->row) {
        err_set(e, ERR_NOMEM, "out of memory");
        return ERR_NOMEM;
    }
    enum err_code code = round_work(&work, e);
    if (code == ERR_OK) {
        round_sort(r->row, r->list.n);
    }
    return code;
}

static void answer(const struct round *r, const struct options *o, struct buf *out, int *status)
{
    const struct round_view v = {r->date, r->list.n, r->row};
    if (o->json) {
        round_json(&v, out);
    } else if (o->csv) {
        round_csv(&v, out);
    } else {
        struct page page = options_page(o, out);
        round_text(&v, page.colour, page.width, out);
    }
    for (size_t i = 0; o->exit_status && i < v.n; i++) {
        unsigned sore = round_bit(ROUND_SIGNS_AT_ONCE) | round_bit(ROUND_SIGNS_TODAY) | round_bit(ROUND_ACUTE) |
                        round_bit(ROUND_SIGNS_LOST);
        int lost = v.row[i].reasons & sore ? STATUS_FIRST + (int)TURNOUT_NONE : 0;
        int level = v.row[i].turnout == ROUND_UNADVISED ? 0 : STATUS_FIRST + v.row[i].turnout;
        level = level > lost ? level : lost;
        *status = level > *status ? level : *status;
    }
}

enum err_code cmd_round(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c; /* of the models alone: they are read once, before any worker starts */
    struct round r = {.ask = {o, &c.params, o->date}};
    context_init(&c);
    arena_init(&r.arena);
    enum err_code code = clock_enter("", e);
    r.date = o->date == DATE_NONE ? clock_today("") : o->date;
    code = code == ERR_OK ? find_places(&r, o, e) : code;
    code = code == ERR_OK ? context_params(&c, e) : code;
    code = code == ERR_OK ? go_round(&r, o, e) : code;
    if (code == ERR_OK) {
        answer(&r, o, out, status);
    }
    arena_release(&r.arena);
    context_release(&c);
    return code;
}
