/* Holding files, model files and tuning.json. The first byte says which.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz/fuzz.h"

#include "base/json.h"
#include "base/limits.h"
#include "data/holding.h"
#include "data/params.h"
#include "data/params_file.h"
#include "data/tuning.h"

#include <math.h>

static struct arena forever;
static struct params shipped;

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    struct err e;
    (void)argc;
    (void)argv;
    arena_init(&forever);
    err_clear(&e);
    FUZZ_PROMISE(params_load("models", &forever, &shipped, &e) == ERR_OK);
    return 0;
}

static void read_holding(const char *text, size_t size, struct arena *a, struct err *e)
{
    struct holding h;
    enum err_code code = holding_parse(text, size, "holding.json", &shipped, a, &h, e);
    fuzz_error(code, e);
    if (code == ERR_OK) {
        FUZZ_PROMISE(h.paddocks > 0 && h.site.latitude >= -90.0 && h.site.latitude <= 90.0);
        for (size_t i = 0; i < h.animals; i++) {
            FUZZ_PROMISE(h.animal[i].paddock < h.paddocks && h.animal[i].weight_kg > 0.0);
        }
    }
}

static void read_tuning(const char *text, size_t size, struct arena *a, struct err *e)
{
    struct tuning_file f;
    fuzz_error(tuning_parse(text, size, "tuning.json", a, &f, e), e);
}

static void read_model(const char *text, size_t size, size_t which, struct arena *a, struct err *e)
{
    static enum err_code (*const reader[])(const struct json_doc *, struct arena *, struct params *, struct err *) = {
        params_read_swards, params_read_animals,  params_read_feeds,  params_read_limits,  params_read_quality,
        params_read_tuning, params_read_way_back, params_read_losses, params_read_soaking, params_read_hay_plan};
    struct json_doc doc;
    struct params p = shipped;
    enum err_code code = json_parse(text, size, "model.json", &doc, e);
    fuzz_error(code, e);
    if (code == ERR_OK) {
        code = reader[which % (sizeof reader / sizeof reader[0])](&doc, a, &p, e);
        fuzz_error(code, e);
        json_release(&doc);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { HOLDING_BYTES = 128, TUNING = 128 };
    struct arena a;
    struct err e;
    if (size < 1) {
        return -1;
    }
    arena_init(&a);
    err_clear(&e);
    const char *text = (const char *)data + 1;
    if (data[0] < HOLDING_BYTES) {
        read_holding(text, size - 1, &a, &e);
    } else if (data[0] == TUNING) {
        read_tuning(text, size - 1, &a, &e);
    } else {
        read_model(text, size - 1, data[0], &a, &e);
    }
    arena_release(&a);
    return 0;
}
