/* Parts of the hay plan's text. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_HAY_WORDS_H
#define SUGARLEA_OUT_HAY_WORDS_H

#include "out/hay.h"
#include "out/text.h"

struct hay_sheet {
    const struct hay_view *v;
    struct page page;
};

/* How the middle figures come about, step by step. */
void hay_arithmetic(const struct hay_sheet *s);

#endif
