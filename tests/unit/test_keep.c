/* A worse answer never replaces a better one, and when it is time to ask.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "weather/keep.h"

#define TODAY 20420 /* 2025-11-28 */
#define DAYS 60

static struct err err;
static struct arena arena;
static char home[64], path[LIMIT_PATH];
static struct fetch_request record, forecast;
static int64_t now = 1764288000; /* 2025-11-28 00:00 UTC */

/* An invented answer. Days from first to last; those in hole (first, last) have no `bare`. */
struct made {
    date_t first, last, hole[2];
    const char *bare;
    double latitude;
};
static const struct made good = {TODAY - DAYS, TODAY - 3, {0, -1}, "", 52.2};

static void add_series(struct buf *b, const struct made *m, const char *name, double value)
{
    buf_addf(b, "\"%s\":{", name);
    for (date_t d = m->first; d <= m->last; d++) {
        struct date_parts p = date_split(d);
        bool bare = strcmp(m->bare, name) == 0 && d >= m->hole[0] && d <= m->hole[1];
        buf_addf(b, "%s\"%04d%02d%02d\":%g", d > m->first ? "," : "", p.year, p.month, p.day, bare ? -999 : value);
    }
    buf_add(b, "}");
}

/* In the layout of the reanalysis's daily point answer. */
static void make(struct buf *b, const struct made *m)
{
    buf_clear(b);
    buf_addf(b, "{\"geometry\":{\"coordinates\":[-2.7,%g,100]},\"properties\":{\"parameter\":{", m->latitude);
    add_series(b, m, "T2M_MIN", 3);
    buf_add(b, ",");
    add_series(b, m, "T2M_MAX", 12);
    buf_add(b, ",");
    add_series(b, m, "PRECTOTCORR", 1);
    buf_add(b, ",");
    add_series(b, m, "ALLSKY_SFC_SW_DWN", 4);
    buf_add(b,
            "}},\"header\":{\"fill_value\":-999},\"parameters\":{\"T2M_MIN\":{\"units\":\"C\"},\"T2M_MAX\":{\"units\":"
            "\"C\"},\"PRECTOTCORR\":{\"units\":\"mm/day\"},\"ALLSKY_SFC_SW_DWN\":{\"units\":\"MJ/m^2/day\"}}}");
}

static enum err_code keep(const struct fetch_request *r, const char *body, size_t n)
{
    struct cache_entry old;
    err_clear(&err);
    bool have = cache_read(path, r->service, &r->ask, &arena, &old, &err) == CACHE_GOOD;
    const struct answer a = {body, n, "https://example.org/", now, 0, "", ""};
    err_clear(&err);
    return keep_answer(r, path, have ? &old : NULL, &a, &arena, &err);
}

static enum err_code keep_made(const struct fetch_request *r, const struct made *m)
{
    struct buf b;
    buf_init(&b);
    make(&b, m);
    enum err_code code = keep(r, b.text, b.length);
    buf_release(&b);
    return code;
}

/* Refused with these words, and the entry is the same byte for byte. */
static void refused(const struct fetch_request *r, const struct made *m, const char *words)
{
    struct cache_entry before, after;
    enum cache_state had = cache_read(path, r->service, &r->ask, &arena, &before, &err);
    if (keep_made(r, m) != ERR_DATA || !strstr(err.what, words)) {
        print_error("%s\n", err.what);
        fail();
    }
    assert_int_equal(cache_read(path, r->service, &r->ask, &arena, &after, &err), had);
    assert_int_equal(before.size, after.size);
    assert_memory_equal(before.body, after.body, after.size);
}

static int begin(void **state)
{
    (void)state;
    snprintf(home, sizeof home, "/tmp/sugarlea_keep_XXXXXX");
    arena_init(&arena);
    if (!mkdtemp(home) || setenv("XDG_CACHE_HOME", home, 1) != 0) {
        return -1;
    }
    const struct site place = {.latitude = 52.19, .longitude = -2.71, .elevation_m = NAN};
    record = (struct fetch_request){.service = service_find("nasa-power"),
                                    .ask = {.place = place, .from = TODAY - DAYS, .to = TODAY - 1, .station = ""},
                                    .today = TODAY,
                                    .cache_days = 1};
    forecast = record;
    forecast.service = service_find("open-meteo-forecast");
    forecast.ask.from = forecast.ask.to = DATE_NONE;
    return cache_folder(path, true, &err) || cache_path(record.service, &record.ask, path, &err);
}

static int end(void **state)
{
    (void)state;
    char folder[128];
    unlink(path);
    arena_release(&arena);
    snprintf(folder, sizeof folder, "%s/sugarlea", home);
    return rmdir(folder) || rmdir(home);
}

static void test_first_answer(void **state)
{
    (void)state;
    struct made m = good;
    unlink(path);
    m.latitude = 52.19 + 0.6; /* 67 km: a degree of latitude is 111 km */
    refused(&record, &m, "another place, 67 km");
    m = good;
    m.bare = "PRECTOTCORR", m.hole[0] = 0, m.hole[1] = TODAY;
    refused(&record, &m, "no rain");
    m.bare = "T2M_MAX";
    refused(&record, &m, "no tmax");
    m = good;
    m.first -= 400, m.last -= 400;
    refused(&record, &m, "no day of those asked for");
    m = good;
    m.last = TODAY + 1;
    refused(&record, &m, "beyond what can be known");
    m = good;
    m.latitude = 52.19 + 0.5; /* 56 km */
    assert_int_equal(keep_made(&record, &m), ERR_OK);
}

static void test_bad_bytes(void **state)
{
    (void)state;
    const char *bad[] = {"", "{}", "<html></html>", "{\"properties\":{\"parameter\":{}}}", "[]", "\0\0\0"};
    assert_int_equal(keep_made(&record, &good), ERR_OK);
    for (size_t i = 0; i < 6; i++) {
        assert_int_not_equal(keep(&record, bad[i], strlen(bad[i])), ERR_OK);
        assert_true(err.what[0]);
    }
    struct cache_entry e;
    assert_int_equal(cache_read(path, record.service, &record.ask, &arena, &e, &err), CACHE_GOOD);
    assert_int_equal(e.ends, good.last);
    assert_int_equal(e.from, record.ask.from);
}

static void test_worse_record(void **state)
{
    (void)state;
    struct made m = good;
    unlink(path);
    assert_int_equal(keep_made(&record, &good), ERR_OK);
    assert_int_equal(keep_made(&record, &good), ERR_OK); /* as good */
    m.last--;
    refused(&record, &m, "ends on 2025-11-24, what is kept on 2025-11-25");
    m.last = good.last + 1;
    assert_int_equal(keep_made(&record, &m), ERR_OK); /* longer */
    m.last++;
    m.bare = "ALLSKY_SFC_SW_DWN";
    m.hole[0] = m.hole[1] = TODAY - 30;
    refused(&record, &m, "rad");
    m.bare = "T2M_MIN";
    refused(&record, &m, "tmin");
    m = good;
    m.last += 2;
    m.first += 20; /* a short answer must not throw a history away */
    refused(&record, &m, "for");
    record.ask.from += 20; /* unless nobody asks for that history any more */
    assert_int_equal(keep_made(&record, &m), ERR_OK);
    record.ask.from -= 20;
}

/* What is kept without a whole day, by whatever hand, must not keep better weather out. */
static void test_nothing_to_lose(void **state)
{
    (void)state;
    const struct fetch_request *r[] = {&record, &forecast};
    for (size_t i = 0; i < 2; i++) {
        struct made m = good;
        struct buf b;
        struct cache_entry entry = {.fetched = now, .from = m.first, .ends = DATE_NONE};
        m.last += i ? 5 : 0;
        m.bare = "T2M_MIN", m.hole[0] = 0, m.hole[1] = TODAY + 20;
        buf_init(&b);
        make(&b, &m);
        snprintf(entry.service, sizeof entry.service, "%s", r[i]->service->name);
        cache_place(r[i]->service, &r[i]->ask, entry.place);
        entry.body = b.text;
        entry.size = b.length;
        assert_int_equal(cache_write(path, &entry, &err), ERR_OK);
        buf_release(&b);
        m.bare = "";
        m.last -= 1;
        assert_int_equal(keep_made(r[i], &m), ERR_OK);
        unlink(path);
    }
}

/* A service that takes back one value in a hundred must not stop all weather for ever. */
static void test_value_taken_back(void **state)
{
    (void)state;
    struct made m = good, old = good;
    old.first = record.ask.from = TODAY - 200; /* 198 values */
    unlink(path);
    assert_int_equal(keep_made(&record, &old), ERR_OK);
    m = old;
    m.bare = "T2M_MIN";
    m.hole[0] = m.hole[1] = TODAY - 30;
    m.last = old.last + 2;
    refused(&record, &m, "tmin");
    record.today += 1, record.ask.to += 1;
    m.last = old.last + 3;
    m.hole[1] = TODAY - 29;
    refused(&record, &m, "tmin"); /* two of 198 */
    m.hole[1] = TODAY - 30;
    assert_int_equal(keep_made(&record, &m), ERR_OK);
    record.ask.from = TODAY - DAYS;
    record.today = TODAY, record.ask.to = TODAY - 1;
}

static void test_forecast(void **state)
{
    (void)state;
    struct made m = good, old = good;
    old.first = TODAY - 2, old.last = TODAY + 9;
    unlink(path);
    assert_int_equal(keep_made(&forecast, &old), ERR_OK);
    m.first = TODAY, m.last = TODAY + 8; /* a day less: the steps of a forecast shift */
    assert_int_equal(keep_made(&forecast, &m), ERR_OK);
    m.last = TODAY + 6;
    refused(&forecast, &m, "ends on");
    m.last = TODAY + 18;
    refused(&forecast, &m, "beyond what can be known");
    m.first = TODAY - 20, m.last = TODAY - 2;
    refused(&forecast, &m, "no day of those asked for");
    m.first = TODAY, m.last = TODAY + 10;
    m.bare = "PRECTOTCORR", m.hole[0] = m.hole[1] = TODAY + 3;
    refused(&forecast, &m, "rain");
    m.hole[0] = m.hole[1] = TODAY + 9; /* beyond the old one's end */
    assert_int_equal(keep_made(&forecast, &m), ERR_OK);
}

static date_t first_cached(struct weather_days *w)
{
    struct weather_set set;
    struct cache_info info;
    assert_int_equal(weather_cached(&forecast, &arena, &set, &info, &err), ERR_OK);
    *w = set.site[0].days;
    return w->day0;
}

/* A forecast has no whole today; the one of the day before has. */
static void test_forecast_of_yesterday(void **state)
{
    (void)state;
    struct made m = good;
    struct weather_days w;
    char other[LIMIT_PATH], entry[LIMIT_PATH], earlier[LIMIT_PATH];
    strcpy(other, path);
    assert_int_equal(cache_path(forecast.service, &forecast.ask, entry, &err), ERR_OK);
    strcpy(path, entry);
    keep_earlier_path(path, earlier);
    m.first = TODAY + 1, m.last = TODAY + 9;
    assert_int_equal(keep_made(&forecast, &m), ERR_OK);
    assert_int_equal(first_cached(&w), TODAY + 1);
    m.first = TODAY + 2, m.last = TODAY + 10;
    for (int asked = 0; asked < 2; asked++) { /* twice on the next day */
        now += asked == 0 ? 24 * 3600 : 6 * 3600;
        assert_int_equal(keep_made(&forecast, &m), ERR_OK);
        assert_int_equal(first_cached(&w), TODAY + 1);
        assert_int_equal(w.n, 10);
        assert_true(weather_at(&w, WEATHER_TMAX, 0) == 12);
    }
    now += 72 * 3600; /* nobody asked for three days: what lies between is not wanted */
    m.first = TODAY + 5, m.last = TODAY + 13;
    forecast.today += 4;
    assert_int_equal(keep_made(&forecast, &m), ERR_OK);
    assert_int_equal(first_cached(&w), TODAY + 5);
    forecast.today -= 4;
    now = 1764288000;
    unlink(earlier);
    unlink(path);
    strcpy(path, other);
}

static void test_due(void **state)
{
    (void)state;
    char why[FETCH_REASON];
    const int64_t hour = 3600;
    struct cache_entry old = {.fetched = now - 7 * hour, .from = record.ask.from, .ends = record.ask.to};
    assert_false(keep_early(0, now, why));
    assert_true(keep_early(now + 120, now, why));
    assert_non_null(strstr(why, "in 2 min"));
    assert_false(keep_early(now + 90000, now, why)); /* more than a day: not believed */
    assert_false(keep_due(&record, &old, now, why));
    assert_string_equal(why, "up to date");
    old.ends--; /* yesterday is missing */
    assert_true(keep_due(&record, &old, now, why));
    old.fetched = now - 5 * hour; /* the reanalysis is asked every 6 h at most */
    assert_false(keep_due(&record, &old, now, why));
    assert_non_null(strstr(why, "300 min ago"));
    old.from++; /* a longer history is wanted */
    assert_true(keep_due(&record, &old, now, why));
    old = (struct cache_entry){.fetched = now - 25 * hour, .from = record.ask.from, .ends = record.ask.to};
    assert_true(keep_due(&record, &old, now, why)); /* older than cache_days */
    old.fetched = now + hour;                       /* a clock was wrong */
    assert_true(keep_due(&record, &old, now, why));
    old.fetched = now - 2 * hour;
    assert_true(keep_due(&forecast, &old, now, why));
    old.expires = now + 600;
    assert_false(keep_due(&forecast, &old, now, why));
    assert_non_null(strstr(why, "10 min"));
    assert_true(keep_expires(now + 90 * 24 * hour, now) == now + 24 * hour);
}

static void test_cached(void **state)
{
    (void)state;
    struct weather_set set;
    struct cache_info info;
    unlink(path);
    assert_int_equal(weather_cached(&record, &arena, &set, &info, &err), ERR_NOINPUT);
    assert_true(info.state == CACHE_NONE && strstr(err.what, "--fetch"));
    assert_int_equal(keep_made(&record, &good), ERR_OK);
    assert_int_equal(weather_cached(&record, &arena, &set, &info, &err), ERR_OK);
    assert_true(info.state == CACHE_GOOD && info.fetched == 1764288000 && info.ends == good.last);
    assert_int_equal(set.n, 1);
    assert_int_equal(set.site[0].days.day0, good.first);
    assert_int_equal(truncate(path, 1000), 0);
    assert_int_equal(weather_cached(&record, &arena, &set, &info, &err), ERR_NOINPUT);
    assert_true(info.state == CACHE_DAMAGED && set.n == 0 && strstr(err.what, "damaged"));
    assert_int_equal(keep_made(&record, &good), ERR_OK); /* and is replaced */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_first_answer),    cmocka_unit_test(test_bad_bytes),
        cmocka_unit_test(test_worse_record),    cmocka_unit_test(test_value_taken_back),
        cmocka_unit_test(test_forecast),        cmocka_unit_test(test_forecast_of_yesterday),
        cmocka_unit_test(test_nothing_to_lose), cmocka_unit_test(test_due),
        cmocka_unit_test(test_cached),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
