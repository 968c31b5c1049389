/* Text from anywhere, made safe for gnuplot and XML. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json_scan.h"
#include "out/plot_inner.h"

#include <string.h>

/* C0, DEL, C1, and what separates lines or turns the direction of writing. */
static bool is_control(const unsigned char *s, size_t n)
{
    if (n == 1) {
        return s[0] < 0x20 || s[0] == 0x7f;
    }
    return (n == 2 && s[0] == 0xc2 && s[1] < 0xa0) ||
           (n == 3 && s[0] == 0xe2 &&
            ((s[1] == 0x80 && s[2] >= 0xa8 && s[2] <= 0xae) || (s[1] == 0x81 && s[2] >= 0xa6 && s[2] <= 0xa9)));
}

void plot_add_clean(struct buf *b, const char *text, size_t most)
{
    const unsigned char *s = (const unsigned char *)text;
    size_t left = strlen(text), count = 0;
    while (left && count < most) {
        size_t n = json_scan_utf8(s, left);
        if (n == 0) {
            buf_add_char(b, '?');
        } else if (is_control(s, n)) {
            buf_add_char(b, ' ');
        } else {
            buf_add_bytes(b, (const char *)s, n);
        }
        s += n ? n : 1;
        left -= n ? n : 1;
        count++;
    }
    buf_add(b, left ? "..." : "");
}

/* Clean bytes into single quotes, in which nothing else means anything. Doubling a quote
 * within would be the documented way, but gnuplot 5.4 takes the doubled one at the
 * beginning for an empty string and goes on reading behind it: the apostrophe of print
 * (U+2019) stands in its place. */
static void quote(struct buf *b, const char *text, size_t n)
{
    buf_add_char(b, '\'');
    for (size_t i = 0; i < n; i++) {
        if (text[i] == '\'') {
            buf_add(b, "\xe2\x80\x99");
        } else {
            buf_add_char(b, text[i]);
        }
    }
    buf_add_char(b, '\'');
}

void plot_add_quoted(struct buf *b, const char *text, size_t most)
{
    struct buf clean;
    buf_init(&clean);
    plot_add_clean(&clean, text, most);
    quote(b, clean.text, clean.length);
    b->failed |= clean.failed;
    buf_release(&clean);
}

void plot_add_xml(struct buf *b, const char *text)
{
    for (; *text; text++) {
        switch (*text) {
        case '&':
            buf_add(b, "&amp;");
            break;
        case '<':
            buf_add(b, "&lt;");
            break;
        case '>':
            buf_add(b, "&gt;");
            break;
        default:
            buf_add_char(b, *text);
        }
    }
}

static bool begins_character(char c)
{
    return ((unsigned char)c & 0xc0) != 0x80;
}

/* Bytes of the next line: as many words as fit, or a piece of a word that does not. */
static size_t line_of(const char *text, size_t width)
{
    size_t at = 0, fits = 0;
    for (size_t count = 0; text[at] && (count < width || !begins_character(text[at])); at++) {
        count += begins_character(text[at]);
        fits = text[at] == ' ' ? at : fits;
    }
    return !text[at] || text[at] == ' ' || fits == 0 ? at : fits;
}

size_t plot_add_wrapped(struct buf *b, const char *name, const char *text, size_t width)
{
    struct buf lines;
    size_t n = 0;
    buf_init(&lines);
    do {
        size_t length = line_of(text, width);
        buf_addf(&lines, "%s[%zu] = ", name, ++n);
        quote(&lines, text, length);
        buf_add_char(&lines, '\n');
        text += length;
        text += strspn(text, " ");
    } while (*text);
    buf_addf(b, "array %s[%zu]\n", name, n);
    buf_add_bytes(b, lines.text, lines.length);
    b->failed |= lines.failed;
    buf_release(&lines);
    return n;
}
