/* Text in parts, as lines or for man(7). SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/doc.h"

#include "out/text.h"

#include <stdio.h>
#include <string.h>

enum { EXAMPLE_INDENT = 4, TERM_ROOM = 128 };

/* n bytes that man(7) shows as they are: hyphens stay hyphens when copied from the page. */
static void add_roff(struct buf *b, const char *text, size_t n, bool line_begins)
{
    static const struct {
        char c;
        const char *roff;
    } escapes[] = {{'\\', "\\e"},  {'-', "\\-"},   {'\'', "\\(aq"}, {'`', "\\(ga"},
                   {'~', "\\(ti"}, {'^', "\\(ha"}, {'"', "\\(dq"}};
    if (line_begins && n > 0 && text[0] == '.') {
        buf_add(b, "\\&");
    }
    for (size_t i = 0; i < n; i++) {
        const char *roff = NULL;
        for (size_t k = 0; k < sizeof escapes / sizeof escapes[0] && !roff; k++) {
            roff = text[i] == escapes[k].c ? escapes[k].roff : NULL;
        }
        if (roff) {
            buf_add(b, roff);
        } else {
            buf_add_char(b, text[i]);
        }
    }
}

void doc_macro(const struct doc *d, const char *macro, const char *text)
{
    buf_addf(d->b, "%s \"", macro);
    add_roff(d->b, text, strlen(text), false);
    buf_add(d->b, "\"\n");
}

/* A new paragraph: nothing to do right under a heading. */
static void begin_roff(struct buf *b)
{
    size_t line = b->length ? b->length - 1 : 0; /* where the last line begins */
    while (line > 0 && b->text[line - 1] != '\n') {
        line--;
    }
    if (strncmp(b->text + line, ".S", 2) != 0) {
        buf_add(b, ".PP\n");
    }
}

/* A sentence begins a line, as is the custom of manual pages; no line grows long. */
static void add_paragraph_roff(struct buf *b, const char *text)
{
    enum { LINE_MOST = 78 };
    size_t line = b->length;
    bool sentence_ends = false;
    while (*text) {
        size_t n = strcspn(text, " "), before = b->length;
        bool first = b->length == line;
        buf_add(b, first ? "" : sentence_ends ? "\n" : " ");
        add_roff(b, text, n, first || sentence_ends);
        if (!first && !sentence_ends && b->length - line > LINE_MOST) {
            b->text[before] = '\n';
        }
        if (!b->failed && !first && b->text[before] == '\n') {
            line = before + 1;
        }
        sentence_ends = n > 0 && strchr(".!?", text[n - 1]) != NULL;
        text += n + strspn(text + n, " ");
    }
    buf_add_char(b, '\n');
}

static void end_paragraph(const struct doc *d, struct buf *words)
{
    if (words->length > 0 && d->manual) {
        begin_roff(d->b);
        add_paragraph_roff(d->b, words->text);
    } else if (words->length > 0) {
        text_wrap(&(struct page){.b = d->b, .width = DOC_WIDTH}, "", words->text);
    }
    buf_clear(words);
}

static void example_line(const struct doc *d, const char *line, size_t n)
{
    if (!d->manual) {
        buf_add_bytes(d->b, line, n);
        buf_add_char(d->b, '\n');
        return;
    }
    size_t blanks = strspn(line, " ");
    add_roff(d->b, line + blanks, n - blanks, true);
    buf_add_char(d->b, '\n');
}

static void turn_example(const struct doc *d, bool begins)
{
    if (d->manual && begins) {
        begin_roff(d->b);
        buf_addf(d->b, ".RS %d\n.nf\n", EXAMPLE_INDENT);
    } else if (d->manual) {
        buf_add(d->b, ".fi\n.RE\n");
    } else if (begins && d->b->length > 1 && d->b->text[d->b->length - 2] != '\n') {
        buf_add_char(d->b, '\n');
    }
}

void doc_flow(const struct doc *d, const char *text)
{
    struct buf words; /* of the paragraph so far */
    bool example = false;
    buf_init(&words);
    while (*text) {
        size_t n = strcspn(text, "\n");
        bool here = n > 0 && text[0] == ' ';
        if (n == 0 || here) {
            end_paragraph(d, &words);
        }
        if (here != example) {
            turn_example(d, here);
        }
        if (here) {
            example_line(d, text, n);
        } else if (n > 0) {
            buf_add(&words, words.length ? " " : "");
            buf_add_bytes(&words, text, n);
        } else if (!d->manual) {
            buf_add_char(d->b, '\n');
        }
        example = here;
        text += n + (text[n] == '\n');
    }
    end_paragraph(d, &words);
    if (example) {
        turn_example(d, false);
    }
    d->b->failed = d->b->failed || words.failed;
    doc_release(d, &words);
}

void doc_title(const struct doc *d, const char *text)
{
    if (d->manual) {
        begin_roff(d->b);
        add_paragraph_roff(d->b, text);
    } else {
        buf_addf(d->b, "\n%s\n", text);
    }
}

/* Names in bold; of an option, what stands for its value in italics. */
static void term_roff(struct buf *b, const char *term)
{
    bool option = term[0] == '-', bold = false;
    buf_add(b, ".TP\n");
    while (*term) {
        size_t n = strcspn(term, " ");
        bool name = !option || term[0] == '-';
        if (name != bold) {
            buf_add(b, name ? "\\fB" : "\\fR\\fI");
        }
        bold = name;
        add_roff(b, term, n, false);
        buf_add(b, term[n] ? " " : "");
        term += n + strspn(term + n, " ");
    }
    buf_add(b, "\\fR\n");
}

void doc_term(const struct doc *d, int column, const char *term, const char *text)
{
    char lead[TERM_ROOM];
    if (d->manual) {
        term_roff(d->b, term + strspn(term, " "));
        add_paragraph_roff(d->b, text);
        return;
    }
    if ((int)strlen(term) > column) {
        buf_addf(d->b, "  %s\n", term);
        term = "";
    }
    snprintf(lead, sizeof lead, "  %-*s  ", column, term);
    text_wrap(&(struct page){.b = d->b, .width = DOC_WIDTH}, lead, text);
}

void doc_release(const struct doc *d, struct buf *text)
{
    d->b->failed = d->b->failed || text->failed;
    buf_release(text);
}
