/* Looking for holding files. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/round_list.h"

#include "base/file.h"
#include "base/limits.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
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

static int by_name(const struct dirent **left, const struct dirent **right)
{
    return strcmp((*left)->d_name, (*right)->d_name);
}

/* What a folder is looked into for: a holding, and folders that are not hidden. */
static int may_hold(const struct dirent *entry)
{
    return strcmp(entry->d_name, holding_name) == 0 ||
           (entry->d_name[0] != '.' && (entry->d_type == DT_DIR || entry->d_type == DT_UNKNOWN));
}

struct walk {
    struct arena *arena;
    struct round_list *list;
    struct err *e;
    char path[LIMIT_PATH]; /* of what is being looked at */
};

/* What is at the path cannot be looked into: an error where it was named or memory is out, else a place with its
 * trouble. */
static enum err_code shut(struct walk *w, size_t length, int depth, int fault)
{
    if (fault == ENOMEM) {
        return err_set(w->e, ERR_NOMEM, "out of memory");
    }
    if (depth == 0) {
        err_set(w->e, ERR_NOINPUT, "cannot be looked into: %s", strerror(fault));
        return err_at(w->e, w->path, 0, 0, NULL);
    }
    return add(w->list, w->path, length, strerror(fault), w->arena, w->e);
}

static enum err_code see(struct walk *w, size_t length, const char *name, int depth);

static enum err_code look_into(struct walk *w, size_t length, int depth)
{
    struct dirent **entry = NULL;
    if (depth == ROUND_DEPTH) {
        return add(w->list, w->path, length, "lies too deep to be looked into: start the round nearer to it", w->arena,
                   w->e);
    }
    int n = scandir(w->path, &entry, may_hold, by_name);
    if (n < 0) {
        return shut(w, length, depth, errno);
    }
    enum err_code code = ERR_OK;
    for (int i = 0; i < n; i++) {
        code = code == ERR_OK ? see(w, length, entry[i]->d_name, depth) : code;
        free(entry[i]);
    }
    free(entry);
    return code;
}

/* The entry `name` of the folder that the first bytes of the path name. */
static enum err_code see(struct walk *w, size_t length, const char *name, int depth)
{
    struct stat s;
    const char *slash = length > 0 && w->path[length - 1] == '/' ? "" : "/";
    size_t room = sizeof w->path - length;
    int more = snprintf(w->path + length, room, "%s%s", slash, name);
    if (more < 0 || (size_t)more >= room) {
        w->path[length] = 0;
        return shut(w, length, depth + 1, ENAMETOOLONG);
    }
    enum err_code code = ERR_OK;
    if (lstat(w->path, &s) != 0) {
        code = shut(w, length + (size_t)more, depth + 1, errno);
    } else if (S_ISDIR(s.st_mode)) {
        code = look_into(w, length + (size_t)more, depth + 1);
    } else if (strcmp(name, holding_name) == 0 && stat(w->path, &s) == 0 && S_ISREG(s.st_mode)) {
        code = add(w->list, w->path, length + (size_t)more, NULL, w->arena, w->e);
    }
    w->path[length] = 0;
    return code;
}

/* A folder or file that was named. */
static enum err_code look_at(struct walk *w, const char *root)
{
    struct stat s;
    size_t length = strlen(root);
    size_t kept = length < sizeof w->path ? length : sizeof w->path - 1;
    memcpy(w->path, root, kept);
    w->path[kept] = 0;
    if (kept < length) {
        return shut(w, kept, 0, ENAMETOOLONG);
    }
    if (stat(root, &s) != 0) {
        return shut(w, length, 0, errno);
    }
    if (S_ISDIR(s.st_mode)) {
        return look_into(w, length, 0);
    }
    return S_ISREG(s.st_mode) ? add(w->list, root, length, NULL, w->arena, w->e) : ERR_OK;
}

enum err_code round_list_below(char *const *folder, size_t n, struct arena *a, struct round_list *list, struct err *e)
{
    struct walk w = {.arena = a, .list = list, .e = e};
    enum err_code code = ERR_OK;
    for (size_t i = 0; i < n && code == ERR_OK; i++) {
        code = look_at(&w, folder[i]);
    }
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
    size_t line = 0;
    if (code != ERR_OK) {
        return code;
    }
    size_t at = file_mark(view.data, view.size);
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
