/* The tables of models/swards.json: curves, grasses, soils.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SWARD_ROWS_H
#define SUGARLEA_SWARD_ROWS_H

#include "data/params.h"

/* object[key] = {"x": [...], "y": [...], "unit", "source", "evidence"}: x rises, y in
 * 0..1, unit "C". Each knot is listed as "path.key.x". ERR_CONFIG. */
enum err_code sward_curve_read(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                               struct curve *curve, struct param_list *list, struct arena *a, struct err *e);

/* "grasses" and "soils" = {"columns": {name: {unit, low, high}}, "rows": {id: {...,
 * source, evidence}}} into p. */
enum err_code sward_rows_read(const struct json_doc *doc, struct params *p, struct arena *a, struct err *e);

#endif
