/* The morning advice: weather up to that morning, the run, the view.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/today.h"

#include "base/clock.h"
#include "base/file.h"
#include "cmd/morning.h"
#include "cmd/table.h"
#include "cmd/trust.h"
#include "out/advice_log.h"
#include "out/calendar.h"
#include "out/signs.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { STATUS_FIRST = 10 };

static void name_origins(const struct context *c, struct today_view *v)
{
    unsigned seen = v->day->assumed ? 1u << ORIGIN_ASSUMED : 0u;
    for (size_t i = 0; i < c->weather.n; i++) {
        seen |= 1u << c->weather.origin[i];
    }
    for (unsigned k = ORIGIN_RECORDED; k <= ORIGIN_ASSUMED; k++) {
        if (seen >> k & 1u) {
            v->origins[v->n_origins++] = day_origin_name((enum day_origin)k);
        }
    }
}

static bool has_log(const struct today_view *v)
{
    return v->holding->path[0] && strcmp(v->holding->path, "-") != 0 && v->day->run->animals;
}

enum err_code today_note(const struct options *o, const struct today_view *v, struct err *e)
{
    if (!has_log(v) || o->no_log) {
        return ERR_OK;
    }
    char log[LIMIT_PATH + 32];
    struct buf b;
    file_beside(v->holding->path, "advice-log.csv", log, sizeof log);
    buf_init(&b);
    today_log(v, clock_today(v->holding->site.timezone), &b);
    enum err_code code =
        b.failed ? err_set(e, ERR_NOMEM, "out of memory") : file_append(log, today_log_header, b.text, b.length, e);
    buf_release(&b);
    return code;
}

enum err_code today_tell(const struct options *o, const struct today_view *v, struct buf *out, struct err *e)
{
    enum err_code code = command_say(out, e);
    return code == ERR_OK ? today_note(o, v, e) : code;
}

/* For --quiet: what differs from what was last told, as lines. v->silent: nothing does. */
static enum err_code find_changes(struct context *c, const struct options *o, struct today_view *v, struct buf *changes,
                                  struct err *e)
{
    char log[LIMIT_PATH + 32];
    struct file_view view = {.data = ""};
    struct page page = options_page(o, changes);
    bool changed;
    if (!has_log(v)) {
        err_set(e, ERR_USAGE,
                "needs a holding file with animals: what was told before stands in advice-log.csv beside it");
        return err_at(e, NULL, 0, 0, "--quiet");
    }
    file_beside(v->holding->path, "advice-log.csv", log, sizeof log);
    bool first = access(log, F_OK) != 0 && errno == ENOENT;
    enum err_code code = first ? ERR_OK : file_view(log, LIMIT_LOG_BYTES, &view, e);
    if (code != ERR_OK) {
        return code;
    }
    code = advice_log_changes(v, view.data, view.size, &page, &c->arena, &changed, e);
    if (!first) {
        file_unview(&view);
    }
    code = code == ERR_OK && changes->failed ? err_set(e, ERR_NOMEM, "out of memory") : code;
    if (code == ERR_OK && !changed) {
        buf_clear(changes);
        v->silent = v->alarms == 0; /* those are told until they are mended */
    }
    return code;
}

/* For what a vet is told: the advice of the last days as it was given. A log that cannot be read keeps no advice back.
 */
static enum err_code find_advised(struct context *c, struct today_view *v, struct err *e)
{
    char log[LIMIT_PATH + 32];
    struct file_view view;
    struct err why;
    bool stand = false;
    for (size_t i = 0; i < v->day->run->animals; i++) {
        stand = stand || signs_stand(&v->day->run->animal[i]);
    }
    if (!stand || !has_log(v)) {
        return ERR_OK;
    }
    file_beside(v->holding->path, "advice-log.csv", log, sizeof log);
    if (access(log, F_OK) != 0 && errno == ENOENT) {
        return ERR_OK;
    }
    struct today_advised *day = arena_alloc(&c->arena, v->day->run->animals * TODAY_ADVISED, sizeof *day);
    if (!day) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    err_clear(&why);
    if (file_view(log, LIMIT_LOG_BYTES, &view, &why) != ERR_OK) {
        trust_warn(c, v, "advice-log.csv cannot be read: what was advised on the last days is reckoned now.");
        return ERR_OK;
    }
    advice_log_days(v, view.data, view.size, day);
    file_unview(&view);
    v->advised = day;
    v->advised_to = v->day->date;
    return ERR_OK;
}

static enum err_code write_calendar(const struct options *o, const struct today_view *v, struct err *e)
{
    struct buf b;
    if (v->solar) {
        err_set(e, ERR_USAGE,
                "needs the time of your clock, and only the sun's is known: write longitude and timezone into the site "
                "of a holding file");
        return err_at(e, NULL, 0, 0, "--calendar");
    }
    buf_init(&b);
    calendar_write(v, &b);
    enum err_code code =
        b.failed ? err_set(e, ERR_NOMEM, "out of memory") : file_replace(o->calendar, b.text, b.length, e);
    buf_release(&b);
    return code;
}

static void say_calendar(const struct options *o, const struct today_view *v, size_t days, struct buf *out)
{
    char line[LIMIT_PATH + 80], last[32];
    struct page page = options_page(o, out);
    snprintf(line, sizeof line, "%zu day%s, to %s, written to %s.", days, days == 1 ? "" : "s",
             date_format_short(v->day[days - 1].date, last, sizeof last), o->calendar);
    text_wrap(&page, "Calendar: ", line);
}

static void show_short(const struct options *o, const struct today_view *v, const char *changes, struct buf *out)
{
    struct page page = options_page(o, out);
    buf_add(out, changes);
    buf_add(out, changes[0] ? "\n" : "");
    today_short_text(v, page.colour, page.width, out);
}

static void show_all(const struct options *o, const struct today_view *v, struct buf *out)
{
    struct page page = options_page(o, out);
    today_text(v, page.colour, page.width, out);
}

static void show(const struct options *o, const struct today_view *v, const char *changes, struct buf *out)
{
    if (v->silent) {
        return;
    }
    if (o->json) {
        today_json(v, out);
    } else if (o->csv) {
        today_csv(v, out);
    } else if (o->quiet || o->brief) {
        show_short(o, v, changes, out);
    } else {
        show_all(o, v, out);
    }
}

int today_status(const struct options *o, const struct today_view *v)
{
    int status = o->exit_status && v->alarms ? STATUS_FIRST + (int)TURNOUT_NONE : 0;
    for (size_t i = 0; o->exit_status && i < v->day->run->animals; i++) {
        int level = STATUS_FIRST + (int)v->day->run->animal[i].advice.turnout;
        status = level > status ? level : status;
    }
    return status;
}

static enum err_code answer(struct context *c, const struct options *o, struct today_view *v, struct buf *out,
                            struct err *e)
{
    struct buf changes;
    buf_init(&changes);
    enum err_code code = o->quiet ? find_changes(c, o, v, &changes, e) : ERR_OK;
    size_t days = v->days;
    bool found = code == ERR_OK;
    if (found && o->calendar) {
        code = write_calendar(o, v, e);
        found = code != ERR_USAGE;
        v->days = v->days_asked ? days : 1; /* the others were for the calendar */
    }
    if (found) {
        show(o, v, changes.text, out);
        if (o->calendar && code == ERR_OK && !o->quiet && !o->json && !o->csv) {
            say_calendar(o, v, days, out);
        }
        enum err_code told = today_tell(o, v, out, e);
        code = told != ERR_OK ? told : code;
    }
    buf_release(&changes);
    return code;
}

/* How far the forecast reached, when it was asked to reach farther; a calendar or sheet alone takes what there is. */
static void name_reach(struct context *c, size_t asked, struct today_view *v)
{
    char last[DATE_TEXT];
    if (!v->days_asked && (v->days > 1 || c->mornings)) {
        return;
    }
    if (v->days < asked && v->forecast_to != DATE_NONE && v->forecast_to >= v->day->date) {
        trust_warn(c, v, "the forecast ends on %s: %zu of the %zu mornings asked for can be advised on.",
                   date_format(v->forecast_to, last), v->days, asked);
    } else if (v->days < asked) {
        trust_warn(c, v, "there is no forecast for the days ahead: only this morning can be advised on.");
    }
}

static enum err_code find_advice(struct context *c, const struct options *o, struct today_view *v, struct err *e)
{
    size_t days = !isnan(o->days) ? (size_t)o->days : o->calendar ? MORNING_DAYS_MOST : c->mornings ? c->mornings : 1;
    enum err_code code = trust_age(c, o, c->until, v, e);
    if (code != ERR_OK) {
        return code;
    }
    trust_doubts(c, o, c->until, v);
    code = weather_assume(&c->weather, &c->holding.site, c->until - 1, &c->arena, e);
    code = code == ERR_OK ? mornings_find(c, c->until, days, v, e) : code;
    code = code == ERR_OK ? find_advised(c, v, e) : code;
    if (code == ERR_OK) {
        v->days_asked = !isnan(o->days);
        name_origins(c, v);
        code = trust_diary(c, v, e);
        name_reach(c, days, v);
    }
    return code;
}

enum err_code today_find(struct context *c, const struct options *o, struct today_view *v, struct err *e)
{
    c->morning = true;
    c->until = o->date;
    v->holding = &c->holding;
    v->units = options_units(o);
    enum err_code code = context_load(c, o, e);
    return code == ERR_OK ? find_advice(c, o, v, e) : code;
}

enum err_code cmd_today(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct today_view v = {0};
    context_init(&c);
    enum err_code code = today_find(&c, o, &v, e);
    if (code == ERR_OK) {
        code = answer(&c, o, &v, out, e);
        *status = today_status(o, &v);
    }
    context_release(&c);
    return code;
}
