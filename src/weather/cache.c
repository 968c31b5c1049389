/* The folder of the cache, its entries and their locks. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/cache.h"

#include "base/clock.h"
#include "base/file.h"
#include "base/num.h"
#include "weather/cache_entry.h"

#include <ctype.h>
#include <errno.h>
#include <fcntl.h>
#include <glob.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define FILE_MOST (CACHE_BODY_MOST + (64u << 10)) /* the body and its head */
#define LOCK_STEP_NS 50000000                     /* between two tries */
#define TEMPORARY ".??????"                       /* what file_replace adds to a name while it writes */

/* Makes the folder and those above it. */
static enum err_code make_folder(char *path, struct err *e)
{
    for (char *slash = strchr(path + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        mkdir(path, 0700); /* the last one tells whether it went well */
        *slash = '/';
    }
    if (mkdir(path, 0700) != 0 && errno != EEXIST) {
        err_set(e, ERR_CREATE, "cannot be made: %s", strerror(errno));
        return err_at(e, path, 0, 0, NULL);
    }
    return ERR_OK;
}

enum err_code cache_folder(char *path, bool make, struct err *e)
{
    /* Relative values are to be ignored (XDG Base Directory Specification). */
    const char *set = getenv("XDG_CACHE_HOME"), *home = getenv("HOME");
    bool xdg = set && set[0] == '/';
    if (!xdg && !(home && home[0] == '/')) {
        return err_set(e, ERR_CREATE, "no folder to keep weather in: set HOME or XDG_CACHE_HOME");
    }
    /* Room is left for the name of an entry and a temporary one. */
    int n = snprintf(path, LIMIT_PATH, "%s%s/sugarlea", xdg ? set : home, xdg ? "" : "/.cache");
    if (n >= LIMIT_PATH - 256) {
        return err_set(e, ERR_CREATE, "the name of the folder to keep weather in is too long");
    }
    return make ? make_folder(path, e) : ERR_OK;
}

void cache_place(const struct service *s, const struct service_ask *ask, char place[LIMIT_NAME])
{
    if (s->station) {
        snprintf(place, LIMIT_NAME, "%s", ask->station ? ask->station : "");
    } else { /* added to 0, for no place is at -0 */
        snprintf(place, LIMIT_NAME, "%.10g,%.10g", 0.0 + service_round(ask->place.latitude),
                 0.0 + service_round(ask->place.longitude));
    }
}

enum err_code cache_path(const struct service *s, const struct service_ask *ask, char path[LIMIT_PATH], struct err *e)
{
    char place[LIMIT_NAME];
    enum err_code code = cache_folder(path, false, e);
    if (code != ERR_OK) {
        return code;
    }
    cache_place(s, ask, place);
    size_t used = strlen(path);
    used += (size_t)snprintf(path + used, LIMIT_PATH - used, "/%s_", s->name);
    for (const unsigned char *c = (const unsigned char *)place; *c; c++) {
        bool plain = isalnum(*c) || (!s->station && strchr(".,-", *c));
        used += (size_t)snprintf(path + used, LIMIT_PATH - used, plain ? "%c" : "=%02x", *c);
    }
    /* An ending of its own keeps temporary names apart from those of other places. */
    snprintf(path + used, LIMIT_PATH - used, ".weather");
    return ERR_OK;
}

static enum cache_state damaged(const char *path, const char *why, struct cache_entry *entry, struct err *e)
{
    *entry = (struct cache_entry){.body = "", .from = DATE_NONE, .ends = DATE_NONE};
    err_set(e, ERR_DATA, "kept weather is damaged (%s) and ignored; it is fetched anew", why);
    err_at(e, path, 0, 0, NULL);
    return CACHE_DAMAGED;
}

/* Stations are named without regard to case, as in the answers of services. */
static bool is_of(const struct cache_entry *entry, const struct service *s, const struct service_ask *ask)
{
    char place[LIMIT_NAME];
    cache_place(s, ask, place);
    return strcmp(entry->service, s->name) == 0 && strcasecmp(entry->place, place) == 0;
}

enum cache_state cache_read(const char *path, const struct service *s, const struct service_ask *ask, struct arena *a,
                            struct cache_entry *entry, struct err *e)
{
    struct file_view view;
    *entry = (struct cache_entry){.body = "", .from = DATE_NONE, .ends = DATE_NONE};
    if (access(path, F_OK) != 0 && errno == ENOENT) {
        return CACHE_NONE;
    }
    struct err why;
    err_clear(&why);
    if (file_view(path, FILE_MOST, &view, &why) != ERR_OK) {
        return damaged(path, why.what, entry, e);
    }
    const char *fault = cache_entry_read(view.data, view.size, entry);
    if (!fault && !is_of(entry, s, ask)) {
        fault = "it is of another service or place";
    }
    if (!fault) {
        char *body = arena_alloc(a, entry->size, 1);
        if (body) {
            memcpy(body, entry->body, entry->size);
        }
        entry->body = body;
        fault = body ? NULL : "out of memory";
    }
    file_unview(&view);
    return fault ? damaged(path, fault, entry, e) : CACHE_GOOD;
}

/* Of the path, with what file_replace adds. */
static void remove_left_overs(const char *path)
{
    char pattern[2 * LIMIT_PATH + sizeof TEMPORARY];
    glob_t found;
    size_t n = file_as_pattern(path, pattern, 2 * LIMIT_PATH);
    memcpy(pattern + n, TEMPORARY, sizeof TEMPORARY);
    if (glob(pattern, GLOB_NOSORT, NULL, &found) == 0) {
        for (size_t i = 0; i < found.gl_pathc; i++) {
            unlink(found.gl_pathv[i]);
        }
        globfree(&found);
    }
}

enum err_code cache_write(const char *path, const struct cache_entry *entry, struct err *e)
{
    struct buf b;
    buf_init(&b);
    cache_entry_write(entry, &b);
    remove_left_overs(path);
    enum err_code code = b.failed ? err_set(e, ERR_NOMEM, "out of memory while keeping weather")
                                  : file_replace(path, b.text, b.length, e);
    buf_release(&b);
    return code;
}

enum err_code cache_lock(const char *path, double until, struct cache_lock *lock, struct err *e)
{
    char name[LIMIT_PATH];
    snprintf(name, sizeof name, "%s.lock", path);
    lock->fd = open(name, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (lock->fd < 0) {
        err_set(e, ERR_CREATE, "cannot be opened: %s", strerror(errno));
        return err_at(e, name, 0, 0, NULL);
    }
    while (flock(lock->fd, LOCK_EX | LOCK_NB) != 0) {
        if (clock_ticks() >= until || (errno != EWOULDBLOCK && errno != EINTR)) {
            cache_unlock(lock);
            return err_set(e, ERR_AGAIN, "another run is fetching the same weather; try again");
        }
        nanosleep(&(struct timespec){.tv_nsec = LOCK_STEP_NS}, NULL);
    }
    return ERR_OK;
}

void cache_unlock(struct cache_lock *lock)
{
    if (lock->fd >= 0) {
        close(lock->fd);
    }
    lock->fd = -1;
}

int64_t cache_not_before(const struct cache_lock *lock)
{
    char text[32];
    long when;
    ssize_t n = pread(lock->fd, text, sizeof text, 0);
    return n > 0 && num_parse_long(text, (size_t)n, 0, INT64_MAX, &when) ? when : 0;
}

/* Need not be durable: a lost or torn time costs one question too many at worst. */
void cache_set_not_before(const struct cache_lock *lock, int64_t when)
{
    char text[32];
    int n = when > 0 ? snprintf(text, sizeof text, "%" PRId64, when) : 0;
    if (pwrite(lock->fd, text, (size_t)n, 0) != n || ftruncate(lock->fd, n) != 0) {
        return; /* the next run asks, as it would without this */
    }
}
