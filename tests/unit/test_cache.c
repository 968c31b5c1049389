/* The cache: names from outside, whole entries, damaged ones, locks.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#include <zlib.h>

#include "base/clock.h"
#include "base/file.h"
#include "weather/cache.h"
#include "weather/cache_entry.h"

static struct err err;
static struct arena arena;
static char home[64], path[LIMIT_PATH];
static const struct service_ask place = {.place = {.latitude = 52.1912, .longitude = -2.7149}, .station = ""};

static const struct cache_entry sample = {.service = "met-norway",
                                          .place = "52.19,-2.71",
                                          .url = "https://api.met.no/x?lat=52.19",
                                          .fetched = 1764000000,
                                          .expires = 1764001800,
                                          .last_modified = "Mon, 24 Nov 2025 06:00:00 GMT",
                                          .etag = "\"a:b\"",
                                          .from = DATE_NONE,
                                          .ends = 20420,
                                          .body = "one\0two\n\nthree",
                                          .size = 14};

static int make_home(void **state)
{
    (void)state;
    snprintf(home, sizeof home, "/tmp/sugarlea_cache_XXXXXX");
    arena_init(&arena);
    if (!mkdtemp(home) || setenv("XDG_CACHE_HOME", home, 1) != 0) {
        return -1;
    }
    return cache_folder(path, true, &err) == ERR_OK &&
                   cache_path(service_find("met-norway"), &place, path, &err) == ERR_OK
               ? 0
               : -1;
}

static int remove_home(void **state)
{
    (void)state;
    char command[128];
    arena_release(&arena);
    snprintf(command, sizeof command, "rm -rf %s", home);
    return system(command) == 0 ? 0 : -1; /* NOLINT: a fixed command */
}

static void test_folder(void **state)
{
    (void)state;
    char folder[LIMIT_PATH];
    struct stat s;
    assert_int_equal(cache_folder(folder, true, &err), ERR_OK);
    assert_true(strncmp(folder, home, strlen(home)) == 0 && strstr(folder, "/sugarlea"));
    assert_int_equal(stat(folder, &s), 0);
    assert_int_equal(s.st_mode & 0777, 0700);
    /* XDG Base Directory Specification: relative paths are to be ignored */
    setenv("XDG_CACHE_HOME", "relative", 1);
    setenv("HOME", "/nobody-here", 1);
    assert_int_equal(cache_folder(folder, false, &err), ERR_OK);
    assert_string_equal(folder, "/nobody-here/.cache/sugarlea");
    unsetenv("HOME");
    assert_int_equal(cache_folder(folder, false, &err), ERR_CREATE);
    setenv("XDG_CACHE_HOME", "/dev/null/below", 1);
    assert_int_equal(cache_folder(folder, true, &err), ERR_CREATE);
    setenv("XDG_CACHE_HOME", home, 1);
}

static void test_names(void **state)
{
    (void)state;
    char name[LIMIT_PATH];
    assert_string_equal(strrchr(path, '/') + 1, "met-norway_52.19,-2.71.weather");
    const struct service_ask greenwich = {.place = {.latitude = 51.5, .longitude = -0.001}, .station = ""};
    assert_int_equal(cache_path(service_find("met-norway"), &greenwich, name, &err), ERR_OK);
    assert_string_equal(strrchr(name, '/') + 1, "met-norway_51.5,0.weather");
    const struct service_ask evil = {.station = "../../etc/passwd\n.."};
    assert_int_equal(cache_path(service_find("ncei-daily"), &evil, name, &err), ERR_OK);
    assert_string_equal(strrchr(name, '/') + 1, "ncei-daily_=2e=2e=2f=2e=2e=2fetc=2fpasswd=0a=2e=2e.weather");
}

static enum cache_state read_here(struct cache_entry *e)
{
    return cache_read(path, service_find("met-norway"), &place, &arena, e, &err);
}

static void test_round_trip(void **state)
{
    (void)state;
    struct cache_entry e;
    unlink(path);
    assert_int_equal(read_here(&e), CACHE_NONE);
    assert_int_equal(cache_write(path, &sample, &err), ERR_OK);
    assert_int_equal(read_here(&e), CACHE_GOOD);
    assert_string_equal(e.service, sample.service);
    assert_string_equal(e.place, sample.place);
    assert_string_equal(e.url, sample.url);
    assert_string_equal(e.etag, sample.etag);
    assert_string_equal(e.last_modified, sample.last_modified);
    assert_true(e.fetched == sample.fetched && e.expires == sample.expires);
    assert_true(e.from == sample.from && e.ends == sample.ends);
    assert_int_equal(e.size, sample.size);
    assert_memory_equal(e.body, sample.body, sample.size);
}

/* Every single byte changed, and every shorter file, is noticed. */
static void test_damage(void **state)
{
    (void)state;
    struct buf b;
    struct cache_entry e;
    buf_init(&b);
    cache_entry_write(&sample, &b);
    assert_null(cache_entry_read(b.text, b.length, &e));
    for (size_t n = 0; n < b.length; n++) {
        assert_non_null(cache_entry_read(b.text, n, &e));
        b.text[n] = (char)(b.text[n] ^ 0x20);
        assert_non_null(cache_entry_read(b.text, b.length, &e));
        b.text[n] = (char)(b.text[n] ^ 0x20);
    }
    buf_add(&b, "x");
    assert_non_null(cache_entry_read(b.text, b.length, &e));
    assert_int_equal(file_replace(path, b.text, b.length, &err), ERR_OK);
    assert_int_equal(read_here(&e), CACHE_DAMAGED);
    assert_non_null(strstr(err.what, "damaged"));
    assert_non_null(strstr(err.what, "ignored"));
    assert_int_equal(e.size, 0);
    unlink(path);
    assert_int_equal(mkdir(path, 0700), 0);
    assert_int_equal(read_here(&e), CACHE_DAMAGED);
    assert_int_equal(rmdir(path), 0);
    buf_release(&b);
}

/* The checksum of "123456789" in the CRC catalogue (CRC-32/ISO-HDLC) is cbf43926; a file
 * with a right sum and a wrong head is still refused. */
static void test_sum(void **state)
{
    (void)state;
    struct cache_entry e;
    const char *text = "sugarlea weather cache 1 crc32 cbf43926\n123456789";
    assert_string_equal(cache_entry_read(text, strlen(text), &e), "its head cannot be read");
}

/* A whole entry, copied to where another one is looked for. */
static void test_entries_of_others(void **state)
{
    (void)state;
    struct cache_entry e, other = sample;
    snprintf(other.place, sizeof other.place, "52.19,-2.72");
    assert_int_equal(cache_write(path, &other, &err), ERR_OK);
    assert_int_equal(read_here(&e), CACHE_DAMAGED);
    assert_non_null(strstr(err.what, "it is of another service or place"));
    assert_int_equal(e.size, 0);
    other = sample;
    snprintf(other.service, sizeof other.service, "open-meteo-forecast");
    assert_int_equal(cache_write(path, &other, &err), ERR_OK);
    assert_int_equal(read_here(&e), CACHE_DAMAGED);
    assert_int_equal(cache_write(path, &sample, &err), ERR_OK);
    assert_int_equal(read_here(&e), CACHE_GOOD);
}

/* Puts a right sum before what is wrong in another way. */
static const char *read_with_sum(const char *rest, size_t n, struct cache_entry *e, struct buf *whole)
{
    buf_clear(whole);
    buf_addf(whole, CACHE_ENTRY_OPENING "%08lx\n", crc32(0L, (const unsigned char *)rest, (unsigned)n));
    buf_add_bytes(whole, rest, n);
    return cache_entry_read(whole->text, whole->length, e);
}

/* Each line of the head left out, of another name, of a value that is none, or twice. */
static void test_heads(void **state)
{
    static const char *const none[] = {NULL, NULL, NULL, "soon", "-1", NULL, NULL, "2025-02-30", "tomorrow", "many"};
    (void)state;
    struct buf b, whole;
    struct cache_entry e;
    buf_init(&b);
    buf_init(&whole);
    cache_entry_write(&sample, &b);
    const char *rest = strchr(b.text, '\n') + 1, *end = b.text + b.length, *line = rest;
    assert_null(read_with_sum(rest, (size_t)(end - rest), &e, &whole));
    for (int k = 0; k < 10; k++) {
        const char *next = strchr(line, '\n') + 1, *value = strchr(line, ':') + 2;
        char text[2048];
        for (int how = 0; how < 5; how++) {
            size_t n = (size_t)(line - rest);
            memcpy(text, rest, n);
            if (how == 1) { /* another name */
                n += (size_t)sprintf(text + n, "x%.*s", (int)(next - line), line);
            } else if (how == 2 && none[k]) {
                n += (size_t)sprintf(text + n, "%.*s%s\n", (int)(value - line), line, none[k]);
            } else if (how == 3) { /* twice */
                n += (size_t)sprintf(text + n, "%.*s%.*s", (int)(next - line), line, (int)(next - line), line);
            } else if (how == 4) { /* longer than there is room for */
                n += (size_t)sprintf(text + n, "%.*s%01200d\n", (int)(value - line), line, 1);
            }
            memcpy(text + n, next, (size_t)(end - next));
            n += (size_t)(end - next);
            const char *wrong = read_with_sum(text, n, &e, &whole);
            if (!wrong) {
                fail_msg("line %d of the head, way %d, is taken", k, how);
            }
        }
        line = next;
    }
    buf_add(&b, "x");
    rest = strchr(b.text, '\n') + 1;
    assert_string_equal(read_with_sum(rest, b.length - (size_t)(rest - b.text), &e, &whole),
                        "it is not as long as it says");
    buf_release(&b);
    buf_release(&whole);
}

static void test_left_overs(void **state)
{
    (void)state;
    char junk[2 * LIMIT_PATH], other[2 * LIMIT_PATH];
    snprintf(junk, sizeof junk, "%s.aB3xYz", path); /* as a writer leaves it that was killed */
    snprintf(other, sizeof other, "%.*s1.weather", (int)(strlen(path) - strlen(".weather")), path);
    assert_int_equal(file_replace(junk, "x", 1, &err), ERR_OK);
    assert_int_equal(cache_write(other, &sample, &err), ERR_OK);
    assert_int_equal(access(junk, F_OK), 0);
    assert_int_equal(cache_write(path, &sample, &err), ERR_OK);
    assert_int_not_equal(access(junk, F_OK), 0);
    assert_int_equal(access(other, F_OK), 0);
}

static void test_lock(void **state)
{
    (void)state;
    struct cache_lock one = {-1}, two = {-1};
    assert_int_equal(cache_lock(path, 0, &one, &err), ERR_OK);
    double start = clock_ticks();
    assert_int_equal(cache_lock(path, start + 0.2, &two, &err), ERR_AGAIN);
    assert_true(two.fd == -1 && clock_ticks() - start < 2);
    cache_set_not_before(&one, 1764000000);
    cache_unlock(&one);
    assert_int_equal(cache_lock(path, 0, &two, &err), ERR_OK);
    assert_true(cache_not_before(&two) == 1764000000);
    cache_set_not_before(&two, 7);
    assert_true(cache_not_before(&two) == 7);
    cache_set_not_before(&two, 0);
    assert_true(cache_not_before(&two) == 0);
    cache_unlock(&two);
}

/* A process that dies with the lock frees it. */
static void test_lock_of_the_dead(void **state)
{
    (void)state;
    int ready[2];
    char byte;
    assert_int_equal(pipe(ready), 0);
    pid_t child = fork();
    if (child == 0) {
        struct cache_lock lock;
        bool held = cache_lock(path, 0, &lock, NULL) == ERR_OK && write(ready[1], "x", 1) == 1;
        pause();
        _exit(held);
    }
    struct cache_lock lock;
    assert_int_equal(read(ready[0], &byte, 1), 1);
    assert_int_equal(cache_lock(path, 0, &lock, &err), ERR_AGAIN);
    kill(child, SIGKILL);
    waitpid(child, NULL, 0);
    assert_int_equal(cache_lock(path, 0, &lock, &err), ERR_OK);
    cache_unlock(&lock);
    close(ready[0]);
    close(ready[1]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_folder),
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_round_trip),
        cmocka_unit_test(test_damage),
        cmocka_unit_test(test_heads),
        cmocka_unit_test(test_sum),
        cmocka_unit_test(test_left_overs),
        cmocka_unit_test(test_lock),
        cmocka_unit_test(test_lock_of_the_dead),
        cmocka_unit_test(test_entries_of_others),
    };
    return cmocka_run_group_tests(tests, make_home, remove_home);
}
