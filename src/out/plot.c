/* A figure's variables and data as gnuplot reads them. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/plot_inner.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { DECIMALS = 4, NAMES_ROOM = 64, CAPTION_MOST = 2000 };

void plot_init(struct plot *p, const char *figure, double body)
{
    *p = (struct plot){.figure = figure, .body = body};
    buf_init(&p->given);
    buf_init(&p->title);
    buf_init(&p->about);
    buf_init(&p->caption);
}

void plot_release(struct plot *p)
{
    buf_release(&p->given);
    buf_release(&p->title);
    buf_release(&p->about);
    buf_release(&p->caption);
}

void plot_title(struct plot *p, const char *title, const char *about)
{
    buf_add_clean(&p->title, title, strlen(title), PLOT_TEXT_MOST);
    buf_add_clean(&p->about, about, strlen(about), PLOT_TEXT_MOST);
}

void plot_caption(struct plot *p, const char *sentence)
{
    buf_add(&p->caption, p->caption.length && sentence[0] ? " " : "");
    buf_add_clean(&p->caption, sentence, strlen(sentence), CAPTION_MOST);
}

void plot_number(struct plot *p, const char *name, double x)
{
    buf_addf(&p->given, "%s = ", name);
    if (isfinite(x)) {
        buf_add_number(&p->given, x, DECIMALS);
    } else {
        buf_add(&p->given, "NaN");
    }
    buf_add_char(&p->given, '\n');
}

void plot_text(struct plot *p, const char *name, const char *text)
{
    buf_addf(&p->given, "%s = ", name);
    plot_add_quoted(&p->given, text, PLOT_TEXT_MOST);
    buf_add_char(&p->given, '\n');
}

void plot_texts(struct plot *p, const char *name, const char *const *text, size_t n)
{
    buf_addf(&p->given, "array %s[%zu]\n", name, n);
    for (size_t i = 0; i < n; i++) {
        buf_addf(&p->given, "%s[%zu] = ", name, i + 1);
        plot_add_quoted(&p->given, text[i], PLOT_TEXT_MOST);
        buf_add_char(&p->given, '\n');
    }
}

void plot_scale(struct plot *p, const char *name, double most, int steps)
{
    static const double round_step[] = {1, 2, 2.5, 5, 10};
    char full[NAMES_ROOM];
    double least = fmax(most, 1e-6) / steps, power = pow(10.0, floor(log10(least))), step = 0.0;
    for (size_t i = 0; i < sizeof round_step / sizeof round_step[0] && step < least; i++) {
        step = round_step[i] * power;
    }
    snprintf(full, sizeof full, "%s_step", name);
    plot_number(p, full, step);
    snprintf(full, sizeof full, "%s_top", name);
    plot_number(p, full, step * ceil(most / step - 1e-9));
}

void plot_block(struct plot *p, const char *name)
{
    buf_addf(&p->given, "$%s << EOD\n", name);
}

void plot_row(struct plot *p, const double *x, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        buf_add(&p->given, i ? " " : "");
        if (isfinite(x[i])) {
            buf_add_number(&p->given, x[i], DECIMALS);
        } else {
            buf_add(&p->given, "NaN");
        }
    }
    buf_add_char(&p->given, '\n');
}

void plot_block_end(struct plot *p)
{
    buf_add(&p->given, "EOD\n");
}
