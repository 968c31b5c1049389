/* Requests out of a holding, and fetchers that are missing, die, hang or babble.
 * The fetchers are shell scripts. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/clock.h"
#include "base/file.h"
#include "weather/fetch.h"

static struct err err;
static struct arena arena;
static char folder[64], script[128], heard[128];
static struct fetch_request request[2];
static struct fetch_outcome out[2];

static struct weather_source source_of(const char *service)
{
    struct weather_source s = {.cache_days = 1};
    snprintf(s.service, sizeof s.service, "%s", service);
    return s;
}

static const struct site place = {
    .latitude = 52.191, .longitude = -2.714, .elevation_m = 120, .timezone = "Europe/London"};

static int begin(void **state)
{
    (void)state;
    static struct weather_source s[2];
    signal(SIGPIPE, SIG_IGN);
    arena_init(&arena);
    snprintf(folder, sizeof folder, "/tmp/sugarlea_fetch_XXXXXX");
    s[0] = source_of("open-meteo-archive");
    s[1] = source_of("met-norway");
    if (!mkdtemp(folder)) {
        return -1;
    }
    snprintf(script, sizeof script, "%s/fetcher", folder);
    snprintf(heard, sizeof heard, "%s/heard", folder);
    setenv("XDG_CACHE_HOME", folder, 1);
    setenv("SUGARLEA_FETCH", script, 1);
    setenv("HEARD", heard, 1);
    return fetch_request_make(&s[0], &place, "", 20420, &arena, &request[0], &err) ||
           fetch_request_make(&s[1], &place, "", 20420, &arena, &request[1], &err);
}

static int end(void **state)
{
    (void)state;
    unlink(script);
    unlink(heard);
    arena_release(&arena);
    return rmdir(folder);
}

static enum err_code fetch_by(const char *text, double deadline_s)
{
    assert_int_equal(file_replace(script, text, strlen(text), &err), ERR_OK);
    assert_int_equal(chmod(script, 0700), 0);
    err_clear(&err);
    return weather_fetch(request, 2, deadline_s, out, &err);
}

static void test_requests(void **state)
{
    (void)state;
    struct fetch_request r;
    struct weather_source s = source_of("nasa-power");
    snprintf(s.key_file, sizeof s.key_file, "keys/one.txt");
    assert_int_equal(fetch_request_make(&s, &place, "farms/a/holding.json", 20420, &arena, &r, &err), ERR_OK);
    assert_true(r.ask.to == 20419 && r.ask.to - r.ask.from >= 400 && r.today == 20420);
    assert_string_equal(r.key_file, "farms/a/keys/one.txt");
    assert_int_equal(fetch_request_make(&s, &place, "", 20420, &arena, &r, &err), ERR_OK);
    assert_string_equal(r.key_file, "keys/one.txt");
    s = source_of("ncei-daily");
    assert_int_equal(fetch_request_make(&s, &place, "", 20420, &arena, &r, &err), ERR_CONFIG);
    assert_non_null(strstr(err.what, "add \"station\""));
    s = source_of("met-norge");
    assert_int_equal(fetch_request_make(&s, &place, "", 20420, &arena, &r, &err), ERR_CONFIG);
    assert_non_null(strstr(err.what, "met-norway"));
    struct site nowhere = place;
    nowhere.longitude = NAN;
    s = source_of("met-norway");
    assert_int_equal(fetch_request_make(&s, &nowhere, "", 20420, &arena, &r, &err), ERR_NOINPUT);
}

static void test_good_fetcher(void **state)
{
    (void)state;
    struct file_view view;
    const char *text = "#!/bin/sh\ncat >\"$HEARD\"\necho \"$*\" >>\"$HEARD\"\n"
                       "echo '{\"i\":1,\"result\":\"kept-old\",\"reason\":\"why \\\"so\\\"\"}'\n"
                       "echo '{\"i\":0,\"result\":\"fresh\",\"reason\":\"\"}'\n";
    assert_int_equal(fetch_by(text, 3), ERR_OK);
    assert_int_equal(out[0].result, FETCH_FRESH);
    assert_int_equal(out[1].result, FETCH_KEPT_OLD);
    assert_string_equal(out[1].reason, "why \"so\"");
    assert_int_equal(file_view(heard, 10000, &view, &err), ERR_OK);
    char *words = arena_strndup(&arena, view.data, view.size);
    file_unview(&view);
    assert_non_null(
        strstr(words, "\"latitude\":52.19,\"longitude\":-2.71,\"elevation\":120,\"timezone\":\"Europe/London\""));
    assert_non_null(strstr(words, "\"service\":\"met-norway\""));
    assert_non_null(strstr(words, "--deadline 3.000"));
    assert_null(strstr(words, "52.191")); /* the place leaves us rounded */
}

static void test_missing_fetcher(void **state)
{
    (void)state;
    unlink(script);
    assert_int_equal(weather_fetch(request, 2, 1, out, &err), ERR_NOINPUT);
    assert_int_equal(out[0].result, FETCH_FAILED);
    unsetenv("SUGARLEA_FETCH"); /* neither beside this test nor as installed */
    err_clear(&err);
    assert_int_equal(weather_fetch(request, 2, 1, out, &err), ERR_NOINPUT);
    assert_non_null(strstr(err.what, "sugarlea-fetch is missing"));
    assert_non_null(strstr(out[1].reason, "still used"));
    setenv("SUGARLEA_FETCH", script, 1);
}

static void test_bad_fetchers(void **state)
{
    (void)state;
    static const char *const bad[] = {
        "#!/bin/sh\nexit 3\n",
        "#!/bin/sh\nkill -9 $$\n",
        "#!/bin/sh\nexec <&-\nsleep 0.2\n",
        "#!/bin/sh\ncat >/dev/null\necho '{\"i\":0,\"result\":\"fresh\",\"reason\":\"\"}'\n",
        "#!/bin/sh\ncat >/dev/null\necho '{\"i\":-1,\"result\":\"fresh\",\"reason\":\"\"}'\necho '{\"i\":2}'\n",
        "#!/bin/sh\ncat >/dev/null\necho rubbish\necho '{\"i\":1,'\n",
        "#!/bin/nothing-here\n",
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        assert_int_equal(fetch_by(bad[i], 1), ERR_BUG);
        assert_int_equal(out[1].result, FETCH_FAILED);
        assert_true(out[1].reason[0] && err.what[0]);
    }
}

static void test_babbling_fetcher(void **state)
{
    (void)state;
    double start = clock_ticks();
    assert_int_equal(fetch_by("#!/bin/sh\nexec yes\n", 1), ERR_NETWORK);
    assert_true(clock_ticks() - start < 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_requests),         cmocka_unit_test(test_good_fetcher),
        cmocka_unit_test(test_missing_fetcher),  cmocka_unit_test(test_bad_fetchers),
        cmocka_unit_test(test_babbling_fetcher),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
