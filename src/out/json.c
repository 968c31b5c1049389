/* Pieces of JSON. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/json.h"

#include <math.h>

void json_key_number(struct buf *b, const char *key, double x, int decimals)
{
    buf_addf(b, "\"%s\":", key);
    if (isfinite(x)) {
        buf_add_number(b, x, decimals);
    } else {
        buf_add(b, "null");
    }
}

void json_key_string(struct buf *b, const char *key, const char *text)
{
    buf_addf(b, "\"%s\":", key);
    buf_add_json_string(b, text);
}

void json_key_date(struct buf *b, const char *key, date_t d)
{
    char text[DATE_TEXT];
    buf_addf(b, d == DATE_NONE ? "\"%s\":null" : "\"%s\":\"%s\"", key, d == DATE_NONE ? "" : date_format(d, text));
}

void json_key_texts(struct buf *b, const char *key, const char *const *text, size_t n)
{
    buf_addf(b, "\"%s\":[", key);
    for (size_t i = 0; i < n; i++) {
        buf_add(b, i ? "," : "");
        buf_add_json_string(b, text[i]);
    }
    buf_add_char(b, ']');
}

void json_key_bool(struct buf *b, const char *key, bool x)
{
    buf_addf(b, "\"%s\":%s", key, x ? "true" : "false");
}

void json_key_time(struct buf *b, const char *key, int64_t s)
{
    char text[DATE_TIME_TEXT];
    buf_addf(b, s ? "\"%s\":\"%s\"" : "\"%s\":null", key, s ? date_format_time(s, text) : "");
}

void json_cautions(struct buf *b)
{
    static const char *const caution[] = {"Planning help, not a diagnosis.",
                                          "A lame, hot-footed or feed-refusing animal needs a vet today.",
                                          "Local rules and your vet come first."};
    json_key_texts(b, "cautions", caution, sizeof caution / sizeof caution[0]);
}
