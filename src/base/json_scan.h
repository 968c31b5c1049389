/* A strict pass over JSON text (RFC 8259): grammar, depth, UTF-8, duplicate keys,
 * finite numbers. It builds nothing: cJSON does, afterwards.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_JSON_SCAN_H
#define SUGARLEA_JSON_SCAN_H

#include <stdbool.h>
#include <stddef.h>

/* NULL when text[0..size) is one sound JSON value, else what is wrong (a static
 * text) and *at, the offset of the fault. */
const char *json_scan(const char *text, size_t size, size_t *at);

/* What json_scan gives, this very text, where the memory ran out before it knew. */
extern const char json_scan_no_memory[];

/* Offset of the value at a path such as "paddocks[2].soil" in sound JSON; of the
 * deepest part found when the rest is absent. */
size_t json_scan_find(const char *text, size_t size, const char *path);

/* Line and column, 1-based, of an offset. */
void json_scan_place(const char *text, size_t at, size_t *line, size_t *column);

/* Length of the valid UTF-8 sequence at s (room bytes are there), 0 when there is none. */
size_t json_scan_utf8(const unsigned char *s, size_t room);

/* Characters of n bytes of text; a byte that is no UTF-8 is one. */
size_t json_scan_letters(const char *text, size_t n);

/* How many bytes of text to show where there is room for `most`: no character is cut at their end. */
size_t json_scan_cut(const char *text, size_t most);

/* Whether a terminal would obey that sequence of n bytes: C0, DEL, C1, and what separates
 * lines or turns the direction of writing. */
bool json_scan_control(const unsigned char *s, size_t n);

#endif
