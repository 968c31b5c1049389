/* sugarlea tune: the paddocks fitted to their grass tests.
 *
 * tuning.json.before is the file as it was before the last --apply, to the byte; empty
 * when there was none. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/file.h"
#include "cmd/tested.h"
#include "cmd/today.h"
#include "cmd/tuned.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { NAME_MOST = LIMIT_PATH + 32, DOUBTFUL_NAMED = 3 };

struct names {
    char now[NAME_MOST], before[NAME_MOST];
};

static enum err_code find_names(const struct holding *h, struct names *n, struct err *e)
{
    tuned_path(h, "", n->now, sizeof n->now);
    tuned_path(h, ".before", n->before, sizeof n->before);
    if (!n->now[0]) {
        err_set(e, ERR_USAGE, "tests belong to the paddocks of a holding file: name one, or start in its folder");
        return err_at(e, NULL, 0, 0, "--holding");
    }
    return ERR_OK;
}

static enum err_code take_away(const char *path, struct err *e)
{
    if (unlink(path) != 0 && errno != ENOENT) {
        err_set(e, ERR_WRITE, "cannot be removed: %s", strerror(errno));
        return err_at(e, path, 0, 0, NULL);
    }
    return ERR_OK;
}

/* Copies `from` to `to` whole; a file that is not there becomes an empty one. */
static enum err_code copy(const char *from, const char *to, struct err *e)
{
    struct file_view view = {.data = "", .size = 0};
    if (access(from, F_OK) != 0) {
        return file_replace(to, "", 0, e);
    }
    enum err_code code = file_view(from, LIMIT_JSON_BYTES, &view, e);
    if (code == ERR_OK) {
        code = file_replace(to, view.data, view.size, e);
        file_unview(&view);
    }
    return code;
}

/* Does the file hold these bytes and no others? */
static bool holds(const char *path, const struct buf *b)
{
    struct file_view view;
    struct err ignored;
    if (access(path, F_OK) != 0 || file_view(path, LIMIT_JSON_BYTES, &view, &ignored) != ERR_OK) {
        return false;
    }
    bool same = view.size == b->length && memcmp(view.data, b->text, view.size) == 0;
    file_unview(&view);
    return same;
}

/* Copies the file to its .before and replaces it. */
static enum err_code replace(const struct names *name, const struct buf *b, struct tune_view *v, struct err *e)
{
    if (holds(name->now, b)) {
        v->done = TUNE_AS_BEFORE;
        return ERR_OK;
    }
    enum err_code code = copy(name->now, name->before, e);
    code = code == ERR_OK ? file_replace(name->now, b->text, b->length, e) : code;
    v->done = code == ERR_OK ? TUNE_WRITTEN : v->done;
    return code;
}

/* The lock is that of the holding file, which is there in any case: two at once must not take each other's file for
 * the one before. */
static enum err_code write_file(const struct names *name, const struct buf *b, struct tune_view *v, struct err *e)
{
    int lock = -1;
    enum err_code code = b->failed ? err_set(e, ERR_NOMEM, "out of memory") : file_lock(v->holding->path, &lock, e);
    if (code == ERR_OK) {
        code = replace(name, b, v, e);
        file_unlock(lock);
    }
    return code;
}

/* Tests that are likelier slips than true, by their lines in the diary. */
static enum err_code refuse_doubtful(const struct tune_view *v, struct err *e)
{
    char which[LIMIT_TEXT] = "", date[DATE_TEXT];
    size_t n = 0, used = 0;
    for (size_t i = 0; i < v->paddocks; i++) {
        for (size_t k = 0; k < v->paddock[i].rows; k++) {
            const struct tune_row *row = &v->paddock[i].row[k];
            if (row->doubtful && n++ < DOUBTFUL_NAMED) {
                used += (size_t)snprintf(which + used, sizeof which - used,
                                         "%sline %zu (%s: %.0f g/kg measured, %.0f "
                                         "modelled)",
                                         n > 1 ? ", " : "", row->entry->line, date_format(row->entry->date, date),
                                         row->entry->value, row->modelled);
            }
        }
    }
    if (n == 0) {
        return ERR_OK;
    }
    err_set(e, ERR_DATA,
            "%zu test%s too far from the model to rely on: %s%s; mend the unit or take the line out of the file, or, "
            "when the laboratory stands by it, say --insist",
            n, n > 1 ? "s lie" : " lies", which, n > DOUBTFUL_NAMED ? " and more" : "");
    return err_at(e, v->diary->path, 0, 0, NULL);
}

static enum err_code apply(struct context *c, const struct names *name, struct tune_view *v, struct err *e)
{
    struct tuning_file f = {.row = arena_alloc(&c->arena, v->paddocks, sizeof *f.row)};
    struct buf b;
    if (!f.row) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    snprintf(f.model, sizeof f.model, "%s", c->params.hash);
    for (size_t i = 0; i < v->paddocks; i++) {
        if (v->paddock[i].tuned.tests > 0) {
            struct tuning_row *row = &f.row[f.n++];
            snprintf(row->id, sizeof row->id, "%s", v->paddock[i].kept->id);
            row->tuned = v->paddock[i].tuned;
        }
    }
    if (f.n == 0) {
        return err_set(e, ERR_NOINPUT,
                       "there is no grass test to tune by: \"sugarlea record grass-nsc PADDOCK VALUE\" adds one, and "
                       "\"sugarlea tune\" says which are passed over");
    }
    buf_init(&b);
    tuning_print(&f, &b);
    enum err_code code = write_file(name, &b, v, e);
    buf_release(&b);
    return code;
}

static enum err_code put_back(const struct names *name, bool *none, struct err *e)
{
    struct file_view view;
    if (access(name->before, F_OK) != 0) {
        err_set(e, ERR_NOINPUT, "is not there, so there is nothing to undo: one step back is kept");
        return err_at(e, name->before, 0, 0, NULL);
    }
    enum err_code code = file_view(name->before, LIMIT_JSON_BYTES, &view, e);
    if (code != ERR_OK) {
        return code;
    }
    *none = view.size == 0;
    code = *none ? take_away(name->now, e) : file_replace(name->now, view.data, view.size, e);
    file_unview(&view);
    return code == ERR_OK ? take_away(name->before, e) : code;
}

static enum err_code undo(const struct names *name, const char *holding, const struct options *o, struct buf *out,
                          struct err *e)
{
    int lock;
    bool none = false;
    enum err_code code = file_lock(holding, &lock, e);
    if (code == ERR_OK) {
        code = put_back(name, &none, e);
        file_unlock(lock);
    }
    if (code == ERR_OK && o->json) {
        buf_addf(out, "{\"schema\":1,\"undone\":true,\"tuned\":%s}\n", none ? "false" : "true");
    } else if (code == ERR_OK) {
        buf_add(out, none ? "tuning.json is taken away again: the paddocks count as not tested.\n"
                          : "tuning.json is as it was before the last --apply.\n");
    }
    return code;
}

static enum err_code find(struct context *c, const struct options *o, struct tune_view *v, struct err *e)
{
    struct names name;
    enum err_code code = context_load(c, o, e);
    code = code == ERR_OK ? find_names(&c->holding, &name, e) : code;
    code = code == ERR_OK ? tested_find(c, v, e) : code;
    if (code == ERR_OK && o->apply && !o->insist) {
        code = refuse_doubtful(v, e);
    }
    return code == ERR_OK && o->apply ? apply(c, &name, v, e) : code;
}

static enum err_code take_back(struct context *c, const struct options *o, struct buf *out, struct err *e)
{
    struct names name;
    enum err_code code = context_holding(c, o, e);
    code = code == ERR_OK ? find_names(&c->holding, &name, e) : code;
    return code == ERR_OK ? undo(&name, c->holding.path, o, out, e) : code;
}

enum err_code cmd_tune(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct tune_view v = {.holding = &c.holding};
    (void)status;
    if (o->apply && o->undo) {
        err_set(e, ERR_USAGE, "cannot go with --apply: it takes the last one back");
        return err_at(e, NULL, 0, 0, "--undo");
    }
    context_init(&c);
    c.untuned = true;
    enum err_code code = o->undo ? take_back(&c, o, out, e) : find(&c, o, &v, e);
    if (code == ERR_OK && !o->undo && o->json) {
        tune_json(&v, out);
    } else if (code == ERR_OK && !o->undo) {
        struct page page = options_page(o, out);
        tune_text(&v, page.colour, page.width, out);
    }
    context_release(&c);
    return code;
}
