/* Zone offsets through the C library: TZ is set to the zone that is asked for and stays so
 * until another one is. Not for threads; the model never calls it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"

#include "base/limits.h"
#include "base/num.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define SPAN_MOST (400LL * 366 * CLOCK_DAY_SECONDS)
#define OFFSET_MOST (26 * 3600) /* more than any zone strays from UTC */

/* Of a folder, or of a file that is no table, the C library takes UTC and says nothing. What only cannot be opened
 * now is one all the same: whoever enters it is told. */
static bool is_table(const char *path)
{
    static const char magic[] = {'T', 'Z', 'i', 'f'}; /* RFC 8536, 3.1 */
    struct stat s;
    char first[sizeof magic];
    if (stat(path, &s) != 0 || !S_ISREG(s.st_mode) || access(path, R_OK) != 0) {
        return false;
    }
    int file = open(path, O_RDONLY | O_CLOEXEC);
    ssize_t n = file < 0 ? -1 : read(file, first, sizeof first);
    if (file >= 0) {
        close(file);
    }
    return n < 0 || (n == sizeof magic && memcmp(first, magic, sizeof magic) == 0);
}

bool clock_zone_known(const char *zone)
{
    assert(zone != NULL);
    static const char *const folders[] = {"/usr/share/zoneinfo", "/usr/lib/zoneinfo", "/usr/share/lib/zoneinfo"};
    char path[256];
    if (!zone[0] || strlen(zone) >= LIMIT_NAME || strstr(zone, "..") || zone[0] == '/') {
        return false;
    }
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        snprintf(path, sizeof path, "%s/%s", folders[i], zone);
        if (is_table(path)) {
            return true;
        }
    }
    return false;
}

/* The first word of a file; "" none. */
static void first_word(const char *path, char *word, size_t size)
{
    FILE *file = fopen(path, "r");
    word[0] = 0;
    if (file) {
        if (!fgets(word, (int)size, file)) {
            word[0] = 0;
        }
        fclose(file);
    }
    word[strcspn(word, " \t\r\n")] = 0;
}

/* "Europe/London" of a link to /usr/share/zoneinfo/Europe/London. */
static void zone_of_link(const char *path, char *word, size_t size)
{
    static const char folder[] = "/zoneinfo/";
    char target[256];
    ssize_t n = readlink(path, target, sizeof target - 1);
    target[n > 0 ? n : 0] = 0;
    const char *found = strstr(target, folder);
    snprintf(word, size, "%s", found ? found + sizeof folder - 1 : "");
}

/* The zone that the C library reckons in. */
static struct {
    bool whole;            /* false: none yet, or its tables could not be read */
    char zone[LIMIT_NAME]; /* "": the system's own */
    bool ours;             /* TZ is set to a zone that was asked for */
    bool had;              /* whether there is a TZ beside ours */
    char own[LIMIT_PATH];  /* that TZ */
} entered;

static void keep_own(void)
{
    const char *set = getenv("TZ");
    if (!entered.ours) {
        entered.had = set && strlen(set) < sizeof entered.own;
        snprintf(entered.own, sizeof entered.own, "%s", entered.had ? set : "");
    }
}

bool clock_system_zone(char *zone, size_t size)
{
    keep_own();
    const char *set = entered.own;
    if (set[0]) {
        snprintf(zone, size, "%s", set + (set[0] == ':'));
        return clock_zone_known(zone);
    }
    first_word("/etc/timezone", zone, size);
    if (!clock_zone_known(zone)) {
        zone_of_link("/etc/localtime", zone, size);
    }
    return clock_zone_known(zone);
}

/* Offset from UTC, s, of the zone entered. */
static long offset_here(time_t when)
{
    struct tm local;
    return localtime_r(&when, &local) ? local.tm_gmtoff : 0;
}

/* The C library takes UTC where it cannot read a zone, and tells it by errno alone. */
static int read_zone(const char *zone)
{
    static const int64_t far[] = {4102444800, 4118083200}; /* January and July 2100: the rule behind the tables */
    const char *tz = zone[0] || !entered.had ? zone : entered.own;
    if (entered.ours && !entered.whole) { /* or the library would take the zone for read */
        unsetenv("TZ");
        tzset();
    }
    errno = 0;
    if ((tz[0] || entered.had ? setenv("TZ", tz, 1) : unsetenv("TZ")) == 0) {
        tzset();
        for (size_t i = 0; i < sizeof far / sizeof *far; i++) {
            offset_here((time_t)far[i]); /* what it needs room for, it has found by then */
        }
    }
    return errno == ENOMEM || errno == EMFILE || errno == ENFILE || errno == EIO ? errno : 0;
}

enum err_code clock_enter(const char *zone, struct err *e)
{
    if (entered.whole && strcmp(entered.zone, zone) == 0) {
        return ERR_OK;
    }
    keep_own();
    int why = read_zone(zone);
    entered.whole = why == 0;
    entered.ours = zone[0] || why;
    if (entered.whole) {
        snprintf(entered.zone, sizeof entered.zone, "%s", zone);
        return ERR_OK;
    }
    return why == ENOMEM ? err_set(e, ERR_NOMEM, "out of memory while reading a time zone")
                         : err_set(e, ERR_NOINPUT, "the tables of the time zone cannot be read: %s", strerror(why));
}

static long offset_at(const char *zone, time_t when)
{
    clock_enter(zone, NULL);
    return offset_here(when);
}

time_t clock_now(void)
{
    const char *fixed = getenv("SOURCE_DATE_EPOCH");
    long value;
    if (fixed && num_parse_long(fixed, strlen(fixed), 0, 7000000000L, &value)) {
        return (time_t)value;
    }
    return time(NULL);
}

double clock_ticks(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

date_t clock_moment(const char *zone, int *minute)
{
    time_t when = clock_now();
    when += offset_at(clock_zone_known(zone) ? zone : "", when);
    *minute = (int)(when % CLOCK_DAY_SECONDS / 60);
    return (date_t)(when / CLOCK_DAY_SECONDS);
}

date_t clock_today(const char *zone)
{
    int minute;
    return clock_moment(zone, &minute);
}

int clock_offset_minutes(const char *zone, date_t date)
{
    return (int)(offset_at(zone, (time_t)date * CLOCK_DAY_SECONDS + CLOCK_DAY_SECONDS / 2) / 60);
}

double clock_from_solar(const char *zone, date_t date, double longitude, double equation_min)
{
    return -longitude / 15.0 - equation_min / 60.0 + clock_offset_minutes(zone, date) / 60.0;
}

/* The first second of the offset that holds at high and not at low, an instant before. */
static int64_t transition(int64_t low, int64_t high)
{
    assert(low < high);
    long after = offset_here((time_t)high);
    while (high - low > 1) {
        int64_t middle = low + (high - low) / 2;
        if (offset_here((time_t)middle) == after) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return high;
}

int clock_latest_minute(const char *zone)
{
    int minute;
    time_t now = clock_now();
    date_t today = clock_moment(zone, &minute);
    long after = offset_here(now), before = offset_here(now - CLOCK_DAY_SECONDS);
    if (after < before) { /* the last second before the change, as the clock had it */
        int64_t last = transition(now - CLOCK_DAY_SECONDS, now) - 1 + before;
        int shown = (int)(last % CLOCK_DAY_SECONDS / 60);
        minute = last / CLOCK_DAY_SECONDS == today && shown > minute ? shown : minute;
    }
    return minute;
}

/* Walks day by day over the span of the zone entered; counts the pieces, and writes
 * them where from is not NULL. */
static size_t walk(int64_t first, int64_t last, int64_t *from, int32_t *offset)
{
    assert(first <= last);
    assert((from == NULL) == (offset == NULL));
    size_t n = 0;
    int64_t before = first;
    long now_offset = offset_here((time_t)first);
    for (int64_t at = first;; at = at < last - CLOCK_DAY_SECONDS ? at + CLOCK_DAY_SECONDS : last) {
        long here = offset_here((time_t)at);
        if (n == 0 || here != now_offset) {
            if (from) {
                from[n] = n == 0 ? first : transition(before, at);
                offset[n] = (int32_t)here;
            }
            now_offset = here;
            n++;
        }
        if (at == last) {
            return n;
        }
        before = at;
    }
}

static enum err_code make_room(struct clock_zone *z, size_t n, int64_t **from, int32_t **offset, struct arena *a,
                               struct err *e)
{
    assert(n > 0);
    *from = arena_alloc(a, n, sizeof **from);
    *offset = arena_alloc(a, n, sizeof **offset);
    *z = (struct clock_zone){.n = n, .from = *from, .offset = *offset};
    return *from && *offset ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory while reading a time zone");
}

enum err_code clock_zone_load(struct clock_zone *z, const char *name, int64_t first, int64_t last, struct arena *a,
                              struct err *e)
{
    assert(name != NULL);
    int64_t *from;
    int32_t *offset;
    if (!clock_zone_known(name)) {
        return err_set(e, ERR_NOINPUT, "the time zone \"%.60s\" is not in the system's tables", name);
    }
    if (last < first || last - first > SPAN_MOST) {
        return err_set(e, ERR_BUG, "a time zone was asked for over an impossible span");
    }
    char before[LIMIT_NAME];
    snprintf(before, sizeof before, "%s", entered.zone);
    enum err_code code = clock_enter(name, e);
    code = code == ERR_OK ? make_room(z, walk(first, last, NULL, NULL), &from, &offset, a, e) : code;
    if (code == ERR_OK) {
        walk(first, last, from, offset);
        code = clock_enter(before, e);
    }
    return code;
}

enum err_code clock_zone_fixed(struct clock_zone *z, int32_t offset, struct arena *a, struct err *e)
{
    int64_t *from;
    int32_t *piece;
    enum err_code code = make_room(z, 1, &from, &piece, a, e);
    if (code == ERR_OK) {
        *piece = offset;
    }
    return code;
}

static size_t piece_at(const struct clock_zone *z, int64_t instant)
{
    assert(z->n > 0);
    size_t low = 0, high = z->n;
    while (high - low > 1) {
        size_t middle = (low + high) / 2;
        if (z->from[middle] <= instant) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

int32_t clock_zone_offset(const struct clock_zone *z, int64_t instant)
{
    return z->offset[piece_at(z, instant)];
}

date_t clock_zone_date(const struct clock_zone *z, int64_t instant)
{
    int64_t local = instant + clock_zone_offset(z, instant);
    return (date_t)((local >= 0 ? local : local - (CLOCK_DAY_SECONDS - 1)) / CLOCK_DAY_SECONDS);
}

int64_t clock_zone_midnight(const struct clock_zone *z, date_t date)
{
    int64_t local = (int64_t)date * CLOCK_DAY_SECONDS;
    size_t i = piece_at(z, local - OFFSET_MOST);
    /* through the pieces up to the one in which the date is reached, or passed over */
    while (i + 1 < z->n && local - z->offset[i] >= z->from[i + 1]) {
        i++;
    }
    int64_t midnight = local - z->offset[i];
    return i > 0 && midnight < z->from[i] ? z->from[i] : midnight;
}
