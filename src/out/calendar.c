/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/calendar.h"

#include "base/clock.h"
#include "base/hash.h"
#include "base/json_scan.h"
#include "out/text.h"
#include "out/today_words.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

enum { LINE_OCTETS = 75 }; /* RFC 5545, 3.1: without the line's end */

/* A content line in pieces of 75 octets that cut no character. */
static void fold(const char *line, size_t n, struct buf *b)
{
    size_t room = LINE_OCTETS;
    while (n > room) {
        size_t take = json_scan_cut(line, room);
        buf_add_bytes(b, line, take);
        buf_add(b, "\r\n ");
        line += take;
        n -= take;
        room = LINE_OCTETS - 1; /* the blank in front counts */
    }
    buf_add_bytes(b, line, n);
    buf_add(b, "\r\n");
}

/* One line of a text: RFC 5545, 3.3.11. */
static void escape(const char *text, size_t n, struct buf *b)
{
    struct buf clean;
    buf_init(&clean);
    buf_add_clean(&clean, text, n, n);
    for (const char *c = clean.text; *c; c++) {
        if (strchr("\\;,", *c)) {
            buf_add_char(b, '\\');
        }
        buf_add_char(b, *c);
    }
    buf_release_into(&clean, b);
}

void calendar_text(const char *name, const char *value, struct buf *b)
{
    struct buf line;
    buf_init(&line);
    buf_addf(&line, "%s:", name);
    for (;;) {
        size_t n = strcspn(value, "\n");
        escape(value, n, &line);
        if (!value[n]) {
            break;
        }
        buf_add(&line, "\\n");
        value += n + 1;
    }
    fold(line.text, line.length, b);
    buf_release_into(&line, b);
}

static void add_date(date_t date, struct buf *b)
{
    struct date_parts d = date_split(date);
    buf_addf(b, "%04d%02d%02d", d.year, d.month, d.day);
}

/* Minutes since 1970, UTC, and seconds. */
static void add_time(int64_t minutes, int seconds, struct buf *b)
{
    int64_t day = minutes / (24 * 60), rest = minutes % (24 * 60);
    if (rest < 0) {
        day--;
        rest += 24 * 60;
    }
    add_date((date_t)day, b);
    buf_addf(b, "T%02d%02d%02dZ", (int)(rest / 60), (int)(rest % 60), seconds);
}

/* Which of two files is the later one: RFC 5546, 2.1.4, looks at SEQUENCE, then at DTSTAMP. */
static void add_revision(struct buf *b)
{
    int64_t now = clock_now(), minutes = now / 60;
    static const char *const name[] = {"DTSTAMP:", "LAST-MODIFIED:"};
    for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
        buf_add(b, name[i]);
        add_time(minutes, (int)(now % 60), b);
        buf_add(b, "\r\n");
    }
    buf_addf(b, "SEQUENCE:%" PRId64 "\r\n", minutes);
}

/* Hours of their own on the day; else the day is named, and the words say which hours are left out. */
static bool has_hours(const struct today_view *v, const struct advice *x)
{
    return (x->turnout == TURNOUT_TIMED || x->turnout == TURNOUT_BRIEF) && !today_over_midnight(v, x);
}

static void when(const struct today_view *v, const struct advice *x, struct buf *b)
{
    date_t date = v->day->date;
    if (!has_hours(v, x)) {
        buf_add(b, "DTSTART;VALUE=DATE:");
        add_date(date, b);
        buf_add(b, "\r\nDTEND;VALUE=DATE:");
        add_date(date + 1, b);
        buf_add(b, "\r\n");
        return;
    }
    int64_t from =
        (int64_t)date * 24 * 60 + today_minutes(v, x->from_h) - clock_offset_minutes(v->holding->site.timezone, date);
    buf_add(b, "DTSTART:");
    add_time(from, 0, b);
    buf_add(b, "\r\nDTEND:");
    add_time(from + (int64_t)(x->hours * 60.0 + 0.5), 0, b);
    buf_add(b, "\r\n");
}

static void summary(const struct today_view *v, const struct run_animal *a, struct buf *b)
{
    const struct advice *x = &a->advice;
    char line[2 * LIMIT_TEXT], hours[32], window[TODAY_WINDOW_TOLD];
    if (x->turnout == TURNOUT_FREE) {
        snprintf(line, sizeof line, "%s: grass, no limit for sugar's sake", a->group->id);
    } else if (x->turnout == TURNOUT_NONE) {
        snprintf(line, sizeof line, "%s: off grass, hay instead%s", a->group->id, a->seen.words ? " (foot signs)" : "");
    } else {
        snprintf(line, sizeof line, "%s: %s on grass%s%s%s%s%s", a->group->id,
                 units_hours(x->hours, hours, sizeof hours), today_over_midnight(v, x) ? ", " : "",
                 today_over_midnight(v, x) ? today_window_told(v, x, window) : "", x->muzzle ? ", muzzle" : "",
                 today_hay_first(a) ? ", hay first" : "", a->input.back.after_signs ? ", only if your vet agrees" : "");
    }
    calendar_text("SUMMARY", line, b);
}

static void description(const struct today_view *v, const struct today_view *day, const struct run_animal *a,
                        struct buf *b)
{
    struct buf text;
    char line[512], date[DATE_TEXT], hay[TODAY_HAY_TOLD], frost[TODAY_FROST_TEXT];
    buf_init(&text);
    for (size_t i = 0; i < v->alarms; i++) {
        buf_addf(&text, "%s\n", v->alarm[i]);
    }
    buf_addf(&text, "Paddock: %s.\n", v->holding->paddock[a->group->paddock].id);
    if (today_frost_text(day, a, frost)[0]) {
        buf_addf(&text, "Frost: %s\n", frost);
    }
    if (today_hay_told(v, a, hay)[0]) {
        const char *teeth = advice_teeth_text(&a->input);
        buf_addf(&text, "Hay: %s.%s%s\n", hay, teeth[0] ? " " : "", teeth);
    }
    for (int r = 0; r < REASON_COUNT; r++) {
        if (advice_has(&a->advice, (enum advice_reason)r)) {
            buf_addf(&text, "- %s\n",
                     advice_reason_text((enum advice_reason)r, &a->advice, &a->input, line, sizeof line));
        }
    }
    buf_addf(&text, "Advised on %s%s. Look again each morning.\n%s", date_format(v->day->date, date),
             day->day->date > v->day->date ? ", by the forecast" : "", text_closing_words);
    calendar_text("DESCRIPTION", text.text, b);
    buf_release_into(&text, b);
}

static void event(const struct today_view *v, const struct today_view *day, const struct run_animal *a, struct buf *b)
{
    const char *id = a->group->id, *name = v->holding->name;
    uint64_t hash = hash_fnv1a(hash_fnv1a(HASH_START, name, strlen(name) + 1), id, strlen(id));
    buf_add(b, "BEGIN:VEVENT\r\nUID:");
    add_date(day->day->date, b);
    buf_addf(b, "-%016" PRIx64 "@sugarlea\r\n", hash);
    add_revision(b);
    when(day, &a->advice, b);
    summary(day, a, b);
    description(v, day, a, b);
    buf_add(b, "TRANSP:TRANSPARENT\r\nEND:VEVENT\r\n");
}

void calendar_write(const struct today_view *v, struct buf *b)
{
    struct today_view day = *v;
    buf_add(b, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n");
    calendar_text("PRODID", "-//sugarlea//sugarlea " SUGARLEA_VERSION "//EN", b);
    if (v->holding->name[0]) {
        calendar_text("NAME", v->holding->name, b); /* RFC 7986; calendars that are older read the next line */
        calendar_text("X-WR-CALNAME", v->holding->name, b);
    }
    for (size_t k = 0; k < v->days; k++) {
        day.day = &v->day[k];
        for (size_t i = 0; i < day.day->run->animals; i++) {
            event(v, &day, &day.day->run->animal[i], b);
        }
    }
    buf_add(b, "END:VCALENDAR\r\n");
}
