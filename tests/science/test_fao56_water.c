/* Worked examples 31, 37 and 38 of FAO-56 (Allen, Pereira, Raes & Smith 1998): soil
 * drying and the root zone. Of example 38 only what its errata sheet does not touch.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/soil.h"
#include "support/physics_rows.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

struct stressed {
    double ks, et, dr;
};

struct bare {
    double de[10], etc[10];
};

/* Ten days without rain: TEW 20, REW 9 mm, Kcb 0.15, Kc max 1.20, ETo 4.5 mm/d; Kr from
 * the depletion at the start of the day. */
static struct bare bare_drying(void)
{
    struct bare b;
    double de = 0;
    for (int i = 0; i < 10; i++) {
        double ke = soil_evaporation_factor(de, 20, 9) * (1.20 - 0.15);
        de += ke * 4.5;
        b.de[i] = de;
        b.etc[i] = (0.15 + ke) * 4.5;
    }
    return b;
}

static void example_31(void **state)
{
    (void)state;
    struct bare b = bare_drying();
    const struct physics_row rows[] = {
        {"De end of day 1 mm", 4.73, 4.725, 0.005, b.de[0]},     {"ETc day 1 mm/d", 5.4, 5.4, 0.05, b.etc[0]},
        {"De end of day 2 mm", 9.45, 9.45, 0.005, b.de[1]},      {"ETc day 2 mm/d", 5.4, 5.4, 0.05, b.etc[1]},
        {"De end of day 3 mm", 13.98, 13.9817, 0.005, b.de[2]},  {"ETc day 3 mm/d", 5.2, 5.2067, 0.05, b.etc[2]},
        {"De end of day 4 mm", 16.57, 16.5668, 0.005, b.de[3]},  {"ETc day 4 mm/d", 3.3, 3.26013, 0.05, b.etc[3]},
        {"De end of day 5 mm", 18.04, 18.0415, 0.005, b.de[4]},  {"ETc day 5 mm/d", 2.1, 2.1497, 0.05, b.etc[4]},
        {"De end of day 6 mm", 18.88, 18.8828, 0.005, b.de[5]},  {"ETc day 6 mm/d", 1.5, 1.51625, 0.05, b.etc[5]},
        {"De end of day 7 mm", 19.36, 19.3627, 0.005, b.de[6]},  {"ETc day 7 mm/d", 1.2, 1.15489, 0.05, b.etc[6]},
        {"De end of day 8 mm", 19.64, 19.6364, 0.005, b.de[7]},  {"ETc day 8 mm/d", 0.9, 0.948758, 0.05, b.etc[7]},
        {"De end of day 9 mm", 19.79, 19.7926, 0.005, b.de[8]},  {"ETc day 9 mm/d", 0.8, 0.831166, 0.05, b.etc[8]},
        {"De end of day 10 mm", 19.88, 19.8817, 0.005, b.de[9]}, {"ETc day 10 mm/d", 0.8, 0.764086, 0.05, b.etc[9]},
    };
    PHYSICS_CHECK("FAO-56 example 31, p. 146", rows);
}

static void example_37(void **state)
{
    (void)state;
    struct soil_water s = {.taw = 1000 * (0.32 - 0.12) * 0.8, .fraction = 0.40, .depletion = 55};
    struct stressed d[10];
    for (int i = 0; i < 10; i++) {
        double deep = -1;
        d[i].ks = soil_stress(&s);
        d[i].et = soil_water_step(&s, 0, 6.0, &deep);
        d[i].dr = s.depletion;
        assert_true(deep == 0);
    }
    const struct physics_row rows[] = {
        {"TAW mm", 160, 160, 0.5, s.taw},
        {"RAW mm", 64, 64, 0.5, s.fraction * s.taw},
        {"Ks day 1", 1.00, 1, 0.005, d[0].ks},
        {"ETc adj day 1 mm/d", 6.0, 6, 0.05, d[0].et},
        {"Dr end of day 1 mm", 61.0, 61, 0.05, d[0].dr},
        {"Ks day 2", 1.00, 1, 0.005, d[1].ks},
        {"ETc adj day 2 mm/d", 6.0, 6, 0.05, d[1].et},
        {"Dr end of day 2 mm", 67.0, 67, 0.05, d[1].dr},
        {"Ks day 3", 0.97, 0.96875, 0.005, d[2].ks},
        {"ETc adj day 3 mm/d", 5.8, 5.8125, 0.05, d[2].et},
        {"Dr end of day 3 mm", 72.8, 72.8125, 0.05, d[2].dr},
        {"Ks day 4", 0.91, 0.908203, 0.005, d[3].ks},
        {"ETc adj day 4 mm/d", 5.4, 5.44922, 0.05, d[3].et},
        {"Dr end of day 4 mm", 78.3, 78.2617, 0.05, d[3].dr},
        {"Ks day 5", 0.85, 0.85144, 0.005, d[4].ks},
        {"ETc adj day 5 mm/d", 5.1, 5.10864, 0.05, d[4].et},
        {"Dr end of day 5 mm", 83.4, 83.3704, 0.05, d[4].dr},
        {"Ks day 6", 0.80, 0.798225, 0.005, d[5].ks},
        {"ETc adj day 6 mm/d", 4.8, 4.78935, 0.05, d[5].et},
        {"Dr end of day 6 mm", 88.2, 88.1597, 0.05, d[5].dr},
        {"Ks day 7", 0.75, 0.748336, 0.005, d[6].ks},
        {"ETc adj day 7 mm/d", 4.5, 4.49002, 0.05, d[6].et},
        {"Dr end of day 7 mm", 92.6, 92.6497, 0.05, d[6].dr},
        {"Ks day 8", 0.70, 0.701565, 0.005, d[7].ks},
        {"ETc adj day 8 mm/d", 4.2, 4.20939, 0.05, d[7].et},
        {"Dr end of day 8 mm", 96.9, 96.8591, 0.05, d[7].dr},
        {"Ks day 9", 0.66, 0.657717, 0.005, d[8].ks},
        {"ETc adj day 9 mm/d", 3.9, 3.9463, 0.05, d[8].et},
        {"Dr end of day 9 mm", 100.8, 100.805, 0.05, d[8].dr},
        {"Ks day 10", 0.62, 0.61661, 0.005, d[9].ks},
        {"ETc adj day 10 mm/d", 3.7, 3.69966, 0.05, d[9].et},
        {"Dr end of day 10 mm", 104.5, 104.505, 0.05, d[9].dr},
    };
    PHYSICS_CHECK("FAO-56 example 37, p. 168", rows);
}

static void example_38(void **state)
{
    (void)state;
    struct soil_water s = {.taw = 130 * 0.30, .fraction = 0.60};
    const struct physics_row rows[] = {
        {"RAW mm", 23, 23.4, 0.5, s.fraction * s.taw},
    };
    PHYSICS_CHECK("FAO-56 example 38, p. 172-173", rows);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(example_31),
        cmocka_unit_test(example_37),
        cmocka_unit_test(example_38),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
