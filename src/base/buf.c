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

enum { NUMBER_ROOM = 400 }; /* bytes for any number as text, and its 0 */

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

void buf_release_into(struct buf *part, struct buf *whole)
{
    whole->failed = whole->failed || part->failed;
    buf_release(part);
}

void buf_clear(struct buf *b)
{
    b->length = 0;
    if (b->capacity) {
        b->text[0] = 0;
    }
}

static bool grow(struct buf *b, size_t more)
{
    if (b->failed) {
        return false;
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

/* Room for so many bytes and the 0 behind them: nearly always there already. */
static inline bool reserve(struct buf *b, size_t more)
{
    assert(b->length <= b->capacity);
    return (more < b->capacity - b->length && !b->failed) || grow(b, more);
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

/* The digits of a number below 10^8, the first in the lowest byte, each 0..9: halved into groups of 4, 2 and 1,
 * whose quotients by 100 and 10 are products, exact as far as the groups go. */
static inline uint64_t eight_digits(uint32_t number)
{
    uint64_t fours = (uint64_t)number << 32; /* nearly always enough */
    if (number >= 10000) {
        fours = number / 10000 | (uint64_t)(number % 10000) << 32;
    }
    uint64_t hundreds = (fours * 10486) >> 20 & 0x0000007f0000007f;
    uint64_t twos = hundreds | (fours - 100 * hundreds) << 16;
    uint64_t tens = (twos * 103) >> 10 & 0x000f000f000f000f;
    return tens | (twos - 10 * tens) << 8;
}

/* Eight characters, the first in the lowest byte. */
static inline void put_eight(char *text, uint64_t characters)
{
#if __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
    characters = __builtin_bswap64(characters);
#endif
    memcpy(text, &characters, sizeof characters);
}

/* The same as below where it can be had in a fiftieth of the time: eight digits are enough, and x lies clear of
 * the middle between two last digits, so that the product's own rounding decides nothing. 0: not here. shorten:
 * without zeros at the end. */
static inline int fixed_quickly(char *text, double x, int decimals, bool shorten)
{
    static const double power[] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    enum { DIGITS = 8, MOST_DECIMALS = sizeof power / sizeof power[0] - 1 };
    if (decimals < 0 || decimals > MOST_DECIMALS) {
        return 0;
    }
    double scaled = fabs(x) * power[decimals];
    if (!(scaled < 99999999.0)) {
        return 0;
    }
    uint32_t number = (uint32_t)scaled;
    double middle = scaled - number - 0.5;
    if (fabs(middle) < 1e-6) {
        return 0;
    }
    number += middle > 0;
    uint64_t digits = eight_digits(number), characters = digits | 0x3030303030303030;
    int before = number > 0 ? __builtin_ctzll(digits) / 8 : DIGITS, most = DIGITS - 1 - decimals, shown = decimals;
    before = before < most ? before : most;
    if (shorten) {
        int behind = number > 0 ? __builtin_clzll(digits) / 8 : DIGITS;
        shown -= behind < decimals ? behind : decimals;
    }
    text[0] = '-';
    char *whole = text + (x < 0 && number > 0), *end = whole + DIGITS - decimals - before;
    put_eight(whole, characters >> 8 * before);
    *end = '.';
    put_eight(end + 1, characters >> 8 >> 8 * most);
    end += shown + (shown > 0);
    *end = 0;
    return (int)(end - text);
}

/* "%.*f" of a finite number without a minus before zero; the length. */
static int fixed_slowly(char *text, double x, int decimals)
{
    int n = snprintf(text, NUMBER_ROOM, "%.*f", decimals, x);
    assert(n > 0 && n < NUMBER_ROOM);
    if (n > 0 && text[0] == '-' && strspn(text + 1, "0.") == (size_t)n - 1) {
        memmove(text, text + 1, (size_t)n);
        n--;
    }
    return n;
}

/* The length without zeros behind the point. */
static int shortened(char *text, int n, int decimals)
{
    if (decimals > 0) {
        while (text[n - 1] == '0') {
            n--;
        }
        n -= text[n - 1] == '.';
    }
    text[n] = 0;
    return n;
}

/* Adds what buf_add_number says; the room is there. */
static inline void put_number(struct buf *b, double x, int decimals)
{
    if (!isfinite(x)) {
        return;
    }
    char *text = b->text + b->length;
    int n = fixed_quickly(text, x, decimals, true);
    if (n == 0) {
        n = shortened(text, fixed_slowly(text, x, decimals), decimals);
    }
    b->length += (size_t)n;
}

void buf_add_number(struct buf *b, double x, int decimals)
{
    if (reserve(b, NUMBER_ROOM)) {
        put_number(b, x, decimals);
    }
}

void buf_add_cell(struct buf *b, double x, int decimals)
{
    if (reserve(b, NUMBER_ROOM + 1)) {
        b->text[b->length++] = ',';
        b->text[b->length] = 0;
        put_number(b, x, decimals);
    }
}

void buf_add_fixed(struct buf *b, double x, int decimals)
{
    assert(decimals >= 0);
    if (!isfinite(x)) {
        buf_add_char(b, '-');
    } else if (reserve(b, NUMBER_ROOM)) {
        char *text = b->text + b->length;
        int n = fixed_quickly(text, x, decimals, false);
        b->length += (size_t)(n > 0 ? n : fixed_slowly(text, x, decimals));
    }
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

void buf_add_column(struct buf *b, const char *text, size_t width)
{
    assert(width > 3);
    size_t n = strlen(text), letters = json_scan_letters(text, n);
    buf_add_clean(b, text, n, letters > width ? width - 3 : width);
    buf_addf(b, "%*s", letters < width ? (int)(width - letters) : 0, "");
}
