/* Heads, keys and axes of the pictures in letters. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/picture_text.h"

#include "out/text.h"

#include <stdio.h>
#include <string.h>

const char letters_turnout[4] = {'.', 't', 'B', 'N'};
const char letters_level_key[] = "turnout: . free  t timed  B brief  N none";

void letters_head(const struct series *s, const char *title, struct buf *b)
{
    const struct page page = {.b = b, .width = LETTERS_PAGE};
    struct buf about;
    buf_init(&about);
    picture_about(s, &about);
    text_wrap(&page, "", title);
    text_wrap(&page, "", about.text);
    buf_add_char(b, '\n');
    buf_release_into(&about, b);
}

void letters_close(struct buf *b)
{
    buf_addf(b, "\n%s\n", picture_closing);
}

void letters_marks(const struct series *s, size_t columns,
                   void (*label)(const struct series *s, size_t k, char *text, size_t size), struct buf *b)
{
    char line[LETTERS_CHART + 16] = "", text[16];
    size_t end = 0;
    memset(line, ' ', sizeof line - 1);
    for (size_t k = 0; k < columns; k++) {
        label(s, k, text, sizeof text);
        size_t n = strlen(text);
        if (n && (end == 0 || k > end) && k + n <= sizeof line - 1) {
            memcpy(line + k, text, n);
            end = k + n;
        }
    }
    buf_addf(b, "%*s%.*s\n", LETTERS_SIDE, "", (int)end, line);
}

void letters_scale(const struct palette_scale *scale, struct buf *b)
{
    const struct page page = {.b = b, .width = LETTERS_PAGE};
    struct buf words;
    buf_init(&words);
    buf_add(&words, "NSC, g/kg of dry matter:");
    for (int k = 0; k < scale->n; k++) {
        if (k + 1 < scale->n && k > 0) {
            buf_addf(&words, " %d=%g-%g", k, scale->from[k], scale->from[k + 1]);
        } else {
            buf_addf(&words, k ? " %d=over %g" : " %d=under %g", k, scale->from[k ? k : scale->n > 1]);
        }
    }
    text_wrap(&page, "", words.text);
    buf_release_into(&words, b);
}
