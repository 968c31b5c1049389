/* Text from anywhere, made safe for gnuplot and XML. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/plot_inner.h"

#include <string.h>

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
    buf_add_clean(&clean, text, strlen(text), most);
    quote(b, clean.text, clean.length);
    buf_release_into(&clean, b);
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
    buf_release_into(&lines, b);
    return n;
}
