/* sugarlea params: one tab-separated line a number. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/params.h"

#include "base/buf.h"
#include "data/params.h"

#include <stdio.h>
#include <stdlib.h>

static enum err_code print_list(const struct param_list *list)
{
    struct buf b;
    buf_init(&b);
    for (size_t i = 0; i < list->n; i++) {
        const struct param_entry *p = &list->entry[i];
        buf_addf(&b, "%s\t", p->path);
        buf_add_number(&b, p->value, 9);
        buf_addf(&b, "\t%s\t%s\t%s\n", p->unit, p->source, p->evidence);
    }
    bool whole = !b.failed && fwrite(b.text, 1, b.length, stdout) == b.length && fflush(stdout) == 0;
    buf_release(&b);
    return whole ? ERR_OK : ERR_WRITE;
}

enum err_code cmd_params(void)
{
    struct arena a;
    struct params p;
    struct err e;
    const char *folder = getenv("SUGARLEA_MODELS");
    err_clear(&e);
    arena_init(&a);
    enum err_code code = params_load(folder ? folder : "models", &a, &p, &e);
    if (code == ERR_OK) {
        code = print_list(&p.list);
    } else {
        char text[1024];
        err_format(&e, text, sizeof text);
        fprintf(stderr, "sugarlea: %s\n", text);
    }
    arena_release(&a);
    return code;
}
