/* Looking for holding files. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/round_list.h"

#include "base/file.h"
#include "base/limits.h"

#include <errno.h>
#include <fts.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

static const char holding_name[] = "holding.json";

static enum err_code add(struct round_list *list, const char *path, size_t length, const char *trouble, struct arena *a,
                         struct err *e)
{
    enum { ROOM_FIRST = 64 };
    if (list->n == LIMIT_HOLDINGS) {
        return err_set(e, ERR_USAGE, "these are more than %d holdings: split them over several rounds", LIMIT_HOLDINGS);
    }
    if (list->n == list->room) {
        size_t room = list->room ? 2 * list->room : ROOM_FIRST;
        struct round_place *grown = arena_alloc(a, room, sizeof *grown);
        if (!grown) {
            return err_set(e, ERR_NOMEM, "out of memory");
        }
        memcpy(grown, list->place ? list->place : grown, list->n * sizeof *grown);
        list->place = grown;
        list->room = room;
    }
    struct round_place *p = &list->place[list->n];
    p->path = arena_strndup(a, path, length);
    p->trouble = trouble ? arena_strdup(a, trouble) : NULL;
    if (!p->path || (trouble && !p->trouble)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    list->n++;
    return ERR_OK;
}

static int by_name(const FTSENT **left, const FTSENT **right)
{
    return strcmp((*left)->fts_name, (*right)->fts_name);
}

static bool is_holding(const FTSENT *f)
{
    struct stat s;
    bool named = f->fts_level == FTS_ROOTLEVEL || strcmp(f->fts_name, holding_name) == 0;
    return named &&
           (f->fts_info == FTS_F || (f->fts_info == FTS_SL && stat(f->fts_accpath, &s) == 0 && S_ISREG(s.st_mode)));
}

static enum err_code missing(const FTSENT *f, struct err *e)
{
    err_set(e, ERR_NOINPUT, "cannot be looked into: %s", strerror(f->fts_errno));
    return err_at(e, f->fts_path, 0, 0, NULL);
}

static enum err_code see(FTS *tree, FTSENT *f, struct arena *a, struct round_list *list, struct err *e)
{
    bool root = f->fts_level == FTS_ROOTLEVEL;
    switch (f->fts_info) {
    case FTS_D:
        if (!root && f->fts_name[0] == '.') {
            fts_set(tree, f, FTS_SKIP);
        } else if (f->fts_level == ROUND_DEPTH) {
            fts_set(tree, f, FTS_SKIP);
            return add(list, f->fts_path, f->fts_pathlen,
                       "lies too deep to be looked into: start the round nearer to it", a, e);
        }
        return ERR_OK;
    case FTS_DNR:
    case FTS_ERR:
    case FTS_NS:
        return root ? missing(f, e) : add(list, f->fts_path, f->fts_pathlen, strerror(f->fts_errno), a, e);
    default:
        return is_holding(f) ? add(list, f->fts_path, f->fts_pathlen, NULL, a, e) : ERR_OK;
    }
}

enum err_code round_list_below(char *const *folder, size_t n, struct arena *a, struct round_list *list, struct err *e)
{
    char **root = arena_alloc(a, n + 1, sizeof *root);
    if (!root) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    memcpy(root, folder, n * sizeof *root);
    FTS *tree = fts_open(root, FTS_PHYSICAL | FTS_COMFOLLOW | FTS_NOCHDIR, by_name);
    if (!tree) {
        return err_set(e, ERR_NOINPUT, "the folders cannot be looked into: %s", strerror(errno));
    }
    enum err_code code = ERR_OK;
    FTSENT *f;
    while (code == ERR_OK && (f = fts_read(tree)) != NULL) {
        code = see(tree, f, a, list, e);
    }
    if (code == ERR_OK && errno != 0) { /* fts_read: 0 at the end of the tree; else holdings would be passed over */
        code = err_set(e, errno == ENOMEM ? ERR_NOMEM : ERR_NOINPUT, "the folders cannot be looked into: %s",
                       strerror(errno));
    }
    fts_close(tree);
    return code;
}

/* One line of a list. */
static enum err_code add_line(const char *line, size_t length, struct arena *a, struct round_list *list, struct err *e)
{
    char path[LIMIT_PATH];
    struct stat s;
    if (length == 0) {
        return ERR_OK;
    }
    if (length >= sizeof path - sizeof holding_name - 1 || memchr(line, 0, length)) {
        return err_set(e, ERR_DATA, "a line of the list is no path: write one a line, each ended by a line end");
    }
    memcpy(path, line, length);
    path[length] = 0;
    if (stat(path, &s) == 0 && S_ISDIR(s.st_mode)) {
        snprintf(path + length, sizeof path - length, "%s%s", path[length - 1] == '/' ? "" : "/", holding_name);
    }
    return add(list, path, strlen(path), NULL, a, e);
}

enum err_code round_list_read(const char *path, struct arena *a, struct round_list *list, struct err *e)
{
    struct file_view view;
    enum err_code code = file_view(path, LIMIT_LIST_BYTES, &view, e);
    size_t at = 0, line = 0;
    if (code != ERR_OK) {
        return code;
    }
    while (at < view.size && code == ERR_OK) {
        const char *start = view.data + at, *end = memchr(start, '\n', view.size - at);
        size_t length = end ? (size_t)(end - start) : view.size - at;
        at += length + 1;
        line++;
        length -= length > 0 && start[length - 1] == '\r';
        code = add_line(start, length, a, list, e);
        if (code == ERR_DATA) {
            err_at(e, strcmp(path, "-") == 0 ? "standard input" : path, line, 0, NULL);
        }
    }
    file_unview(&view);
    return code;
}
