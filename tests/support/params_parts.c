/* See params_parts.h. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/params_parts.h"

#include "data/params_file.h"

static struct grass grasses[] = {
    {.id = "ryegrass", .half_sugar = 0.155},
    {.id = "cocksfoot", .half_sugar = 0.089},
    {.id = "white-clover", .half_sugar = 0.06},
    {.id = "unknown-mixed", .half_sugar = 0.13},
};
static struct soil soils[] = {{"sand", 60},  {"silty-clay-loam", 130}, {"silt-loam", 130}, {"loam", 120},
                              {"clay", 150}, {"unknown", 120}};

enum err_code params_parts_load(const char *folder, struct arena *a, struct params *p, struct err *e)
{
    static const struct {
        const char *name;
        params_reader read;
    } files[] = {{"animals.json", params_read_animals},
                 {"feeds.json", params_read_feeds},
                 {"limits.json", params_read_limits},
                 {"hay-losses.json", params_read_losses}};
    uint64_t hash = PARAMS_HASH_START;
    enum err_code code = ERR_OK;
    *p = (struct params){.grass = grasses, .soil = soils};
    p->grasses = sizeof grasses / sizeof grasses[0];
    p->soils = sizeof soils / sizeof soils[0];
    for (size_t i = 0; i < sizeof files / sizeof files[0] && code == ERR_OK; i++) {
        code = params_read_file(folder, files[i].name, files[i].read, a, p, &hash, e);
    }
    return code;
}
