/* "key":value pieces that the JSON of every command is made of.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_JSON_H
#define SUGARLEA_OUT_JSON_H

#include "base/buf.h"
#include "base/date.h"

#include <stdint.h>

void json_key_number(struct buf *b, const char *key, double x, int decimals); /* null when not finite */
void json_key_string(struct buf *b, const char *key, const char *text);
void json_key_date(struct buf *b, const char *key, date_t d);  /* null for DATE_NONE */
void json_key_time(struct buf *b, const char *key, int64_t s); /* s since 1970, UTC, ISO 8601; null for 0 */
void json_key_texts(struct buf *b, const char *key, const char *const *text, size_t n); /* an array */
void json_cautions(struct buf *b); /* "cautions": what stands under every advice */
void json_key_bool(struct buf *b, const char *key, bool x);

#endif
