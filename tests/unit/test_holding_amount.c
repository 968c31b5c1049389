/* Hay that is measured and not weighed: what may stand together in a lot of the store.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "support/sward_support.h"

#include "data/holding.h"

static struct arena arena;
static struct holding holding;
static struct err err;

#define SAME(a, b) assert_near(a, b, 1e-6)

static enum err_code parse_lot(const char *amount)
{
    char text[512];
    snprintf(text, sizeof text,
             "{\"sugarlea\": 1, \"site\": {\"latitude\": 0}, \"paddocks\": [{\"id\": \"a\", \"area_ha\": 1}],"
             "\"hay\": {\"stock\": [{\"feed\": \"grass-hay-mature\", %s}]}}",
             amount);
    arena_release(&arena);
    arena_init(&arena);
    err_clear(&err);
    return holding_parse(text, strlen(text), "h.json", support_params(), &arena, &holding, &err);
}

/* Hay that is measured and not weighed; its weight is for hay/stock.h. */
static void test_measured_hay(void **state)
{
    static const struct {
        const char *amount, *field, *what;
    } wrong[] = {
        {"\"m3\": 20", "hay.stock[0]", "\"m3\" with \"shape\""},
        {"\"shape\": \"round\"", "hay.stock[0]", "\"m3\" with \"shape\""},
        {"\"bales\": 3, \"shape\": \"round\"", "hay.stock[0]", "\"bale_m\""},
        {"\"bales\": 3, \"bale_kg\": 200, \"shape\": \"round\", \"bale_m\": [1.2, 1.2]", "hay.stock[0]", "or"},
        {"\"bales\": 3, \"shape\": \"loose\", \"bale_m\": [1.2, 1.2]", "hay.stock[0]", "round or square"},
        {"\"bales\": 3, \"shape\": \"round\", \"bale_m\": [1, 0.4, 0.3]", "hay.stock[0].bale_m", "[diameter, width]"},
        {"\"bales\": 3, \"shape\": \"square\", \"bale_m\": [1, 0.4]", "hay.stock[0].bale_m", "[length, width, height]"},
        {"\"bales\": 3, \"shape\": \"square\", \"bale_m\": [1, 1, 1, 1]", "hay.stock[0].bale_m", "3"},
        {"\"bales\": 3, \"shape\": \"square\", \"bale_m\": [100, 40, 30]", "hay.stock[0].bale_m[0]", "0.1 to 4 m"},
        {"\"bales\": 3, \"shape\": \"square\", \"bale_m\": [1, \"0.4\", 0.3]", "hay.stock[0].bale_m[1]", "0.1 to 4 m"},
        {"\"m3\": 20, \"shape\": \"rund\"", "hay.stock[0].shape", "did you mean \"round\""},
        {"\"m3\": -1, \"shape\": \"loose\"", "hay.stock[0].m3", "out of range"},
        {"\"m3\": 20, \"shape\": \"loose\", \"kg\": 3", "hay.stock[0]", "\"kg\" alone"},
    };
    (void)state;
    assert_int_equal(parse_lot("\"bales\": 6, \"shape\": \"round\", \"bale_m\": [1.5, 1.2]"), ERR_OK);
    assert_int_equal(holding.lot[0].shape, HAY_ROUND);
    SAME(holding.lot[0].bale_m[0], 1.5);
    SAME(holding.lot[0].bale_m[1], 1.2);
    assert_true(isnan(holding.lot[0].kg) && isnan(holding.lot[0].m3));
    assert_int_equal(parse_lot("\"m3\": 20.5, \"shape\": \"loose\""), ERR_OK);
    assert_int_equal(holding.lot[0].shape, HAY_LOOSE);
    SAME(holding.lot[0].m3, 20.5);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        if (parse_lot(wrong[i].amount) != ERR_CONFIG || strcmp(err.field, wrong[i].field) != 0 ||
            !strstr(err.what, wrong[i].what)) {
            fail_msg("%s: field %s, \"%s\"", wrong[i].amount, err.field, err.what);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_measured_hay)};
    arena_init(&arena);
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    arena_release(&arena);
    return failed;
}
