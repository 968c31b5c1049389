/* Services: addresses as their documentation has them, keys that never show.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "data/weather_days.h"
#include "weather/service.h"

static struct err err;
static struct buf url;

static const struct service_ask herefordshire = {
    .place = {.latitude = 52.1912, .longitude = -2.7149, .elevation_m = 120.4},
    .from = 20000, /* 2024-10-04, computed with date(1) */
    .to = 20010,
    .station = "USW00093820"};

static const char *ask(const char *name, const struct service_ask *a, const char *key)
{
    const struct service *s = service_find(name);
    assert_non_null(s);
    buf_release(&url);
    service_url(s, a, service_base(s, NULL), key, &url);
    assert_false(url.failed);
    return url.text;
}

static void test_table(void **state)
{
    (void)state;
    for (size_t i = 0; i < service_count; i++) {
        const struct service *s = &services[i];
        assert_ptr_equal(service_find(s->name), s);
        assert_int_equal(strspn(s->name, "abcdefghijklmnopqrstuvwxyz-"), strlen(s->name));
        assert_memory_equal(s->base, "https://", 8);
        assert_true(s->min_age_h >= 0.5 && s->licence[0] && s->credit[0] && s->limits[0]);
        assert_true(s->needs & 1u << WEATHER_TMIN && s->needs & 1u << WEATHER_TMAX);
        assert_true(s->station || strstr(s->path, "{lat}"));
        assert_true(!s->then || strstr(s->then, "{grid}"));
    }
    assert_null(service_find("nasa"));
}

/* Parameters, their names and date forms: the services' documentation. */
static void test_addresses(void **state)
{
    (void)state;
    assert_string_equal(ask("nasa-power", &herefordshire, NULL),
                        "https://power.larc.nasa.gov/api/temporal/daily/"
                        "point?parameters=T2M_MAX%2CT2M_MIN%2CPRECTOTCORR%2CALLSKY_SFC_SW_DWN%2CRH2M%2CWS2M%2CT2MDEW&"
                        "community=ag&start=20241004&end=20241014&longitude=-2.71&latitude=52.19&format=json&"
                        "time-standard=LST");
    assert_non_null(strstr(ask("open-meteo-archive", &herefordshire, NULL),
                           "latitude=52.19&longitude=-2.71&elevation=120&start_date=2024-10-04&end_date=2024-10-14&"));
    assert_non_null(strstr(ask("open-meteo-forecast", &herefordshire, NULL), "&current=temperature_2m&"));
    assert_string_equal(ask("met-norway", &herefordshire, NULL),
                        "https://api.met.no/weatherapi/locationforecast/2.0/complete?lat=52.19&lon=-2.71&altitude=120");
    assert_string_equal(ask("us-nws", &herefordshire, NULL), "https://api.weather.gov/points/52.19,-2.71");
    assert_non_null(strstr(ask("ncei-daily", &herefordshire, NULL), "&stations=USW00093820&startDate=2024-10-04&"));
    struct service_ask a = herefordshire;
    a.grid = "TAE/58,65";
    assert_string_equal(ask("us-nws", &a, NULL), "https://api.weather.gov/gridpoints/TAE/58,65");
}

static void test_edges_of_an_address(void **state)
{
    (void)state;
    struct service_ask a = {.place = {.latitude = -0.001, .longitude = -179.999, .elevation_m = __builtin_nan("")},
                            .from = 0,
                            .to = 1,
                            .station = "../x?&="};
    assert_string_equal(ask("met-norway", &a, NULL),
                        "https://api.met.no/weatherapi/locationforecast/2.0/complete?lat=0&lon=-180");
    a.grid = "A B/1,2&x=/../";
    assert_string_equal(ask("us-nws", &a, NULL), "https://api.weather.gov/gridpoints/A%20B/1,2%26x%3D/../");
    assert_non_null(strstr(ask("ncei-daily", &a, NULL), "&stations=..%2Fx%3F%26%3D&"));
}

static void test_base(void **state)
{
    (void)state;
    const struct service *s = service_find("open-meteo-forecast");
    assert_string_equal(service_base(s, ""), "https://api.open-meteo.com");
    assert_string_equal(service_base(s, "https://mirror.example"), "https://mirror.example");
    setenv("SUGARLEA_URL_OPEN_METEO_FORECAST", "https://other.example/", 1);
    assert_string_equal(service_base(s, "https://mirror.example"), "https://other.example/");
    buf_release(&url);
    service_url(s, &herefordshire, service_base(s, NULL), "", &url);
    assert_memory_equal(url.text, "https://other.example/v1/forecast?", 34);
    unsetenv("SUGARLEA_URL_OPEN_METEO_FORECAST");
}

static void test_keys(void **state)
{
    (void)state;
    const struct service *s = service_find("open-meteo-archive");
    char key[SERVICE_KEY], path[] = "/tmp/sugarlea_key_XXXXXX";
    int fd = mkstemp(path);
    assert_true(fd >= 0 && write(fd, "abcd-1234_efgh\r\nsecond line\n", 28) == 28);
    assert_int_equal(service_key(s, NULL, key, &err), ERR_OK);
    assert_string_equal(key, "");
    assert_int_equal(service_key(s, path, key, &err), ERR_OK);
    assert_string_equal(key, "abcd-1234_efgh");
    assert_non_null(strstr(ask("open-meteo-archive", &herefordshire, key), "&apikey=abcd-1234_efgh"));
    assert_null(strstr(ask("open-meteo-archive", &herefordshire, NULL), "apikey"));
    assert_null(strstr(ask("nasa-power", &herefordshire, key), key)); /* takes none */
    setenv("SUGARLEA_KEY_OPEN_METEO_ARCHIVE", "from-the-environment", 1);
    assert_int_equal(service_key(s, path, key, &err), ERR_OK);
    assert_string_equal(key, "from-the-environment");
    const char *bad[] = {"short", "line\nbreak-in-it", "a key with blanks", "key&more=1234"};
    for (size_t i = 0; i < 4; i++) {
        setenv("SUGARLEA_KEY_OPEN_METEO_ARCHIVE", bad[i], 1);
        assert_int_equal(service_key(s, path, key, &err), ERR_CONFIG);
        assert_non_null(strstr(err.what, "SUGARLEA_KEY_OPEN_METEO_ARCHIVE"));
        assert_null(strstr(err.what, bad[i]));
    }
    unsetenv("SUGARLEA_KEY_OPEN_METEO_ARCHIVE");
    assert_int_equal(ftruncate(fd, 3), 0);
    assert_int_equal(service_key(s, path, key, &err), ERR_CONFIG);
    unlink(path);
    assert_int_equal(service_key(s, path, key, &err), ERR_NOINPUT);
    close(fd);
}

static void test_hidden_key(void **state)
{
    (void)state;
    char text[] = "a=secret99&b=secret99 secret9";
    service_hide_key(text, strlen(text), "secret99");
    assert_string_equal(text, "a=********&b=******** secret9");
    service_hide_key(text, strlen(text), "");
    assert_string_equal(text, "a=********&b=******** secret9");
}

static void test_unknown_name(void **state)
{
    (void)state;
    assert_int_equal(service_unknown("open-meteo-forcast", &err), ERR_CONFIG);
    assert_non_null(strstr(err.what, "did you mean \"open-meteo-forecast\"?"));
    for (size_t i = 0; i < service_count; i++) {
        assert_non_null(strstr(err.what, services[i].name));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table),
        cmocka_unit_test(test_addresses),
        cmocka_unit_test(test_edges_of_an_address),
        cmocka_unit_test(test_base),
        cmocka_unit_test(test_keys),
        cmocka_unit_test(test_hidden_key),
        cmocka_unit_test(test_unknown_name),
    };
    buf_init(&url);
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    buf_release(&url);
    return failed;
}
