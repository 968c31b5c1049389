/* How much hay a lot holds: weighed, counted or measured.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"
#include "data/param_rows.h"

#include <assert.h>
#include <math.h>

enum { ROUND_SIZES = 2, SQUARE_SIZES = 3 };

static const char ways[] = "give \"bales\" together with \"bale_kg\"; or \"kg\" alone; or \"bales\" with \"shape\" "
                           "(round or square) and \"bale_m\"; or \"m3\" with \"shape\"";

static enum err_code read_numbers(const struct holding_reader *r, const cJSON *item, const char *path,
                                  struct hay_lot *lot)
{
    const struct {
        const char *key;
        double low, high, *to;
    } numbers[] = {{"bales", 0, 1e6, &lot->bales},
                   {"bale_kg", 1, 1500, &lot->bale_kg},
                   {"kg", 0, 1e8, &lot->kg},
                   {"m3", 0, 1e5, &lot->m3}};
    enum err_code code = ERR_OK;
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0] && code == ERR_OK; i++) {
        code = json_read_number(r->doc, item, path, numbers[i].key, false, numbers[i].low, numbers[i].high,
                                numbers[i].to, r->e);
    }
    return code;
}

/* [diameter, width] of a round bale, [length, width, height] of a square one. */
static enum err_code read_size(const struct holding_reader *r, const cJSON *item, const char *path, struct hay_lot *lot)
{
    assert(lot->shape == HAY_ROUND || lot->shape == HAY_SQUARE);
    char at[HOLDING_PATH], each[HOLDING_PATH];
    const cJSON *size = json_get(item, "bale_m"), *one;
    size_t n = 0, wanted = lot->shape == HAY_ROUND ? ROUND_SIZES : SQUARE_SIZES;
    holding_join(at, path, "bale_m");
    enum err_code code = holding_array(r, size, at, SQUARE_SIZES, &n);
    if (code != ERR_OK) {
        return code; /* more than there is room for, perhaps */
    }
    if (n != wanted) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e,
                         "needs metres of a bale: [diameter, width] where \"shape\" is round, [length, width, "
                         "height] where it is square");
    }
    n = 0;
    cJSON_ArrayForEach(one, size)
    {
        holding_index(each, at, n);
        assert(n < SQUARE_SIZES);
        if (code == ERR_OK && !(cJSON_IsNumber(one) && one->valuedouble >= 0.1 && one->valuedouble <= 4.0)) {
            code = json_fail(r->doc, ERR_CONFIG, each, r->e, "is no length of a bale; 0.1 to 4 m is allowed");
        }
        lot->bale_m[n++] = code == ERR_OK ? one->valuedouble : (double)NAN;
    }
    return code;
}

/* One way to say it, and whole: which keys stand together. */
static bool is_one_way(const struct hay_lot *l, bool sized)
{
    enum { BALES = 1, BALE_KG = 2, KG = 4, M3 = 8, SHAPE = 16, SIZE = 32 };
    static const unsigned allowed[] = {0, BALES | BALE_KG, KG, BALES | SHAPE | SIZE, M3 | SHAPE};
    unsigned given = (isnan(l->bales) ? 0u : BALES) | (isnan(l->bale_kg) ? 0u : BALE_KG) | (isnan(l->kg) ? 0u : KG) |
                     (isnan(l->m3) ? 0u : M3) | (l->shape == HAY_SHAPE_NONE ? 0u : SHAPE) | (sized ? SIZE : 0u);
    for (size_t i = 0; i < sizeof allowed / sizeof allowed[0]; i++) {
        if (given == allowed[i]) {
            return true;
        }
    }
    return false;
}

enum err_code holding_read_amount(const struct holding_reader *r, const cJSON *item, const char *path,
                                  struct hay_lot *lot)
{
    static const char *const shapes[] = {"round", "square", "loose"};
    bool sized = json_get(item, "bale_m") != NULL;
    size_t shape = 0;
    enum err_code code = read_numbers(r, item, path, lot);
    if (code == ERR_OK && json_get(item, "shape")) {
        code =
            param_rows_word(r->doc, item, path, "shape", true, shapes, sizeof shapes / sizeof shapes[0], &shape, r->e);
        lot->shape = (enum hay_shape)(HAY_ROUND + shape);
    }
    if (code != ERR_OK) {
        return code;
    }
    if (!is_one_way(lot, sized) || (sized && lot->shape == HAY_LOOSE)) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "%s", ways);
    }
    if (!isnan(lot->bales)) {
        lot->kg = lot->bales * lot->bale_kg;
    }
    return sized ? read_size(r, item, path, lot) : ERR_OK;
}
