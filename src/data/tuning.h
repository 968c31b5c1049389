/* What grass tests have shown of a holding's paddocks: tuning.json beside holding.json.
 *
 *     { "sugarlea_tuning": 1, "model": "0123456789abcdef",
 *       "paddocks": [ { "id": "pump-field", "theta": 0.1837, "sd": 0.1312, "tests": 3,
 *                       "date": "2025-04-22" } ] }
 *
 * "model" is params.hash of the model files that the tests were held against.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TUNING_H
#define SUGARLEA_TUNING_H

#include "base/arena.h"
#include "base/buf.h"
#include "base/date.h"
#include "base/err.h"
#include "base/limits.h"

struct tuning {
    double theta; /* ln of the factor on the modelled sugar */
    double sd;    /* of theta */
    int tests;    /* behind it; 0: the paddock is not tuned */
    date_t date;  /* of the last test */
};

struct cover_reading { /* of a sward, on the morning of a date */
    date_t date;
    double kg_ha; /* total herbage above ground, DM, from the height measured */
};

struct tuning_row {
    char id[LIMIT_NAME]; /* of a paddock */
    struct tuning tuned;
};

struct tuning_file {
    char model[17];
    size_t n;
    struct tuning_row *row;
};

/* Reads text[0..size); `name` stands for the file in messages. Memory is the arena's.
 * ERR_CONFIG (file, line, column, entry) for anything that tuning_print would not write. */
enum err_code tuning_parse(const char *text, size_t size, const char *name, struct arena *a, struct tuning_file *f,
                           struct err *e);

/* The same from a file. ERR_NOINPUT when it is missing. */
enum err_code tuning_load(const char *path, struct arena *a, struct tuning_file *f, struct err *e);

void tuning_print(const struct tuning_file *f, struct buf *b);

#endif
