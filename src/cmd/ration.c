/* sugarlea ration: the feed of the morning's advice, added up.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/ration.h"
#include "cmd/context.h"
#include "cmd/today.h"

static enum err_code answer(const struct options *o, const struct today_view *v, struct buf *out, struct err *e)
{
    if (v->day->run->animals == 0) {
        err_set(e, ERR_USAGE, "a ration is an animal's: the holding has none, and no --animal CLASS was given");
        return err_at(e, NULL, 0, 0, "--animal");
    }
    if (o->json) {
        ration_json(v, out);
    } else {
        struct page page = options_page(o, out);
        ration_text(v, o->arithmetic, page.colour, page.width, out);
    }
    return ERR_OK;
}

enum err_code cmd_ration(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct today_view v = {0};
    context_init(&c);
    enum err_code code = today_find(&c, o, &v, e);
    if (code == ERR_OK) {
        code = answer(o, &v, out, e);
        *status = today_status(o, &v);
    }
    context_release(&c);
    return code;
}
