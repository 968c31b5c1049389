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

enum { ADDED = 8 }; /* bytes that a name gets in addition while its file is written */

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

size_t file_mark(const char *text, size_t size)
{
    static const char mark[] = {'\xef', '\xbb', '\xbf'};
    return size >= sizeof mark && memcmp(text, mark, sizeof mark) == 0 ? sizeof mark : 0;
}

size_t file_as_pattern(const char *path, char *pattern, size_t size)
{
    assert(size > 0);
    size_t n = 0;
    for (const char *c = path; *c && n + 2 < size; c++) {
        if (strchr("*?[]\\", *c)) {
            pattern[n++] = '\\';
        }
        pattern[n++] = *c;
    }
    pattern[n] = 0;
    return n;
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

/* Makes a new or renamed entry of the folder survive a power cut, where the file system knows how: those of some
 * networks do not. The entry stands in any case, and who is told of an error must not write it a second time. */
static enum err_code sync_folder(const char *path, struct err *e)
{
    char copy[LIMIT_PATH];
    snprintf(copy, sizeof copy, "%s", path);
    int fd = open(dirname(copy), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int why = fd < 0 || fsync(fd) != 0 ? errno : 0;
    if (fd >= 0) {
        close(fd);
    }
    if (why == 0 || why == EINVAL || why == ENOTSUP || why == ENOSYS) {
        return ERR_OK;
    }
    err_set(e, ERR_WRITE, "is written, but not known to be safe on disk (%s): look before you write it again",
            strerror(why));
    return err_at(e, path, 0, 0, NULL);
}

static enum err_code too_long(struct err *e)
{
    return err_set(e, ERR_CREATE, "the file name is longer than %d bytes", LIMIT_PATH - ADDED);
}

static enum err_code check_writable_kind(const char *path, struct err *e)
{
    struct stat s;
    if (stat(path, &s) != 0) { /* the system has followed all links, by its rules on those of other people */
        return errno == ENOENT ? ERR_OK : fail(e, ERR_CREATE, path, "cannot be created");
    }
    if (S_ISREG(s.st_mode)) {
        return ERR_OK;
    }
    err_set(e, ERR_CREATE, "is a %s, not a file, and is left as it is; name a file",
            S_ISDIR(s.st_mode) ? "folder" : "pipe or device");
    return err_at(e, path, 0, 0, NULL);
}

enum err_code file_target(const char *path, char target[LIMIT_PATH], struct err *e)
{
    enum { LINKS_MOST = 40 }; /* as many as Linux follows */
    char link[LIMIT_PATH];
    if (strlen(path) >= LIMIT_PATH - ADDED) {
        return too_long(e);
    }
    enum err_code code = check_writable_kind(path, e);
    snprintf(target, LIMIT_PATH, "%s", path);
    for (int links = 0; code == ERR_OK && links < LINKS_MOST; links++) {
        ssize_t n = readlink(target, link, sizeof link);
        if (n < 0) {
            return ERR_OK;
        }
        const char *slash = strrchr(target, '/');
        size_t folder = n > 0 && link[0] != '/' && slash ? (size_t)(slash + 1 - target) : 0;
        if (folder + (size_t)n >= LIMIT_PATH - ADDED) {
            return too_long(e);
        }
        memcpy(target + folder, link, (size_t)n);
        target[folder + (size_t)n] = 0;
    }
    return code == ERR_OK ? err_set(e, ERR_CREATE, "the file's link is changed by others all the time") : code;
}

/* Of a new file, as the process is told to make them. */
static mode_t usual_mode(void)
{
    mode_t mask = umask(077);
    umask(mask);
    return 0666 & ~mask;
}

enum err_code file_replace(const char *path, const char *bytes, size_t n, struct err *e)
{
    assert(bytes != NULL || n == 0);
    char target[LIMIT_PATH], temporary[LIMIT_PATH];
    struct stat s;
    enum err_code code = file_target(path, target, e);
    if (code != ERR_OK) {
        return code;
    }
    snprintf(temporary, sizeof temporary, "%.*s.XXXXXX", LIMIT_PATH - ADDED, target);
    int fd = mkostemp(temporary, O_CLOEXEC);
    if (fd < 0) {
        return fail(e, ERR_CREATE, target, "cannot be created");
    }
    mode_t mode = stat(target, &s) == 0 ? s.st_mode & 07777 : usual_mode();
    int bad = write_all(fd, bytes, n) || fchmod(fd, mode) || fsync(fd);
    bad |= close(fd);
    bad = bad || rename(temporary, target);
    if (bad) {
        fail(e, ERR_WRITE, target, "cannot be written");
        unlink(temporary);
        return ERR_WRITE;
    }
    return sync_folder(target, e);
}

/* 0; else why not: EWOULDBLOCK where another program kept it all the time. */
static int lock_patiently(int fd)
{
    int why = EWOULDBLOCK;
    for (int tries = 0; tries < 40 && (why == EWOULDBLOCK || why == EINTR); tries++) {
        if (flock(fd, LOCK_EX | LOCK_NB) == 0) {
            return 0;
        }
        why = errno;
        nanosleep(&(struct timespec){.tv_nsec = why == EWOULDBLOCK ? 50000000 : 0}, NULL);
    }
    return why;
}

/* Does the descriptor still stand for the path? Whoever replaced the file left us the old one. */
static bool is_current(int fd, const char *path)
{
    struct stat open_file, named;
    return fstat(fd, &open_file) == 0 && stat(path, &named) == 0 && open_file.st_dev == named.st_dev &&
           open_file.st_ino == named.st_ino;
}

/* Opens (flags say for what) and locks the file that path names at that moment. */
static enum err_code open_locked(const char *path, int flags, int *fd, struct err *e)
{
    enum { TRIES = 100 };
    int why = 0;
    for (int tries = 0; tries < TRIES && why == 0; tries++) {
        *fd = open(path, flags | O_CLOEXEC, 0666);
        if (*fd < 0) {
            return fail(e, errno == ENOENT ? ERR_NOINPUT : ERR_CREATE, path,
                        flags & O_RDWR ? "cannot be opened for writing" : "cannot be opened");
        }
        why = lock_patiently(*fd);
        if (why == 0 && is_current(*fd, path)) {
            return ERR_OK;
        }
        close(*fd);
        *fd = -1;
    }
    if (why != 0 && why != EWOULDBLOCK && why != EINTR) {
        errno = why;
        return fail(e, ERR_WRITE, path, "cannot be locked, so it is left as it is");
    }
    err_set(e, ERR_AGAIN, "is in use by another program; try again");
    return err_at(e, path, 0, 0, NULL);
}

/* Some systems lock nothing that is not open for writing, so it is where it may be. */
enum err_code file_lock(const char *path, int *fd, struct err *e)
{
    char target[LIMIT_PATH];
    *fd = -1;
    enum err_code code = file_target(path, target, e);
    int flags = code == ERR_OK && faccessat(AT_FDCWD, target, W_OK, AT_EACCESS) == 0 ? O_RDWR : O_RDONLY;
    return code == ERR_OK ? open_locked(target, flags, fd, e) : code;
}

void file_unlock(int fd)
{
    assert(fd >= 0);
    close(fd);
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
    return fresh ? sync_folder(path, e) : ERR_OK;
}

enum err_code file_append(const char *path, const char *header, const char *bytes, size_t n, struct err *e)
{
    int fd;
    char target[LIMIT_PATH];
    enum err_code code = file_target(path, target, e);
    if (code != ERR_OK) {
        return code;
    }
    code = open_locked(target, O_RDWR | O_APPEND | O_CREAT, &fd, e);
    if (code != ERR_OK) {
        return code == ERR_NOINPUT ? err_set(e, ERR_CREATE, "cannot be created: its folder is not there") : code;
    }
    code = append_locked(fd, target, header, bytes, n, e);
    file_unlock(fd); /* what was written is on the disk by now */
    return code;
}

enum err_code file_update(const char *path, size_t limit, file_updater *update, void *context, struct err *e)
{
    assert(update != NULL);
    int fd;
    char target[LIMIT_PATH];
    struct file_view view;
    struct buf out;
    enum err_code code = file_target(path, target, e);
    code = code == ERR_OK ? open_locked(target, O_RDWR, &fd, e) : code;
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
    file_unlock(fd);
    return code;
}
