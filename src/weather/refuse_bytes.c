/* Files that are no text: empty, packed, pages, other character sets.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/layout.h"

#include <string.h>

#define LOOK_BYTES (64u << 10)

static const struct magic {
    const char *start;
    size_t n;
    const char *what;
} magics[] = {
    {"PK\3\4", 4, "is a zip archive or a spreadsheet; unpack it, or save the sheet as CSV"},
    {"\x1f\x8b", 2, "is packed with gzip; unpack it first (gunzip)"},
    {"\xfd"
     "7zXZ",
     5, "is packed with xz; unpack it first (unxz)"},
    {"BZh", 3, "is packed with bzip2; unpack it first (bunzip2)"},
    {"\xff\xfe", 2, "is UTF-16 text; save it as UTF-8 or plain text"},
    {"\xfe\xff", 2, "is UTF-16 text; save it as UTF-8 or plain text"},
    {"\xd0\xcf\x11\xe0", 4, "is an old spreadsheet; save the sheet as CSV"},
    {"\x89HDF", 4, "is a netCDF or HDF grid; one place as CSV or JSON is needed"},
    {"CDF", 3, "is a netCDF grid; one place as CSV or JSON is needed"},
    {"%PDF", 4, "is a PDF document; the table as CSV is needed"},
};

static size_t blanks(const struct weather_file *f)
{
    size_t i = 0;
    while (i < f->size && (f->bytes[i] == ' ' || f->bytes[i] == '\t' || f->bytes[i] == '\r' || f->bytes[i] == '\n')) {
        i++;
    }
    return i;
}

static const char *reason(const struct weather_file *f)
{
    size_t start = blanks(f);
    if (start == f->size) {
        return "is empty; daily weather is needed";
    }
    for (size_t i = 0; i < sizeof magics / sizeof magics[0]; i++) {
        if (f->size >= magics[i].n && memcmp(f->bytes, magics[i].start, magics[i].n) == 0) {
            return magics[i].what;
        }
    }
    if (f->bytes[start] == '<') {
        return "is a web page or XML, no table: the server sent a page in place of the data; ask it for CSV or JSON";
    }
    if (memchr(f->bytes, 0, f->size < LOOK_BYTES ? f->size : LOOK_BYTES)) {
        return "holds zero bytes: it is UTF-16 text or no text at all; save it as UTF-8 text";
    }
    return NULL;
}

bool refuse_bytes_is(const struct weather_file *f)
{
    return reason(f) != NULL;
}

enum err_code refuse_bytes(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    (void)a, (void)set;
    err_set(e, ERR_DATA, "%s", reason(f));
    err_at(e, f->path, 0, 0, NULL);
    return ERR_DATA;
}
