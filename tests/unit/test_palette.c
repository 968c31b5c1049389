/* Colours: published conversions, and the order that readers rely on, also those who do
 * not see red or green. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "out/palette.h"

static void assert_close(double value, double expected, double tolerance)
{
    if (!(fabs(value - expected) <= tolerance)) {
        fail_msg("%g is not %g +- %g", value, expected, tolerance);
    }
}

/* sRGB primaries and middle grey in CIELAB, D65, as colour calculators print them (from memory). */
static void test_lab(void **state)
{
    static const struct {
        unsigned rgb;
        double l, a, b;
    } known[] = {{0xff0000, 53.24, 80.09, 67.20}, {0x00ff00, 87.73, -86.18, 83.18}, {0x0000ff, 32.30, 79.19, -107.86},
                 {0xffffff, 100.0, 0.0, 0.0},     {0x000000, 0.0, 0.0, 0.0},        {0x808080, 53.59, 0.0, 0.0}};
    (void)state;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        struct palette_lab c = palette_lab_of(known[i].rgb);
        assert_close(c.l, known[i].l, 0.02);
        assert_close(c.a, known[i].a, 0.03);
        assert_close(c.b, known[i].b, 0.03);
        assert_int_equal(palette_rgb_of(c), known[i].rgb);
    }
}

/* Even: each tenth of the ramp takes the same lightness, within what bytes can say. */
static void test_even(void **state)
{
    (void)state;
    double first = palette_lab_of(palette_ramp(0.0)).l, last = palette_lab_of(palette_ramp(1.0)).l;
    assert_true(first - last > 70.0);
    for (int i = 0; i <= 10; i++) {
        assert_close(palette_lab_of(palette_ramp(i / 10.0)).l, first + i / 10.0 * (last - first), 0.6);
    }
    assert_int_equal(palette_ramp(-1.0), palette_ramp(0.0));
    assert_int_equal(palette_ramp(2.0), palette_ramp(1.0));
}

static double linear(unsigned byte)
{
    double v = byte / 255.0;
    return v <= 0.04045 ? v / 12.92 : pow((v + 0.055) / 1.055, 2.4);
}

/* Lightness as seen through a matrix on linear RGB. */
static double seen_lightness(const double m[3][3], unsigned rgb)
{
    static const double luminance[3] = {0.2126729, 0.7151522, 0.0721750}; /* IEC 61966-2-1 */
    double in[3] = {linear(rgb >> 16 & 255u), linear(rgb >> 8 & 255u), linear(rgb & 255u)}, y = 0.0;
    for (int i = 0; i < 3; i++) {
        y += luminance[i] * fmax(0.0, m[i][0] * in[0] + m[i][1] * in[1] + m[i][2] * in[2]);
    }
    return y > 0.008856 ? 116.0 * cbrt(y) - 16.0 : 903.3 * y;
}

/* Machado, Oliveira and Fernandes 2009, protanopia and deuteranopia, severity 1 (from memory). */
static void test_colour_blind(void **state)
{
    static const double eye[][3][3] = {
        {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
        {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
    const struct palette_scale scale = palette_scale_common();
    (void)state;
    for (int e = 0; e < 2; e++) {
        for (int k = 1; k < scale.n; k++) {
            double before = seen_lightness(eye[e], palette_class_colour(&scale, k - 1));
            assert_true(before - seen_lightness(eye[e], palette_class_colour(&scale, k)) > 6.0);
        }
        for (int t = TURNOUT_TIMED; t <= TURNOUT_NONE; t++) {
            double before = seen_lightness(eye[e], palette_turnout((enum turnout)(t - 1)));
            assert_true(before - seen_lightness(eye[e], palette_turnout((enum turnout)t)) > 20.0);
        }
    }
}

static void test_classes(void **state)
{
    const struct palette_scale common = palette_scale_common();
    (void)state;
    assert_int_equal(palette_class(&common, -1.0), 0);
    assert_int_equal(palette_class(&common, 74.9), 0);
    assert_int_equal(palette_class(&common, 75.0), 1);
    assert_int_equal(palette_class(&common, 5000.0), PALETTE_CLASSES - 1);
    assert_int_equal(palette_class(&common, NAN), -1);
}

/* A scale between two values holds both in its first and last class, in round steps. */
static void test_scale_between(void **state)
{
    static const double pair[][2] = {{0, 0}, {100, 100}, {101, 144}, {12, 480}, {0, 1200}, {179.9, 180.1}};
    (void)state;
    for (size_t i = 0; i < sizeof pair / sizeof pair[0]; i++) {
        const struct palette_scale s = palette_scale_between(pair[i][0], pair[i][1]);
        assert_in_range(s.n, 1, PALETTE_CLASSES);
        assert_true(s.from[0] <= pair[i][0]);
        assert_int_equal(palette_class(&s, pair[i][0]), 0);
        assert_int_equal(palette_class(&s, pair[i][1]), s.n - 1);
        for (int k = 0; k < s.n; k++) {
            assert_close(fmod(s.from[k], 5.0), 0.0, 1e-9);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lab),     cmocka_unit_test(test_even),          cmocka_unit_test(test_colour_blind),
        cmocka_unit_test(test_classes), cmocka_unit_test(test_scale_between),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
