/* Loaded before the C library (LD_PRELOAD): lets the nth call of one kind fail, once or
 * from then on, and reports at the end how many there were and how many pieces of memory
 * were left; a child that ends with _exit reports beside it, in FILE.child. Set by the
 * environment: FAIL_KIND (alloc, open, read, write, sync, close, rename), FAIL_AT (1 the
 * first; 0 none), FAIL_ON (1: and all after it), FAIL_REPORT (a file for the counts).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

enum kind { ALLOC, OPEN, READ, WRITE, SYNC, CLOSE, RENAME, KINDS };
static const char *const names[KINDS] = {"alloc", "open", "read", "write", "sync", "close", "rename"};
static const int fails_with[KINDS] = {ENOMEM, EMFILE, EIO, ENOSPC, EIO, EIO, EIO};

static atomic_long count[KINDS], pieces, failed;
static long fail_at;
static int fail_kind = -1;
static bool fail_on, ready;
static char report_to[4096];

void *__libc_malloc(size_t n);
void *__libc_calloc(size_t n, size_t size);
void *__libc_realloc(void *p, size_t n);
void __libc_free(void *p);

static bool fails(enum kind k)
{
    if (!ready) {
        return false;
    }
    long n = atomic_fetch_add(&count[k], 1) + 1;
    if ((int)k != fail_kind || fail_at == 0 || !(n == fail_at || (fail_on && n > fail_at))) {
        return false;
    }
    atomic_fetch_add(&failed, 1);
    errno = fails_with[k];
    return true;
}

__attribute__((constructor)) static void begin(void)
{
    const char *kind = getenv("FAIL_KIND"), *at = getenv("FAIL_AT"), *on = getenv("FAIL_ON");
    for (int k = 0; kind && k < KINDS; k++) {
        fail_kind = strcmp(kind, names[k]) == 0 ? k : fail_kind;
    }
    fail_at = at ? atol(at) : 0;
    fail_on = on && on[0] == '1';
    const char *report = getenv("FAIL_REPORT");
    snprintf(report_to, sizeof report_to, "%s", report ? report : "");
    ready = true;
}

static void report_as(const char *suffix)
{
    char text[256], path[sizeof report_to + 16];
    int n = 0;
    ready = false;
    for (int k = 0; k < KINDS; k++) {
        n += snprintf(text + n, sizeof text - (size_t)n, "%s %ld\n", names[k], atomic_load(&count[k]));
    }
    n += snprintf(text + n, sizeof text - (size_t)n, "left %ld\n", atomic_load(&pieces));
    snprintf(path, sizeof path, "%s%s", report_to, suffix);
    int fd = report_to[0] ? open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600) : -1;
    if (fd >= 0) {
        ssize_t written = write(fd, text, (size_t)n);
        (void)written;
        close(fd);
    }
}

/* What the C library keeps for itself (names of time zones, tables of letters) is no piece the program left. */
__attribute__((destructor)) static void report(void)
{
    void *symbol = dlsym(RTLD_NEXT, "__libc_freeres");
    void (*give_back)(void);
    memcpy(&give_back, &symbol, sizeof give_back);
    if (give_back) {
        give_back();
    }
    report_as("");
}

void *malloc(size_t n)
{
    void *p = fails(ALLOC) ? NULL : __libc_malloc(n);
    pieces += p != NULL && ready;
    return p;
}

void *calloc(size_t n, size_t size)
{
    void *p = fails(ALLOC) ? NULL : __libc_calloc(n, size);
    pieces += p != NULL && ready;
    return p;
}

void *realloc(void *old, size_t n)
{
    if (fails(ALLOC)) {
        return NULL;
    }
    void *p = __libc_realloc(old, n);
    pieces += ready && !old && p != NULL;
    return p;
}

void free(void *p)
{
    pieces -= p != NULL && ready;
    __libc_free(p);
}

/* The C library's own function of that name. */
#define REAL(type, name) ((type)(uintptr_t)dlsym(RTLD_NEXT, name))

/* The library's sets the value even where it has no room to note that the piece is its own, and never frees it. */
int setenv(const char *name, const char *value, int over)
{
    long before = atomic_load(&failed);
    int code = REAL(int (*)(const char *, const char *, int), "setenv")(name, value, over);
    pieces -= code == 0 && atomic_load(&failed) > before;
    return code;
}

int open(const char *path, int flags, ...)
{
    va_list list;
    va_start(list, flags);
    mode_t mode = flags & O_CREAT ? va_arg(list, mode_t) : 0;
    va_end(list);
    return fails(OPEN) ? -1 : REAL(int (*)(const char *, int, ...), "open")(path, flags, mode);
}

FILE *fopen(const char *path, const char *mode)
{
    return fails(OPEN) ? NULL : REAL(FILE * (*)(const char *, const char *), "fopen")(path, mode);
}

int mkstemp(char *path)
{
    return fails(OPEN) ? -1 : REAL(int (*)(char *), "mkstemp")(path);
}

int mkostemp(char *path, int flags)
{
    return fails(OPEN) ? -1 : REAL(int (*)(char *, int), "mkostemp")(path, flags);
}

ssize_t read(int fd, void *to, size_t n)
{
    return fails(READ) ? -1 : REAL(ssize_t(*)(int, void *, size_t), "read")(fd, to, n);
}

void *mmap(void *at, size_t n, int protection, int flags, int fd, off_t offset)
{
    bool failed = fd >= 0 && fails(READ);
    return failed ? (void *)-1
                  : REAL(void *(*)(void *, size_t, int, int, int, off_t), "mmap")(at, n, protection, flags, fd, offset);
}

ssize_t write(int fd, const void *from, size_t n)
{
    return fails(WRITE) ? -1 : REAL(ssize_t(*)(int, const void *, size_t), "write")(fd, from, n);
}

size_t fwrite(const void *from, size_t size, size_t n, FILE *to)
{
    return to == stdout && fails(WRITE)
               ? 0
               : REAL(size_t(*)(const void *, size_t, size_t, FILE *), "fwrite")(from, size, n, to);
}

int fsync(int fd)
{
    return fails(SYNC) ? -1 : REAL(int (*)(int), "fsync")(fd);
}

/* The descriptor is closed all the same, as Linux does on such an error. */
int close(int fd)
{
    bool failed = fails(CLOSE);
    int result = REAL(int (*)(int), "close")(fd);
    return failed ? (errno = EIO, -1) : result;
}

/* How a worker ends: what it counted goes on from what its parent had before. */
_Noreturn void _exit(int status)
{
    report_as(".child");
    REAL(void (*)(int), "_exit")(status);
    __builtin_unreachable();
}

int rename(const char *from, const char *to)
{
    return fails(RENAME) ? -1 : REAL(int (*)(const char *, const char *), "rename")(from, to);
}
