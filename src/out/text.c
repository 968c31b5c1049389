/* Wrapped text. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/text.h"

#include "base/json_scan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void wrap(const struct page *p, const char *lead, const char *text)
{
    size_t indent = json_scan_letters(lead, strlen(lead)) - (lead[0] == '\n'), at = indent;
    buf_add(p->b, lead);
    while (*text) {
        size_t n = strcspn(text, " "), letters = json_scan_letters(text, n);
        if (at > indent && at + 1 + letters > (size_t)p->width) {
            buf_addf(p->b, "\n%*s", (int)indent, "");
            at = indent;
        }
        if (at > indent) {
            buf_add_char(p->b, ' ');
            at++;
        }
        buf_add_clean(p->b, text, n, n);
        at += letters;
        text += n + (text[n] == ' ');
    }
}

void text_wrap(const struct page *p, const char *lead, const char *text)
{
    wrap(p, lead, text);
    buf_add_char(p->b, '\n');
}

void text_wrap_bold(const struct page *p, const char *lead, const char *text)
{
    buf_add(p->b, p->colour ? "\033[1m" : "");
    wrap(p, lead, text);
    buf_add(p->b, p->colour ? "\033[0m\n" : "\n");
}

const char *text_day(double day, char *text)
{
    date_format_long((date_t)day, text, TEXT_DAY);
    const char *rest = strchr(text, ' ');
    return rest ? rest + 1 : text;
}

void text_bold(const struct page *p, const char *text)
{
    buf_add(p->b, p->colour ? "\033[1m" : "");
    buf_add_clean(p->b, text, strlen(text), strlen(text));
    buf_add(p->b, p->colour ? "\033[0m" : "");
}

const char text_closing_words[] =
    "Planning help, not a diagnosis. A lame, hot-footed or feed-refusing animal, or one that got at grain, needs a vet "
    "today. Local rules and your vet come first.";

void text_closing(const struct page *p)
{
    text_wrap(p, "", text_closing_words);
}
