/* sugarlea params: every number of the model. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/context.h"
#include "cmd/today.h"

#include <math.h>
#include <string.h>

static void json_entry(const struct param_entry *p, struct buf *b)
{
    const struct {
        const char *key, *text;
    } word[] = {{"unit", p->unit}, {"source", p->source}, {"evidence", p->evidence}};
    buf_add(b, "{\"path\":");
    buf_add_json_string(b, p->path);
    buf_add(b, ",\"value\":");
    buf_add_number(b, p->value, 9);
    buf_add(b, ",\"low\":");
    buf_add_number(b, p->low, 9);
    buf_add(b, ",\"high\":");
    buf_add_number(b, p->high, 9);
    for (size_t i = 0; i < 3; i++) {
        buf_addf(b, ",\"%s\":", word[i].key);
        buf_add_json_string(b, word[i].text);
    }
    buf_add_char(b, '}');
}

/* The models of a folder that is named may hold anything. */
static void clean(const char *text, struct buf *b)
{
    buf_add_clean(b, text, strlen(text), strlen(text));
}

static void text_entry(const struct param_entry *p, struct buf *b)
{
    bool bare = strcmp(p->unit, "1") == 0;
    clean(p->path, b);
    buf_add(b, " = ");
    buf_add_number(b, p->value, 9);
    buf_add(b, bare ? "" : " ");
    clean(bare ? "" : p->unit, b);
    buf_add(b, " (");
    buf_add_number(b, p->low, 9);
    buf_add(b, " to ");
    buf_add_number(b, p->high, 9);
    buf_add(b, ")\n    source: ");
    clean(p->source[0] ? p->source : "none", b);
    buf_add(b, " [");
    clean(p->evidence, b);
    buf_add(b, "]\n");
}

enum err_code cmd_params(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    (void)status;
    context_init(&c);
    enum err_code code = context_params(&c, e);
    if (o->json) {
        buf_add(out, "{\"schema\":1,\"parameters\":[");
    }
    for (size_t i = 0; code == ERR_OK && i < c.params.list.n; i++) {
        if (o->json) {
            buf_add(out, i ? "," : "");
            json_entry(&c.params.list.entry[i], out);
        } else {
            text_entry(&c.params.list.entry[i], out);
        }
    }
    buf_add(out, o->json ? "]}\n" : "");
    context_release(&c);
    return code;
}
