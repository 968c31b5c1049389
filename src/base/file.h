/* Files: mapped whole for reading, replaced whole and durably for writing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FILE_H
#define SUGARLEA_FILE_H

#include "base/buf.h"
#include "base/err.h"
#include "base/limits.h"

#include <stdbool.h>
#include <stddef.h>

struct file_view {
    const char *data; /* size bytes, not closed with 0 */
    size_t size;
    void *owned; /* what file_unview gives back; NULL for an empty file */
    int mapped;  /* 1: mapping, 0: heap copy (pipes, "-" for standard input) */
};

/* Maps path read-only ("-": standard input, read whole). A folder, a missing or
 * unreadable file, and one above limit bytes are errors (ERR_NOINPUT, ERR_DATA)
 * that name the file. The caller calls file_unview. */
enum err_code file_view(const char *path, size_t limit, struct file_view *view, struct err *e);
void file_unview(struct file_view *view);

/* Bytes of the byte-order mark that some systems put before text in UTF-8: 3, or 0 where there is none. */
size_t file_mark(const char *text, size_t size);

/* Writes into target the file that path names through all links, whether it is there yet or not: it is what
 * changes, and a link stays a link. ERR_CREATE for what is no plain file: nothing else is written to. */
enum err_code file_target(const char *path, char target[LIMIT_PATH], struct err *e);

/* Replaces path by the n bytes, atomically and durably: temp beside the target,
 * full-write loop, fsync, close checked, rename, fsync of the folder. A link stays, and
 * what it names is replaced; a new file gets the mode that the umask leaves, an old one
 * keeps its own. What is no plain file is refused. On any error the old file stands as
 * it was, but for one: where the folder could not be made durable, the new one stands
 * (ERR_WRITE, "is written, but ..."); a file system that cannot do that is no error.
 * ERR_CREATE, ERR_WRITE. */
enum err_code file_replace(const char *path, const char *bytes, size_t n, struct err *e);

/* Writes into path where `name`, which belongs to the program, is: beside the running program,
 * or as `make install` lays it out, in the folder `below` beside the program's folder. False:
 * it is in neither place. */
bool file_of_program(const char *name, const char *below, char *path, size_t size);

/* Writes into folder where a folder of files that belong to the program is: $variable
 * where that is set, else by file_of_program (share/sugarlea), else as the build says. */
void file_own_folder(const char *name, const char *variable, char *folder, size_t size);

/* Writes into path what names the file `name` in the folder of the file at `neighbour`. */
void file_beside(const char *neighbour, const char *name, char *path, size_t size);

/* Writes into pattern what glob() takes for this path and no other, cut short to size - 1 bytes. Its length. */
size_t file_as_pattern(const char *path, char *pattern, size_t size);

/* Appends the n bytes to path (created with header first when it is missing or
 * empty; header may be NULL) under an exclusive lock, durably; a write cut short
 * is taken back, and a last line without its end is ended first. Links, modes, other
 * kinds of files and errors as with file_replace; ERR_AGAIN when the lock is not had
 * within two seconds. */
enum err_code file_append(const char *path, const char *header, const char *bytes, size_t n, struct err *e);

/* The lock that file_append and file_update take, on a file that is there (else ERR_NOINPUT):
 * for changes to other files that belong to it, so it may be one that cannot be written.
 * file_unlock gives it back. */
enum err_code file_lock(const char *path, int *fd, struct err *e);
void file_unlock(int fd);

/* Makes the new content from the old one; an error leaves the file as it is. */
typedef enum err_code file_updater(const char *bytes, size_t n, struct buf *out, void *context, struct err *e);

/* Replaces the content of path by what update makes of it, while nobody else appends
 * or updates. ERR_NOINPUT when it is missing; else the errors of file_view (limit),
 * file_append and update. */
enum err_code file_update(const char *path, size_t limit, file_updater *update, void *context, struct err *e);

#endif
