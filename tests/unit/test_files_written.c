/* base/file: what is written is what was named, and what is said of it is true. fsync and flock are ours here: they
 * fail as the systems of others do. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/clock.h"
#include "base/file.h"
#include "base/limits.h"

static int folder_fails_with, lock_fails_with, lock_failures; /* errno; 0: not at all; times, -1: for ever */

int fsync(int fd)
{
    struct stat s;
    if (folder_fails_with && fstat(fd, &s) == 0 && S_ISDIR(s.st_mode)) {
        errno = folder_fails_with;
        return -1;
    }
    return 0;
}

int flock(int fd, int operation)
{
    (void)fd;
    (void)operation;
    if (lock_fails_with && lock_failures != 0) {
        lock_failures -= lock_failures > 0;
        errno = lock_fails_with;
        return -1;
    }
    return 0;
}

static char folder[64], path[128], other[128];
static struct err e;

static void holds(const char *file, const char *text)
{
    struct file_view v;
    assert_int_equal(file_view(file, 1000, &v, &e), ERR_OK);
    assert_int_equal(v.size, strlen(text));
    assert_memory_equal(v.data, text, v.size);
    file_unview(&v);
}

static int begin(void **state)
{
    (void)state;
    snprintf(folder, sizeof folder, "/tmp/sugarlea-test-XXXXXX");
    if (!mkdtemp(folder)) {
        return -1;
    }
    snprintf(path, sizeof path, "%s/diary.csv", folder);
    snprintf(other, sizeof other, "%s/sync", folder);
    return mkdir(other, 0700);
}

static int end(void **state)
{
    (void)state;
    folder_fails_with = lock_fails_with = 0;
    unlink(path);
    snprintf(other, sizeof other, "%s/sync/diary.csv", folder);
    unlink(other);
    snprintf(other, sizeof other, "%s/sync", folder);
    return rmdir(other) || rmdir(folder); /* fails when a temporary file was left behind */
}

static enum err_code upper(const char *bytes, size_t n, struct buf *out, void *context, struct err *why)
{
    (void)context;
    (void)why;
    for (size_t i = 0; i < n; i++) {
        buf_add_char(out, bytes[i] >= 'a' && bytes[i] <= 'z' ? (char)(bytes[i] - 'a' + 'A') : bytes[i]);
    }
    return ERR_OK;
}

static bool is_link(const char *file)
{
    struct stat s;
    return lstat(file, &s) == 0 && S_ISLNK(s.st_mode);
}

/* A link names what changes, stays one, and needs nothing at its end yet. */
static void links_stay_links(void **state)
{
    (void)state;
    static const char *const to[] = {"sync/diary.csv", NULL};
    for (size_t i = 0; i < 2; i++) {
        snprintf(other, sizeof other, "%s/sync/diary.csv", folder);
        assert_int_equal(symlink(to[i] ? to[i] : other, path), 0);
        assert_int_equal(file_replace(path, "one\n", 4, &e), ERR_OK);
        assert_true(is_link(path));
        holds(other, "one\n");
        assert_int_equal(file_append(path, NULL, "two\n", 4, &e), ERR_OK);
        assert_int_equal(file_update(path, 100, upper, NULL, &e), ERR_OK);
        assert_true(is_link(path));
        holds(other, "ONE\nTWO\n");
        assert_int_equal(unlink(other), 0);
        assert_int_equal(file_append(path, "head\n", "one\n", 4, &e), ERR_OK);
        holds(other, "head\none\n");
        assert_int_equal(unlink(other) || unlink(path), 0);
    }
    snprintf(other, sizeof other, "%s/nowhere/diary.csv", folder);
    assert_int_equal(symlink(other, path), 0);
    assert_int_equal(file_replace(path, "one\n", 4, &e), ERR_CREATE);
    assert_string_equal(e.file, other); /* where it could not be made */
    assert_int_equal(unlink(path), 0);
    assert_int_equal(symlink("diary.csv", path), 0);
    assert_int_equal(file_replace(path, "one\n", 4, &e), ERR_CREATE);
    assert_true(is_link(path));
}

/* What is no plain file stays what it is. */
static void only_plain_files_are_written(void **state)
{
    (void)state;
    struct stat s;
    assert_int_equal(mkfifo(path, 0600), 0);
    assert_int_equal(file_replace(path, "x", 1, &e), ERR_CREATE);
    assert_non_null(strstr(e.what, "is a pipe or device, not a file"));
    assert_int_equal(file_append(path, NULL, "x", 1, &e), ERR_CREATE);
    assert_int_equal(file_update(path, 100, upper, NULL, &e), ERR_CREATE);
    assert_true(stat(path, &s) == 0 && S_ISFIFO(s.st_mode));
    assert_int_equal(unlink(path) || symlink("/dev/null", path), 0);
    assert_int_equal(file_replace(path, "x", 1, &e), ERR_CREATE);
    assert_true(is_link(path) && stat("/dev/null", &s) == 0 && S_ISCHR(s.st_mode));
}

/* A lock for the sake of other files asks no leave to write to its own; a change does. */
static void a_file_that_may_not_be_written_is_locked(void **state)
{
    (void)state;
    enum { NOBODY = 65534 };
    int fd;
    bool root = geteuid() == 0;
    assert_int_equal(file_replace(path, "one\n", 4, &e), ERR_OK);
    assert_int_equal(chmod(path, 0444) || chmod(folder, 0755), 0);
    assert_int_equal(root ? seteuid(NOBODY) : 0, 0);
    enum err_code locked = file_lock(path, &fd, &e), updated = file_update(path, 100, upper, NULL, &(struct err){0});
    assert_int_equal(root ? seteuid(0) : 0, 0);
    assert_int_equal(locked, ERR_OK);
    assert_int_equal(updated, ERR_CREATE);
    file_unlock(fd);
    holds(path, "one\n");
}

static mode_t mode_of(const char *file)
{
    struct stat s;
    assert_int_equal(stat(file, &s), 0);
    return s.st_mode & 07777;
}

static void new_files_go_by_the_umask(void **state)
{
    (void)state;
    static const mode_t mask[] = {077, 002, 022};
    mode_t before = umask(0);
    for (size_t i = 0; i < 3; i++) {
        umask(mask[i]);
        assert_int_equal(file_replace(path, "x", 1, &e), ERR_OK);
        assert_int_equal(mode_of(path), 0666 & ~mask[i]);
        assert_int_equal(unlink(path), 0);
        assert_int_equal(file_append(path, NULL, "x", 1, &e), ERR_OK);
        assert_int_equal(mode_of(path), 0666 & ~mask[i]);
        assert_int_equal(chmod(path, 0640), 0);
        assert_int_equal(file_replace(path, "y", 1, &e), ERR_OK);
        assert_int_equal(mode_of(path), 0640);
        assert_int_equal(unlink(path), 0);
    }
    assert_int_equal(umask(before), mask[2]); /* and leave it as it is */
}

/* A folder that cannot be made durable, by the rules of its file system: no fault of the file. By a fault of the
 * disk: told, and told that the file stands. */
static void folders_that_do_not_sync(void **state)
{
    (void)state;
    static const int none[] = {EINVAL, ENOTSUP, ENOSYS};
    for (size_t i = 0; i < 3; i++) {
        folder_fails_with = none[i];
        assert_int_equal(file_replace(path, "one\n", 4, &e), ERR_OK);
        assert_int_equal(unlink(path), 0);
        assert_int_equal(file_append(path, NULL, "two\n", 4, &e), ERR_OK);
        holds(path, "two\n");
        assert_int_equal(unlink(path), 0);
    }
    folder_fails_with = EIO;
    assert_int_equal(file_append(path, NULL, "one\n", 4, &e), ERR_WRITE);
    assert_non_null(strstr(e.what, "is written, but not known to be safe on disk (Input/output error)"));
    assert_string_equal(e.file, path);
    holds(path, "one\n");
    assert_int_equal(file_replace(path, "two\n", 4, &e), ERR_WRITE);
    assert_non_null(strstr(e.what, "is written, but"));
    holds(path, "two\n");
}

/* Waits for another program alone; other errors are told at once, as what they are. */
static void locks_that_are_not_had(void **state)
{
    (void)state;
    lock_fails_with = ENOLCK;
    lock_failures = -1;
    double start = clock_ticks();
    assert_int_equal(file_append(path, NULL, "one\n", 4, &e), ERR_WRITE);
    assert_non_null(strstr(e.what, strerror(ENOLCK)));
    assert_true(clock_ticks() - start < 1.0);
    lock_fails_with = EINTR;
    lock_failures = 3;
    assert_int_equal(file_append(path, NULL, "one\n", 4, &e), ERR_OK);
    lock_fails_with = EWOULDBLOCK;
    lock_failures = 2;
    assert_int_equal(file_append(path, NULL, "two\n", 4, &e), ERR_OK);
    holds(path, "one\ntwo\n");
    lock_failures = -1;
    assert_int_equal(file_update(path, 100, upper, NULL, &e), ERR_AGAIN);
    assert_non_null(strstr(e.what, "in use by another program"));
    holds(path, "one\ntwo\n");
}

/* A full disk, here a limit of the process: what was begun is taken back. */
static void lines_cut_short_are_taken_back(void **state)
{
    (void)state;
    struct rlimit was, few;
    char line[200];
    memset(line, 'x', sizeof line);
    assert_int_equal(file_append(path, "head\n", "one\n", 4, &e), ERR_OK);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &was), 0);
    few = (struct rlimit){.rlim_cur = 100, .rlim_max = was.rlim_max};
    void (*before)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &few), 0);
    enum err_code appended = file_append(path, "head\n", line, sizeof line, &e);
    enum err_code replaced = file_replace(path, line, sizeof line, NULL);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &was), 0);
    signal(SIGXFSZ, before);
    assert_int_equal(appended, ERR_WRITE);
    assert_int_equal(replaced, ERR_WRITE);
    assert_non_null(strstr(e.what, "cannot be written"));
    holds(path, "head\none\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(links_stay_links, begin, end),
        cmocka_unit_test_setup_teardown(only_plain_files_are_written, begin, end),
        cmocka_unit_test_setup_teardown(a_file_that_may_not_be_written_is_locked, begin, end),
        cmocka_unit_test_setup_teardown(new_files_go_by_the_umask, begin, end),
        cmocka_unit_test_setup_teardown(folders_that_do_not_sync, begin, end),
        cmocka_unit_test_setup_teardown(locks_that_are_not_had, begin, end),
        cmocka_unit_test_setup_teardown(lines_cut_short_are_taken_back, begin, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
