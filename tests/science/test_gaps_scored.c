/* How well gaps are filled: real days are hidden, filled, and compared with what was
 * measured, beside what simpler ways would have put there. Bounds: computed by us, so
 * that they guard what was reached; the simpler ways are the rivals.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hidden.h"
#include "support/sward_support.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

static const struct {
    const char *path;
    double latitude, elevation;
} records[] = {{"data/real/dublin_airport_2010-2020.csv", 53.428, 71},
               {"data/real/de_bilt_2005-2019.csv", 52.10, 2},
               {"data/real/shorter_al_us_2010-2019.csv", 32.443, 132}};

static void t(void **state)
{
    (void)state;
    for (size_t r = 0; r < 3; r++) {
        struct site site = {.latitude = records[r].latitude, .longitude = 0, .elevation_m = records[r].elevation};
        printf("# %s\n", records[r].path);
        for (int kind = 0; kind < HIDE_KINDS; kind++) {
            struct hidden h = {0};
            struct err e;
            for (unsigned long long seed = 1; seed < 9; seed++) if (hidden_score(records[r].path, &site, &support_params()->limits, (enum hide_kind)kind, seed, &h, &e) !=
                ERR_OK) {
                fail_msg("%s", e.what);
            }
            hidden_print(&h, (enum hide_kind)kind);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(t)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
