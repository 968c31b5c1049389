/* SPDX-License-Identifier: GPL-3.0-or-later
 * A growing text buffer, with numbers and strings as machines want them. */
#include "base/buf.h"

#include "base/json_scan.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char nothing[1] = ""; /* what an empty buffer points at; never written to */

void buf_init(struct buf *b)
{
    *b = (struct buf){.text = nothing};
}

void buf_release(struct buf *b)
{
    assert(b->length <= b->capacity);
    if (b->capacity) {
        free(b->text);
    }
    buf_init(b);
}

void buf_clear(struct buf *b)
{
    b->length = 0;
    if (b->capacity) {
        b->text[0] = 0;
    }
}

static bool reserve(struct buf *b, size_t more)
{
    assert(b->length <= b->capacity);
    if (b->failed) {
        return false;
    }
    if (b->capacity && more < b->capacity - b->length) {
        return true;
    }
    size_t capacity = b->capacity ? b->capacity : 256;
    while (capacity - b->length <= more) {
        if (capacity > SIZE_MAX / 2) {
            b->failed = true;
            return false;
        }
        capacity *= 2;
    }
    char *text = realloc(b->capacity ? b->text : NULL, capacity);
    if (!text) {
        b->failed = true;
        return false;
    }
    b->text = text;
    b->text[b->length] = 0;
    b->capacity = capacity;
    return true;
}

void buf_add_bytes(struct buf *b, const char *bytes, size_t n)
{
    if (reserve(b, n)) {
        memcpy(b->text + b->length, bytes, n);
        b->length += n;
        b->text[b->length] = 0;
    }
}

void buf_add(struct buf *b, const char *text)
{
    buf_add_bytes(b, text, strlen(text));
}

void buf_add_char(struct buf *b, char c)
{
    if (reserve(b, 1)) {
        b->text[b->length++] = c;
        b->text[b->length] = 0;
    }
}

void buf_addf(struct buf *b, const char *format, ...)
{
    assert(format != NULL);
    va_list arguments;
    va_start(arguments, format);
    int need = vsnprintf(NULL, 0, format, arguments);
    va_end(arguments);
    if (need < 0 || !reserve(b, (size_t)need)) {
        b->failed = true;
        return;
    }
    va_start(arguments, format);
    vsnprintf(b->text + b->length, b->capacity - b->length, format, arguments);
    va_end(arguments);
    b->length += (size_t)need;
}

/* The same as below where it can be had in a twentieth of the time: the digits fit a word, and x lies clear of
 * the middle between two last digits, so that the product's own rounding decides nothing. 0: not here. */
static int fixed_quickly(char *text, double x, int decimals)
{
    static const double power[] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    enum { MOST_DECIMALS = sizeof power / sizeof power[0] - 1, DIGITS = 10 };
    if (decimals < 0 || decimals > MOST_DECIMALS) {
        return 0;
    }
    double scaled = fabs(x) * power[decimals];
    if (!(scaled < 1e9)) {
        return 0;
    }
    uint32_t rest = (uint32_t)scaled;
    double middle = scaled - rest - 0.5;
    if (fabs(middle) < 1e-6) {
        return 0;
    }
    rest += middle > 0;
    char digit[DIGITS];
    int n = 0, length = 0;
    bool minus = x < 0 && rest > 0;
    for (; rest > 0 || n <= decimals; rest /= 10) {
        digit[n++] = (char)('0' + rest % 10);
    }
    if (minus) {
        text[length++] = '-';
    }
    while (n > 0) {
        if (n == decimals) {
            text[length++] = '.';
        }
        text[length++] = digit[--n];
    }
    text[length] = 0;
    return length;
}

/* "%.*f" without a minus before zero; the length. */
static int fixed(char *text, size_t size, double x, int decimals)
{
    int quick = fixed_quickly(text, x, decimals);
    if (quick > 0) {
        return quick;
    }
    int n = snprintf(text, size, "%.*f", decimals, x);
    assert(n > 0 && (size_t)n < size);
    if (n > 0 && text[0] == '-' && strspn(text + 1, "0.") == (size_t)n - 1) {
        memmove(text, text + 1, (size_t)n);
        n--;
    }
    return n;
}

void buf_add_number(struct buf *b, double x, int decimals)
{
    enum { ROOM = 400 };
    if (!isfinite(x) || !reserve(b, ROOM)) {
        return;
    }
    char *text = b->text + b->length;
    int n = fixed(text, ROOM, x, decimals);
    if (decimals > 0) {
        while (text[n - 1] == '0') {
            n--;
        }
        n -= text[n - 1] == '.';
    }
    text[n] = 0;
    b->length += (size_t)n;
}

void buf_add_fixed(struct buf *b, double x, int decimals)
{
    assert(decimals >= 0);
    char text[400];
    if (!isfinite(x)) {
        buf_add_char(b, '-');
        return;
    }
    buf_add_bytes(b, text, (size_t)fixed(text, sizeof text, x, decimals));
}

void buf_add_json_string(struct buf *b, const char *text)
{
    assert(text != NULL);
    buf_add_char(b, '"');
    for (const unsigned char *s = (const unsigned char *)text; *s;) {
        size_t n = json_scan_utf8(s, strlen((const char *)s));
        if (*s == '"' || *s == '\\') {
            buf_addf(b, "\\%c", *s);
        } else if (*s < 0x20 || *s == 0x7f) {
            buf_addf(b, "\\u%04x", *s);
        } else if (n == 0) {
            buf_add(b, "\xef\xbf\xbd");
        } else {
            buf_add_bytes(b, (const char *)s, n);
        }
        s += n ? n : 1;
    }
    buf_add_char(b, '"');
}

void buf_add_csv_field(struct buf *b, const char *text)
{
    assert(text != NULL);
    bool formula = text[0] && strchr("=+-@\t\r", text[0]);
    if (!formula && !strpbrk(text, ",\";\t\r\n")) {
        buf_add(b, text);
        return;
    }
    buf_add_char(b, '"');
    if (formula) {
        buf_add_char(b, '\'');
    }
    for (const char *c = text; *c; c++) {
        if (*c == '"') {
            buf_add_char(b, '"');
        }
        buf_add_char(b, *c);
    }
    buf_add_char(b, '"');
}

void buf_add_clean(struct buf *b, const char *text, size_t n, size_t most)
{
    assert(text != NULL || n == 0);
    const unsigned char *s = (const unsigned char *)text;
    size_t left = n, count = 0;
    while (left && count < most) {
        size_t length = json_scan_utf8(s, left);
        if (length == 0) {
            buf_add_char(b, '?');
        } else if (json_scan_control(s, length)) {
            buf_add_char(b, ' ');
        } else {
            buf_add_bytes(b, (const char *)s, length);
        }
        s += length ? length : 1;
        left -= length ? length : 1;
        count++;
    }
    buf_add(b, left ? "..." : "");
}
