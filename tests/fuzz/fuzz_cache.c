/* Entries of the cache: what is taken for good and written again is taken for the same.
 * An input is tried as it stands, and with the checksum that makes its text right.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz/fuzz.h"

#include "weather/cache_entry.h"

#include <zlib.h>

static void check(const char *bytes, size_t size)
{
    struct cache_entry entry, again;
    struct buf b;
    const char *wrong = cache_entry_read(bytes, size, &entry);
    if (wrong) {
        FUZZ_PROMISE(wrong[0]);
        return;
    }
    FUZZ_PROMISE(entry.size <= size && memchr(entry.url, 0, sizeof entry.url));
    buf_init(&b);
    cache_entry_write(&entry, &b);
    FUZZ_PROMISE(!cache_entry_read(b.text, b.length, &again));
    FUZZ_PROMISE(again.size == entry.size && memcmp(again.body, entry.body, entry.size) == 0);
    FUZZ_PROMISE(strcmp(again.service, entry.service) == 0 && strcmp(again.place, entry.place) == 0);
    FUZZ_PROMISE(strcmp(again.url, entry.url) == 0 && again.fetched == entry.fetched && again.ends == entry.ends);
    buf_release(&b);
}

/* The input behind a first line with its right sum. */
static void check_summed(const uint8_t *data, size_t size)
{
    struct buf b;
    buf_init(&b);
    buf_addf(&b, CACHE_ENTRY_OPENING "%08x\n", (unsigned)crc32_z(crc32_z(0, NULL, 0), data, size));
    buf_add_bytes(&b, (const char *)data, size);
    check(b.text, b.length);
    buf_release(&b);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    check((const char *)data, size);
    check_summed(data, size);
    return 0;
}
