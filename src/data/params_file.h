/* The readers of the model files, one a topic; params.c calls them in order.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PARAMS_FILE_H
#define SUGARLEA_PARAMS_FILE_H

#include "data/params.h"

#include <stdint.h>

/* Fills its part of p from a whole document, all memory the arena's. ERR_CONFIG. */
typedef enum err_code (*params_reader)(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);

enum err_code params_read_animals(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_feeds(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_limits(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_quality(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_tuning(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_way_back(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_hay_plan(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_losses(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_starter(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);
enum err_code params_read_soaking(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);

/* Opens folder/name, adds its bytes to the 64-bit FNV-1a hash, and reads it.
 * ERR_NOINPUT when it is missing, ERR_CONFIG when it is wrong. */
enum err_code params_read_file(const char *folder, const char *name, params_reader read, struct arena *a,
                               struct params *p, uint64_t *hash, struct err *e);

#endif
