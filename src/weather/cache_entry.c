/* One entry of the cache as bytes. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/cache_entry.h"

#include "base/num.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

#define OPENING_BYTES (sizeof CACHE_ENTRY_OPENING - 1 + 8 + 1) /* with eight hexadecimal digits and the line's end */

static unsigned sum_of(const char *bytes, size_t n)
{
    return (unsigned)crc32_z(crc32_z(0, NULL, 0), (const unsigned char *)bytes, n);
}

static void add_date(struct buf *b, const char *name, date_t date)
{
    char text[DATE_TEXT] = "";
    buf_addf(b, "%s: %s\n", name, date == DATE_NONE ? "" : date_format(date, text));
}

void cache_entry_write(const struct cache_entry *entry, struct buf *out)
{
    struct buf b;
    buf_init(&b);
    buf_addf(&b, "service: %s\nplace: %s\nurl: %s\n", entry->service, entry->place, entry->url);
    buf_addf(&b, "fetched: %" PRId64 "\nexpires: %" PRId64 "\n", entry->fetched, entry->expires);
    buf_addf(&b, "last-modified: %s\netag: %s\n", entry->last_modified, entry->etag);
    add_date(&b, "from", entry->from);
    add_date(&b, "ends", entry->ends);
    buf_addf(&b, "length: %zu\n\n", entry->size);
    buf_add_bytes(&b, entry->body, entry->size);
    buf_clear(out);
    buf_addf(out, CACHE_ENTRY_OPENING "%08x\n", sum_of(b.text, b.length));
    buf_add_bytes(out, b.text, b.length);
    buf_release_into(&b, out);
}

/* What is left to read. */
struct rest {
    const char *at;
    size_t n;
};

/* The value of the next line, which must have this name, into out[size]. */
static bool take_text(struct rest *r, const char *name, char *out, size_t size)
{
    const char *end = memchr(r->at, '\n', r->n);
    size_t length = strlen(name), line = end ? (size_t)(end - r->at) : 0;
    if (!end || line < length + 2 || memcmp(r->at, name, length) != 0 || memcmp(r->at + length, ": ", 2) != 0 ||
        line - length - 2 >= size) {
        return false;
    }
    memcpy(out, r->at + length + 2, line - length - 2);
    out[line - length - 2] = '\0';
    r->at += line + 1;
    r->n -= line + 1;
    return true;
}

static bool take_number(struct rest *r, const char *name, int64_t *value)
{
    char text[32];
    long number;
    if (!take_text(r, name, text, sizeof text) || !num_parse_long(text, strlen(text), 0, INT64_MAX, &number)) {
        return false;
    }
    *value = number;
    return true;
}

static bool take_date(struct rest *r, const char *name, date_t *date)
{
    char text[DATE_TEXT];
    if (!take_text(r, name, text, sizeof text)) {
        return false;
    }
    *date = text[0] ? date_parse_iso(text, strlen(text)) : DATE_NONE;
    return !text[0] || *date != DATE_NONE;
}

static const char *take_all(struct rest r, struct cache_entry *entry)
{
    int64_t length;
    bool good = take_text(&r, "service", entry->service, sizeof entry->service) &&
                take_text(&r, "place", entry->place, sizeof entry->place) &&
                take_text(&r, "url", entry->url, sizeof entry->url) && take_number(&r, "fetched", &entry->fetched) &&
                take_number(&r, "expires", &entry->expires) &&
                take_text(&r, "last-modified", entry->last_modified, sizeof entry->last_modified) &&
                take_text(&r, "etag", entry->etag, sizeof entry->etag) && take_date(&r, "from", &entry->from) &&
                take_date(&r, "ends", &entry->ends) && take_number(&r, "length", &length);
    if (!good || r.n == 0 || r.at[0] != '\n') {
        return "its head cannot be read";
    }
    if ((int64_t)(r.n - 1) != length) {
        return "it is not as long as it says";
    }
    entry->body = r.at + 1;
    entry->size = r.n - 1;
    return NULL;
}

const char *cache_entry_read(const char *bytes, size_t n, struct cache_entry *entry)
{
    char sum[9] = "";
    *entry = (struct cache_entry){.body = "", .from = DATE_NONE, .ends = DATE_NONE};
    if (n < OPENING_BYTES || memcmp(bytes, CACHE_ENTRY_OPENING, sizeof CACHE_ENTRY_OPENING - 1) != 0 ||
        bytes[OPENING_BYTES - 1] != '\n') {
        return "it does not begin as an entry of this version";
    }
    snprintf(sum, sizeof sum, "%08x", sum_of(bytes + OPENING_BYTES, n - OPENING_BYTES));
    if (memcmp(bytes + sizeof CACHE_ENTRY_OPENING - 1, sum, 8) != 0) {
        return "its checksum is wrong";
    }
    return take_all((struct rest){bytes + OPENING_BYTES, n - OPENING_BYTES}, entry);
}
