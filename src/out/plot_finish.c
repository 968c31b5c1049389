/* Judging and mending what gnuplot drew. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/plot_inner.h"

#include <string.h>

/* The end of an IHDR-to-IEND stream: length 0, name, check sum (PNG specification, 11.2.5). */
static const char png_begins[] = "\x89PNG\r\n\x1a\n", png_ends[] = "\0\0\0\0IEND\xae\x42\x60\x82";

static bool begins(const struct buf *b, const char *with, size_t n)
{
    return b->length >= n && memcmp(b->text, with, n) == 0;
}

static bool ends(const struct buf *b, const char *with, size_t n)
{
    return b->length >= n && memcmp(b->text + b->length - n, with, n) == 0;
}

static bool finish_png(struct buf *image)
{
    return begins(image, png_begins, sizeof png_begins - 1) && ends(image, png_ends, sizeof png_ends - 1);
}

/* A date of making would make each picture differ: blanks in its place keep all offsets. */
static bool finish_pdf(struct buf *image)
{
    static const char date[] = "/CreationDate (";
    if (!begins(image, "%PDF-", 5) || !(ends(image, "%%EOF\n", 6) || ends(image, "%%EOF", 5))) {
        return false;
    }
    char *at = memmem(image->text, image->length, date, sizeof date - 1);
    char *close = at ? memchr(at, ')', image->length - (size_t)(at - image->text)) : NULL;
    if (at && close) {
        memset(at, ' ', (size_t)(close - at) + 1);
    }
    return !at || close;
}

static void add_head(const struct plot *p, struct buf *to)
{
    buf_add(to, "<title>");
    plot_add_xml(to, p->title.text);
    buf_add(to, p->about.length ? ": " : "");
    plot_add_xml(to, p->about.text);
    buf_add(to, "</title>\n<desc>");
    plot_add_xml(to, p->caption.text);
    buf_add(to, "</desc>");
}

/* Past the end of the element that begins at `at`; NULL when it has none. */
static const char *past(const char *at, const char *end)
{
    const char *found = strstr(at, end);
    return found ? found + strlen(end) : NULL;
}

/* What is taken out at a '<': gnuplot's own title, description and tool tips, and groups in
 * which nothing is drawn. NULL: nothing. */
static const char *dropped(const char *at)
{
    static const char group[] = "<g fill=", hollow[] = "\n</g>\n";
    if (strncmp(at, "<title>", 7) == 0) {
        return past(at, "</title>");
    }
    if (strncmp(at, "<desc>", 6) == 0) {
        return past(at, "</desc>");
    }
    const char *inside = strncmp(at, group, sizeof group - 1) == 0 ? past(at, ">") : NULL;
    return inside && strncmp(inside, hollow, sizeof hollow - 1) == 0 ? inside + sizeof hollow - 1 : NULL;
}

/* An id that gnuplot gives in every picture becomes one of this figure, so that pages may
 * hold several. Past it; NULL: it is none. */
static const char *renamed(const char *at, const struct plot *p, struct buf *to)
{
    static const char *const own[] = {"'gpDot",   "'#gpDot",  "'gpPt",    "'#gpPt",          "'textbox",
                                      "'greybox", "#textbox", "#greybox", "\"gnuplot_canvas"};
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++) {
        size_t n = strlen(own[i]), lead = strspn(own[i], "'\"#");
        if (strncmp(at, own[i], n) == 0) {
            buf_add_bytes(to, own[i], lead);
            buf_addf(to, "sugarlea-%s-%s", p->figure, own[i] + lead);
            return at + n;
        }
    }
    return NULL;
}

static bool is_svg(const struct buf *image)
{
    static const char ending[] = "</svg>";
    struct buf whole = *image;
    while (whole.length && strchr(" \r\n\t", whole.text[whole.length - 1])) {
        whole.length--;
    }
    return strlen(image->text) == image->length && begins(image, "<?xml", 5) && strstr(image->text, "<svg") &&
           ends(&whole, ending, sizeof ending - 1);
}

static bool finish_svg(const struct plot *p, struct buf *image)
{
    struct buf to;
    bool headed = false, in_tag = false;
    if (!is_svg(image)) {
        return false;
    }
    buf_init(&to);
    for (const char *at = image->text; *at;) {
        const char *next = *at == '<' ? dropped(at) : in_tag ? renamed(at, p, &to) : NULL;
        if (next) {
            if (*at == '<' && !headed) {
                add_head(p, &to);
                headed = true;
            }
            at = next;
            continue;
        }
        in_tag = *at == '<' || (in_tag && *at != '>');
        buf_add_char(&to, *at++);
    }
    buf_release(image);
    *image = to;
    return headed && !to.failed;
}

bool plot_finish(const struct plot *p, enum plot_format format, struct buf *image)
{
    switch (format) {
    case PLOT_SVG:
        return finish_svg(p, image);
    case PLOT_PNG:
        return finish_png(image);
    default:
        return finish_pdf(image);
    }
}
