/* Mapped reading; durable replacing and appending.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/file.h"

#include "base/limits.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static enum err_code fail(struct err *e, enum err_code code, const char *path, const char *what)
{
    err_set(e, code, "%s: %s", what, strerror(errno));
    return err_at(e, path, 0, 0, NULL);
}

/* Reads a pipe or other file without a size, whole. */
static enum err_code read_stream(int fd, const char *path, size_t limit, struct file_view *view, struct err *e)
{
    size_t capacity = 64u << 10, size = 0;
    char *bytes = malloc(capacity);
    while (bytes) {
        assert(size < capacity);
        ssize_t got = read(fd, bytes + size, capacity - size);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            free(bytes);
            return fail(e, ERR_NOINPUT, path, "cannot be read");
        }
        if (got == 0) {
            *view = (struct file_view){.data = bytes, .size = size, .owned = bytes};
            return ERR_OK;
        }
        size += (size_t)got;
        if (size > limit) {
            free(bytes);
            err_set(e, ERR_DATA, "the input is longer than the %zu bytes allowed", limit);
            return err_at(e, path, 0, 0, NULL);
        }
        if (size == capacity) {
            char *more = realloc(bytes, capacity *= 2);
            if (!more) {
                free(bytes);
            }
            bytes = more;
        }
    }
    return err_set(e, ERR_NOMEM, "out of memory while reading %s", path);
}

static enum err_code map(int fd, const char *path, size_t size, struct file_view *view, struct err *e)
{
    assert(size > 0);
    void *start = mmap(NULL, size, PROT_READ, MAP_PRIVATE, fd, 0);
    if (start == MAP_FAILED) {
        return fail(e, ERR_NOINPUT, path, "cannot be read");
    }
    madvise(start, size, MADV_SEQUENTIAL);
    *view = (struct file_view){.data = start, .size = size, .owned = start, .mapped = 1};
    return ERR_OK;
}

static enum err_code view_open(int fd, const char *path, size_t limit, struct file_view *view, struct err *e)
{
    struct stat s;
    if (fstat(fd, &s) != 0) {
        return fail(e, ERR_NOINPUT, path, "cannot be read");
    }
    if (S_ISDIR(s.st_mode)) {
        err_set(e, ERR_NOINPUT, "is a folder, not a file; give the file inside it");
        return err_at(e, path, 0, 0, NULL);
    }
    if (!S_ISREG(s.st_mode) || s.st_size == 0) {
        return read_stream(fd, path, limit, view, e); /* also files of the system that say size 0 */
    }
    if ((size_t)s.st_size > limit) {
        err_set(e, ERR_DATA, "has %lld bytes; at most %zu are allowed", (long long)s.st_size, limit);
        return err_at(e, path, 0, 0, NULL);
    }
    return map(fd, path, (size_t)s.st_size, view, e);
}

enum err_code file_view(const char *path, size_t limit, struct file_view *view, struct err *e)
{
    assert(path != NULL);
    *view = (struct file_view){0};
    if (strcmp(path, "-") == 0) {
        return read_stream(STDIN_FILENO, "standard input", limit, view, e);
    }
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0) {
        return fail(e, ERR_NOINPUT, path, "cannot be opened");
    }
    enum err_code code = view_open(fd, path, limit, view, e);
    close(fd);
    return code;
}

void file_unview(struct file_view *view)
{
    assert(view->mapped == 0 || view->owned != NULL);
    if (view->mapped) {
        munmap(view->owned, view->size);
    } else {
        free(view->owned);
    }
    *view = (struct file_view){0};
}

bool file_of_program(const char *name, const char *below, char *path, size_t size)
{
    char program[LIMIT_PATH];
    ssize_t n = readlink("/proc/self/exe", program, sizeof program - 1);
    if (n <= 0) {
        return false;
    }
    program[n] = 0;
    const char *folder = dirname(program);
    return (snprintf(path, size, "%s/%s", folder, name) < (int)size && access(path, R_OK) == 0) ||
           (snprintf(path, size, "%s/../%s/%s", folder, below, name) < (int)size && access(path, R_OK) == 0);
}

void file_own_folder(const char *name, const char *variable, char *folder, size_t size)
{
    assert(size > 0);
    const char *set = getenv(variable);
    if (set && set[0]) {
        snprintf(folder, size, "%s", set);
    } else if (!file_of_program(name, "share/sugarlea", folder, size)) {
        snprintf(folder, size, "%s/%s", SUGARLEA_DATADIR, name);
    }
}

void file_beside(const char *neighbour, const char *name, char *path, size_t size)
{
    assert(size > 0);
    char copy[LIMIT_PATH];
    snprintf(copy, sizeof copy, "%s", neighbour);
    snprintf(path, size, "%s/%s", dirname(copy), name);
}

static int write_all(int fd, const char *bytes, size_t n)
{
    while (n) {
        ssize_t put = write(fd, bytes, n);
        if (put < 0 && errno == EINTR) {
            continue;
        }
        if (put <= 0) {
            return -1;
        }
        bytes += put;
        n -= (size_t)put;
    }
    return 0;
}

/* Makes a new or renamed entry of the folder survive a power cut. */
static int sync_folder(const char *path)
{
    char copy[LIMIT_PATH];
    snprintf(copy, sizeof copy, "%s", path);
    int fd = open(dirname(copy), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) {
        return -1;
    }
    int result = fsync(fd);
    return close(fd) == 0 ? result : -1;
}

enum err_code file_replace(const char *path, const char *bytes, size_t n, struct err *e)
{
    assert(bytes != NULL || n == 0);
    char temporary[LIMIT_PATH];
    struct stat s;
    int length = snprintf(temporary, sizeof temporary, "%s.XXXXXX", path);
    if (length < 0 || (size_t)length >= sizeof temporary) {
        return err_set(e, ERR_CREATE, "the file name is longer than %d bytes", LIMIT_PATH - 8);
    }
    int fd = mkostemp(temporary, O_CLOEXEC);
    if (fd < 0) {
        return fail(e, ERR_CREATE, path, "cannot be created");
    }
    mode_t mode = stat(path, &s) == 0 ? s.st_mode & 07777 : 0644;
    int bad = write_all(fd, bytes, n) || fchmod(fd, mode) || fsync(fd);
    bad |= close(fd);
    bad = bad || rename(temporary, path);
    if (bad) {
        fail(e, ERR_WRITE, path, "cannot be written");
        unlink(temporary);
        return ERR_WRITE;
    }
    return sync_folder(path) ? fail(e, ERR_WRITE, path, "its folder cannot be made durable") : ERR_OK;
}

static int lock_patiently(int fd)
{
    for (int tries = 0; tries < 40; tries++) {
        if (flock(fd, LOCK_EX | LOCK_NB) == 0) {
            return 0;
        }
        nanosleep(&(struct timespec){.tv_nsec = 50000000}, NULL);
    }
    return -1;
}

/* Does the descriptor still stand for the path? Whoever replaced the file left us the old one. */
static bool is_current(int fd, const char *path)
{
    struct stat open_file, named;
    return fstat(fd, &open_file) == 0 && stat(path, &named) == 0 && open_file.st_dev == named.st_dev &&
           open_file.st_ino == named.st_ino;
}

/* Opens and locks the file that path names at that moment. */
static enum err_code open_locked(const char *path, int flags, int *fd, struct err *e)
{
    enum { TRIES = 100 };
    for (int tries = 0; tries < TRIES; tries++) {
        *fd = open(path, flags | O_RDWR | O_CLOEXEC, 0644);
        if (*fd < 0) {
            return fail(e, errno == ENOENT ? ERR_NOINPUT : ERR_CREATE, path, "cannot be opened for writing");
        }
        if (lock_patiently(*fd) != 0) {
            break;
        }
        if (is_current(*fd, path)) {
            return ERR_OK;
        }
        close(*fd);
        *fd = -1;
    }
    if (*fd >= 0) {
        close(*fd);
    }
    err_set(e, ERR_AGAIN, "is in use by another program; try again");
    return err_at(e, path, 0, 0, NULL);
}

/* Somebody's editor may have left the last line without its end. */
static bool ends_open(int fd, off_t size)
{
    char last = '\n';
    return size > 0 && pread(fd, &last, 1, size - 1) == 1 && last != '\n' && last != '\r';
}

static enum err_code append_locked(int fd, const char *path, const char *header, const char *bytes, size_t n,
                                   struct err *e)
{
    assert(bytes != NULL || n == 0);
    struct stat s;
    if (fstat(fd, &s) != 0) {
        return fail(e, ERR_WRITE, path, "cannot be written");
    }
    bool fresh = s.st_size == 0;
    int bad = (fresh && header && write_all(fd, header, strlen(header))) ||
              (ends_open(fd, s.st_size) && write_all(fd, "\n", 1)) || write_all(fd, bytes, n) || fsync(fd);
    if (bad) {
        fail(e, ERR_WRITE, path, "cannot be written");
        if (ftruncate(fd, s.st_size) != 0) {
            err_set(e, ERR_WRITE, "cannot be written, and its last line may be cut short: look at it");
        }
        return ERR_WRITE;
    }
    return fresh && sync_folder(path) ? fail(e, ERR_WRITE, path, "its folder cannot be made durable") : ERR_OK;
}

enum err_code file_append(const char *path, const char *header, const char *bytes, size_t n, struct err *e)
{
    int fd;
    enum err_code code = open_locked(path, O_APPEND | O_CREAT, &fd, e);
    if (code != ERR_OK) {
        return code == ERR_NOINPUT ? err_set(e, ERR_CREATE, "cannot be created: its folder is not there") : code;
    }
    code = append_locked(fd, path, header, bytes, n, e);
    if (close(fd) != 0 && code == ERR_OK) {
        code = fail(e, ERR_WRITE, path, "cannot be written");
    }
    return code;
}

enum err_code file_update(const char *path, size_t limit, file_updater *update, void *context, struct err *e)
{
    assert(update != NULL);
    int fd;
    struct file_view view;
    struct buf out;
    enum err_code code = open_locked(path, 0, &fd, e);
    if (code != ERR_OK) {
        return code;
    }
    code = file_view(path, limit, &view, e);
    if (code == ERR_OK) {
        buf_init(&out);
        code = update(view.data, view.size, &out, context, e);
        code = code == ERR_OK && out.failed ? err_set(e, ERR_NOMEM, "out of memory") : code;
        code = code == ERR_OK ? file_replace(path, out.text, out.length, e) : code;
        buf_release(&out);
        file_unview(&view);
    }
    close(fd);
    return code;
}
