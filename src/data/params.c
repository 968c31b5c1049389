/* Loads the models folder. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/params.h"

#include "base/hash.h"
#include "data/params_file.h"

#include <inttypes.h>
#include <stdio.h>

static const struct {
    const char *name;
    params_reader read;
} files[] = {
    {"swards.json", params_read_swards},
    {"animals.json", params_read_animals},
    {"feeds.json", params_read_feeds},
    {"limits.json", params_read_limits},
    {"hay-losses.json", params_read_losses},
    {"soaking.json", params_read_soaking},
    {"weather-limits.json", params_read_quality},
    {"tune-limits.json", params_read_tuning},
    {"reintroduction.json", params_read_way_back},
    {"hay-limits.json", params_read_hay_plan},
    {"starter.json", params_read_starter},
};

enum err_code params_load(const char *folder, struct arena *a, struct params *p, struct err *e)
{
    uint64_t hash = HASH_START;
    enum err_code code = ERR_OK;
    *p = (struct params){0};
    for (size_t i = 0; i < sizeof files / sizeof files[0] && code == ERR_OK; i++) {
        code = params_read_file(folder, files[i].name, files[i].read, a, p, &hash, e);
    }
    snprintf(p->hash, sizeof p->hash, "%016" PRIx64, hash);
    return code;
}
