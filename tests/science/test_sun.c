/* The Julian-date sun against an ephemeris and against the NREL solar position
 * algorithm. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "physics/sun.h"
#include "support/physics_rows.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

/* 2025, longitude 0, UTC. Computed by us with PyEphem 4.1.4 (libastro, VSOP87-based);
 * its sunrise and sunset agree with NREL SPA's Table A2.1 within 1.2 s. Day lengths in
 * h: centre at -0 deg 50 min, 0 and -6 deg (24: the sun is never that low);
 * declination of date at solar noon, degrees. */
static const struct reference {
    double latitude;
    int month, day;
    const char *rise, *noon, *set;
    double almanac, geometric, civil, declination;
} ephemeris[] = {
    {65, 1, 21, "09:20:51", "12:11:21", "15:02:37", 5.6962, 5.2712, 7.9264, -19.7800},
    {65, 3, 21, "05:56:19", "12:07:04", "18:19:33", 12.3873, 12.1242, 14.0376, 0.4458},
    {65, 5, 21, "02:13:47", "11:56:36", "21:42:16", 19.4748, 18.9948, 24, 20.2928},
    {65, 7, 21, "02:19:37", "12:06:28", "21:50:28", 19.5143, 19.0307, 24, 20.3605},
    {65, 9, 21, "05:40:07", "11:52:59", "18:04:09", 12.4005, 12.1374, 14.0513, 0.4935},
    {65, 11, 21, "08:58:11", "11:45:55", "14:32:55", 5.5788, 5.1452, 7.8375, -20.0253},
    {57, 1, 21, "08:18:24", "12:11:21", "16:04:53", 7.7747, 7.5171, 9.2709, -19.7800},
    {57, 3, 21, "05:58:55", "12:07:04", "18:16:28", 12.2925, 12.0884, 13.5654, 0.4458},
    {57, 5, 21, "03:30:21", "11:56:36", "20:24:05", 16.8956, 16.6277, 18.7620, 20.2928},
    {57, 7, 21, "03:38:24", "12:06:28", "20:33:18", 16.9151, 16.6467, 18.7878, 20.3605},
    {57, 9, 21, "05:43:19", "11:52:59", "18:01:26", 12.3018, 12.0978, 13.5749, 0.4935},
    {57, 11, 21, "07:54:24", "11:45:55", "15:36:52", 7.7079, 7.4484, 9.2125, -20.0253},
    {51.5, 1, 21, "07:52:45", "12:11:21", "16:30:27", 8.6283, 8.4171, 9.8836, -19.7800},
    {51.5, 3, 21, "06:00:04", "12:07:04", "18:15:04", 12.2502, 12.0717, 13.3615, 0.4458},
    {51.5, 5, 21, "03:59:44", "11:56:36", "19:54:20", 15.9102, 15.6936, 17.3444, 20.2928},
    {51.5, 7, 21, "04:08:17", "12:06:28", "20:03:46", 15.9248, 15.7079, 17.3617, 20.3605},
    {51.5, 9, 21, "05:44:46", "11:52:59", "18:00:13", 12.2577, 12.0792, 13.3691, 0.4935},
    {51.5, 11, 21, "07:28:22", "11:45:55", "16:02:59", 8.5770, 8.3647, 9.8373, -20.0253},
    {44, 1, 21, "07:27:34", "12:11:21", "16:55:32", 9.4661, 9.2917, 10.5189, -19.7800},
    {44, 3, 21, "06:01:11", "12:07:04", "18:13:43", 12.2089, 12.0545, 13.1689, 0.4458},
    {44, 5, 21, "04:27:54", "11:56:36", "19:25:54", 14.9668, 14.7897, 16.1066, 20.2928},
    {44, 7, 21, "04:36:51", "12:06:28", "19:35:29", 14.9773, 14.8000, 16.1184, 20.3605},
    {44, 9, 21, "05:46:10", "11:52:59", "17:59:03", 12.2146, 12.0601, 13.1747, 0.4935},
    {44, 11, 21, "07:02:52", "11:45:55", "16:28:35", 9.4284, 9.2535, 10.4842, -20.0253},
    {35, 1, 21, "07:05:21", "12:11:21", "17:17:40", 10.2054, 10.0568, 11.1119, -19.7800},
    {35, 3, 21, "06:02:07", "12:07:04", "18:12:34", 12.1744, 12.0387, 13.0164, 0.4458},
    {35, 5, 21, "04:52:16", "11:56:36", "19:01:20", 14.1511, 14.0010, 15.1021, 20.2928},
    {35, 7, 21, "05:01:31", "12:06:28", "19:11:01", 14.1584, 14.0082, 15.1102, 20.3605},
    {35, 9, 21, "05:47:22", "11:52:59", "17:58:04", 12.1784, 12.0427, 13.0204, 0.4935},
    {35, 11, 21, "06:40:24", "11:45:55", "16:51:08", 10.1789, 10.0299, 11.0873, -20.0253},
    {-38, 1, 21, "05:01:04", "12:11:21", "19:21:08", 14.3346, 14.1780, 15.3300, -19.7800},
    {-38, 3, 21, "06:04:00", "12:07:04", "18:09:30", 12.0916, 11.9507, 12.9665, 0.4458},
    {-38, 5, 21, "06:58:55", "11:56:36", "16:53:59", 9.9177, 9.7611, 10.8694, 20.2928},
    {-38, 7, 21, "07:09:20", "12:06:28", "17:03:53", 9.9093, 9.7526, 10.8616, 20.3605},
    {-38, 9, 21, "05:50:43", "11:52:59", "17:55:53", 12.0862, 11.9453, 12.9610, 0.4935},
    {-38, 11, 21, "04:35:13", "11:45:55", "18:57:07", 14.3650, 14.2079, 15.3636, -20.0253},
};
#define ROWS (sizeof ephemeris / sizeof ephemeris[0])

static double clock_h(const char *text)
{
    int h = 0, m = 0;
    double s = 0;
    assert_int_equal(sscanf(text, "%d:%d:%lf", &h, &m, &s), 3);
    return h + m / 60.0 + s / 3600;
}

static double utc_h(const struct sun_day *s, double solar, double longitude)
{
    return solar - s->equation_min / 60 - longitude / 15;
}

static void day_lengths_within_half_a_minute(void **state)
{
    (void)state;
    double worst = 0;
    for (size_t i = 0; i < ROWS; i++) {
        const struct reference *r = &ephemeris[i];
        date_t date = date_make(2025, r->month, r->day);
        double lengths[] = {r->almanac, r->geometric, r->civil};
        double altitudes[] = {SUN_ALMANAC, SUN_GEOMETRIC, SUN_CIVIL};
        for (int k = 0; k < 3; k++) {
            double n = sun_of_day(date, r->latitude, 0, altitudes[k]).day_length_h;
            physics_near("day length, h", n, lengths[k], 0.5 / 60);
            struct sun_place place = sun_place_of(r->latitude, 0, altitudes[k]);
            assert_true(n == sun_day_length(date, &place));
            worst = fmax(worst, fabs(n - lengths[k]) * 60);
        }
    }
    printf("# day length, worst of %zu: %.2f min\n", 3 * ROWS, worst);
}

static void rise_and_set_within_half_a_minute(void **state)
{
    (void)state;
    double worst = 0;
    for (size_t i = 0; i < ROWS; i++) {
        const struct reference *r = &ephemeris[i];
        struct sun_day s = sun_of_day(date_make(2025, r->month, r->day), r->latitude, 0, SUN_ALMANAC);
        double got[] = {utc_h(&s, s.sunrise_h, 0), utc_h(&s, 12, 0), utc_h(&s, s.sunset_h, 0)};
        const char *expected[] = {r->rise, r->noon, r->set};
        for (int k = 0; k < 3; k++) {
            physics_near("sunrise, noon, sunset, h UTC", got[k], clock_h(expected[k]), 0.5 / 60);
            worst = fmax(worst, fabs(got[k] - clock_h(expected[k])) * 60);
        }
        physics_near("declination", s.declination / NUM_RADIANS, r->declination, 0.0035);
        physics_near("length is set - rise", s.sunset_h - s.sunrise_h, s.day_length_h, 1e-12);
    }
    printf("# sunrise, noon and sunset, worst of %zu: %.2f min\n", 3 * ROWS, worst);
}

/* Zenith (degrees, no refraction) and azimuth east of north at an instant. */
static void place_of_sun(date_t date, double utc, double latitude, double longitude, double *zenith, double *azimuth)
{
    struct sun_position p = sun_position(date - date_make(2000, 1, 1) + (utc - 12) / 24);
    double hour = (utc + longitude / 15 + p.equation_min / 60 - 12) * 15 * NUM_RADIANS, phi = latitude * NUM_RADIANS;
    *zenith = acos(sin(phi) * sin(p.declination) + cos(phi) * cos(p.declination) * cos(hour)) / NUM_RADIANS;
    double east = sin(hour), north = cos(hour) * sin(phi) - tan(p.declination) * cos(phi);
    *azimuth = fmod(atan2(east, north) / NUM_RADIANS + 180, 360);
}

/* Reda & Andreas, NREL/TP-560-34302, worked example: 17 October 2003 12:30:30 UTC-7. */
static void solar_position_example(void **state)
{
    (void)state;
    date_t date = date_make(2003, 10, 17);
    double zenith, azimuth, lat = 39.742476, lon = -105.1786;
    place_of_sun(date, 19 + 30 / 60.0 + 30 / 3600.0, lat, lon, &zenith, &azimuth);
    physics_near("zenith without refraction", zenith, 50.127954, 0.02);
    physics_near("azimuth", azimuth, 194.340241, 0.02);
    struct sun_day s = sun_of_day(date, lat, lon, SUN_ALMANAC);
    physics_near("sunrise", utc_h(&s, s.sunrise_h, lon) - 7, clock_h("6:12:43"), 0.5 / 60);
    /* The example's sunset is that of the UT day: 17 October 00:20 UT, the evening of the 16th at the place. */
    s = sun_of_day(date - 1, lat, lon, SUN_ALMANAC);
    physics_near("sunset of the evening before", utc_h(&s, s.sunset_h, lon) - 7, clock_h("17:20:19"), 0.5 / 60);
}

/* Reda & Andreas, Table A2.1: Greenwich, UT. */
static void solar_position_table(void **state)
{
    (void)state;
    static const struct {
        int year, month, day;
        double latitude;
        const char *rise, *set;
    } table[] = {{1994, 1, 2, 35, "7:08:12.8", "16:59:55.9"},
                 {1996, 7, 5, -35, "7:08:15.4", "17:01:04.5"},
                 {2004, 12, 4, -35, "4:38:57.1", "19:02:02.5"}};
    for (int i = 0; i < 3; i++) {
        struct sun_day s =
            sun_of_day(date_make(table[i].year, table[i].month, table[i].day), table[i].latitude, 0, SUN_ALMANAC);
        physics_near("sunrise", utc_h(&s, s.sunrise_h, 0), clock_h(table[i].rise), 0.5 / 60);
        physics_near("sunset", utc_h(&s, s.sunset_h, 0), clock_h(table[i].set), 0.5 / 60);
    }
}

/* Beyond the circle: at 70 N the upper limb touches the horizon at midnight when the
 * declination passes 90 - 70 - 0.8333, at noon when it passes -(90 - 70 + 0.8333). Both
 * dates are read off the declination at Greenwich noon; the flag may differ by a day. */
static void polar_flags_right_within_a_day(void **state)
{
    (void)state;
    for (int year = 1990; year <= 2040; year += 5) {
        date_t first = date_make(year, 1, 1);
        for (date_t d = first; d < first + 365; d++) {
            struct sun_day s = sun_of_day(d, 70, 0, SUN_ALMANAC);
            double before = sun_position(d - 1 - date_make(2000, 1, 1)).declination / NUM_RADIANS;
            double after = sun_position(d + 1 - date_make(2000, 1, 1)).declination / NUM_RADIANS;
            double low = fmin(before, after), high = fmax(before, after);
            assert_true(s.day_length_h < 24 || high > 90 - 70 - 0.8333);
            assert_true(s.day_length_h == 24 || low < 90 - 70 - 0.8333);
            assert_true(s.day_length_h > 0 || low < -(90 - 70 + 0.8333));
            assert_true(s.day_length_h == 0 || high > -(90 - 70 + 0.8333));
        }
    }
}

/* Tromso, 69.65 N 18.96 E: midnight sun from about 18 May to 26 July (70 days), polar night from about 26 November
 * to 15 January (51 days); general encyclopaedias, from memory, so +- 2 days at either end. */
static void polar_seasons_at_tromso(void **state)
{
    (void)state;
    int night = 0, day = 0;
    for (date_t d = date_make(2025, 1, 1); d < date_make(2026, 1, 1); d++) {
        struct sun_day s = sun_of_day(d, 69.65, 18.96, SUN_ALMANAC);
        night += s.day_length_h == 0;
        day += s.day_length_h == 24;
        assert_true(s.day_length_h > 0 || (s.sunrise_h == 12 && s.sunset_h == 12));
        assert_true(s.day_length_h < 24 || (s.sunrise_h == 0 && s.sunset_h == 24));
        assert_true(s.sunrise_h >= 0 && s.sunrise_h <= s.sunset_h && s.sunset_h <= 24);
    }
    physics_near("days of midnight sun", day, 70, 4);
    physics_near("days of polar night", night, 51, 4);
}

static void the_whole_globe_gives_numbers(void **state)
{
    (void)state;
    for (double lat = -90; lat <= 90; lat += 2.5) {
        for (int d = 0; d < 366; d++) {
            struct sun_day s = sun_of_day(date_make(2024, 1, 1) + d, lat, 170, SUN_GEOMETRIC);
            assert_true(s.day_length_h >= 0 && s.day_length_h <= 24);
            assert_true(s.sunrise_h >= 0 && s.sunrise_h <= s.sunset_h && s.sunset_h <= 24);
            assert_true(fabs(s.equation_min) < 17);
            struct sun_day other = sun_of_day(date_make(2024, 1, 1) + d, -lat, 170, SUN_GEOMETRIC);
            physics_near("north and south", s.day_length_h + other.day_length_h, 24, 1e-9);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(day_lengths_within_half_a_minute), cmocka_unit_test(rise_and_set_within_half_a_minute),
        cmocka_unit_test(solar_position_example),           cmocka_unit_test(solar_position_table),
        cmocka_unit_test(polar_flags_right_within_a_day),   cmocka_unit_test(polar_seasons_at_tromso),
        cmocka_unit_test(the_whole_globe_gives_numbers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
