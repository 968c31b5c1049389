/* One entry of the cache as bytes; private to cache*.c and its tests.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_CACHE_ENTRY_H
#define SUGARLEA_WEATHER_CACHE_ENTRY_H

#include "weather/cache.h"

/* Before eight hexadecimal digits, the CRC-32 of all that follows, and the line's end. */
#define CACHE_ENTRY_OPENING "sugarlea weather cache 1 crc32 "

/* Into an initialised buffer; its `failed` is set when memory is out. Texts must hold no line end. */
void cache_entry_write(const struct cache_entry *entry, struct buf *out);

/* NULL, or what is wrong (static text). The body then points into bytes. */
const char *cache_entry_read(const char *bytes, size_t n, struct cache_entry *entry);

#endif
