/* Escaping and drawing. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/html.h"

#include <math.h>
#include <string.h>

enum { SVG_DECIMALS = 1 };

void html_text(struct buf *b, const char *text, size_t most)
{
    static const char special[] = "&<>\"'";
    static const char *const entity[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;"};
    struct buf clean;
    buf_init(&clean);
    buf_add_clean(&clean, text, strlen(text), most);
    for (const char *c = clean.text; *c; c++) {
        const char *found = strchr(special, *c);
        if (found) {
            buf_add(b, entity[found - special]);
        } else {
            buf_add_char(b, *c);
        }
    }
    buf_release_into(&clean, b);
}

void html_element(struct buf *b, const char *tag, const char *text)
{
    buf_addf(b, "<%s>", tag);
    html_text(b, text, HTML_WHOLE);
    buf_addf(b, "</%s>", tag);
}

void html_name(struct buf *b, const char *name)
{
    html_element(b, "bdi", name);
}

static bool are_finite(const double *x, size_t n)
{
    size_t i = 0;
    while (i < n && isfinite(x[i])) {
        i++;
    }
    return i == n;
}

static void add_point(struct buf *b, const char *before, double x, double y)
{
    buf_add(b, before);
    buf_add_number(b, x, SVG_DECIMALS);
    buf_add_char(b, ' ');
    buf_add_number(b, y, SVG_DECIMALS);
}

static void add_attribute(struct buf *b, const char *name, double x)
{
    buf_addf(b, " %s=\"", name);
    buf_add_number(b, x, SVG_DECIMALS);
    buf_add_char(b, '"');
}

void svg_begin(struct buf *b, const char *id, double width, double height, const char *title, const char *about)
{
    buf_add(b, "<svg viewBox=\"0 0 ");
    add_point(b, "", width, height);
    buf_addf(b, "\" role=\"img\" aria-labelledby=\"%s-t %s-d\"><title id=\"%s-t\">", id, id, id);
    html_text(b, title, HTML_WHOLE);
    buf_addf(b, "</title><desc id=\"%s-d\">", id);
    html_text(b, about, HTML_WHOLE);
    buf_add(b, "</desc>\n");
}

void svg_end(struct buf *b)
{
    buf_add(b, "</svg>\n");
}

void svg_rect(struct buf *b, const char *class, double x, double y, double width, double height)
{
    if (!are_finite((const double[]){x, y, width, height}, 4)) {
        return;
    }
    buf_addf(b, "<rect class=\"%s\"", class);
    add_attribute(b, "x", x);
    add_attribute(b, "y", y);
    add_attribute(b, "width", width);
    add_attribute(b, "height", height);
    buf_add(b, "/>\n");
}

void svg_line(struct buf *b, const char *class, const double *x, const double *y, size_t n)
{
    bool drawing = false;
    buf_addf(b, "<path class=\"%s\" d=\"", class);
    for (size_t i = 0; i < n; i++) {
        bool here = isfinite(x[i]) && isfinite(y[i]);
        if (here) {
            add_point(b, drawing ? "L" : "M", x[i], y[i]);
        }
        drawing = here;
    }
    buf_add(b, "\"/>\n");
}

/* One unbroken piece of a band: along the high edge and back along the low one. */
static void add_piece(struct buf *b, const double *x, const double *low, const double *high, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        add_point(b, i ? "L" : "M", x[i], high[i]);
    }
    for (size_t i = n; i > 0; i--) {
        add_point(b, "L", x[i - 1], low[i - 1]);
    }
    buf_add(b, n ? "Z" : "");
}

void svg_band(struct buf *b, const char *class, const double *x, const double *low, const double *high, size_t n)
{
    size_t from = 0;
    buf_addf(b, "<path class=\"%s\" d=\"", class);
    for (size_t i = 0; i <= n; i++) {
        if (i == n || !are_finite((const double[]){x[i], low[i], high[i]}, 3)) {
            add_piece(b, x + from, low + from, high + from, i - from);
            from = i + 1;
        }
    }
    buf_add(b, "\"/>\n");
}

void svg_text(struct buf *b, const char *class, double x, double y, const char *text)
{
    if (!are_finite((const double[]){x, y}, 2)) {
        return;
    }
    buf_addf(b, "<text class=\"%s\"", class);
    add_attribute(b, "x", x);
    add_attribute(b, "y", y);
    buf_add_char(b, '>');
    html_text(b, text, HTML_WHOLE);
    buf_add(b, "</text>\n");
}
