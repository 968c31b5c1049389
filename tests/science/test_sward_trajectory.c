/* Two years, day by day, against an independent writing of the same equations
 * (tests/bench/oracle.py, run on Met Eireann weather of Dublin Airport, CC BY 4.0):
 * phases, drought, stem, dying, cuts and grazing all take part.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/trajectory.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define DUBLIN 53.428 /* degrees */

static void check(const char *how)
{
    struct table t;
    assert_true(table_read(&t, "tests/science/data/dublin_trajectory.csv"));
    struct trajectory_result r = trajectory_compare(&t, how, DUBLIN);
    table_free(&t);
    assert_int_equal(r.days, 731);
    print_message("# %s: off by at most %.2g relative, %.2g g/kg\n", how, r.worst_relative, r.worst_nsc);
    if (!(r.worst_relative <= TRAJECTORY_RELATIVE)) {
        fail_msg("%s: %s", how, r.where);
    }
    if (!(r.worst_nsc <= TRAJECTORY_NSC)) {
        fail_msg("%s: NSC off by %g g/kg", how, r.worst_nsc);
    }
}

static void test_cut(void **state)
{
    (void)state;
    check("cut");
}

static void test_grazed(void **state)
{
    (void)state;
    check("grazed");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cut),
        cmocka_unit_test(test_grazed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
