/* Workers and what they are told and say. A worker reads the number of a thing from one
 * pipe and writes what it found into another; the next number is sent when that is in.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/round_work.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { WHY_TEXT = 256, CLOSED = -1 };

struct worker {
    pid_t pid;
    int tell, hear; /* our ends; CLOSED: there is none (any more) */
    size_t at;      /* the thing it is on */
    size_t got;     /* bytes of what it found */
    char *found;
};

struct crew {
    const struct round_work *work;
    size_t workers, next; /* next: the first thing that nobody is on */
    struct worker *worker;
    struct pollfd *watch;
};

static bool write_whole(int fd, const char *bytes, size_t n)
{
    while (n > 0) {
        ssize_t put = write(fd, bytes, n);
        if (put < 0 && errno != EINTR) {
            return false;
        }
        bytes += put > 0 ? put : 0;
        n -= put > 0 ? (size_t)put : 0;
    }
    return true;
}

/* A number is written at once, and so comes at once. */
static bool read_number(int fd, size_t *i)
{
    ssize_t got;
    do {
        got = read(fd, i, sizeof *i);
    } while (got < 0 && errno == EINTR);
    return got == (ssize_t)sizeof *i;
}

/* The life of a worker. The alarm ends it, in whatever call it hangs. */
static _Noreturn void live(const struct round_work *w, int listen, int say)
{
    char *found = malloc(w->size);
    size_t i;
    int nothing = open("/dev/null", O_RDONLY | O_CLOEXEC);
    if (!found || nothing < 0 || dup2(nothing, STDIN_FILENO) < 0) {
        _exit(ERR_NOMEM);
    }
    signal(SIGALRM, SIG_DFL);
    while (read_number(listen, &i)) {
        alarm(w->seconds);
        w->look(w->context, i, found);
        alarm(0);
        if (!write_whole(say, found, w->size)) {
            break;
        }
    }
    _exit(ERR_OK);
}

static void shut(int *fd)
{
    if (*fd != CLOSED) {
        close(*fd);
    }
    *fd = CLOSED;
}

static bool start(struct crew *c, struct worker *k)
{
    int tell[2] = {CLOSED, CLOSED}, hear[2] = {CLOSED, CLOSED};
    bool piped = pipe2(tell, O_CLOEXEC) == 0 && pipe2(hear, O_CLOEXEC) == 0;
    k->pid = piped ? fork() : -1;
    if (k->pid == 0) {
        for (size_t i = 0; i < c->workers; i++) { /* else they would not see that we are gone */
            shut(&c->worker[i].tell);
            shut(&c->worker[i].hear);
        }
        close(tell[1]);
        close(hear[0]);
        live(c->work, tell[0], hear[1]);
    }
    shut(&tell[0]);
    shut(&hear[1]);
    if (k->pid < 0) {
        shut(&tell[1]);
        shut(&hear[0]);
    }
    k->tell = tell[1];
    k->hear = hear[0];
    return k->pid > 0;
}

/* Ends it by letting it hear no more. Returns how it ended. */
static int dismiss(struct worker *k)
{
    int status = 0;
    shut(&k->tell);
    shut(&k->hear);
    while (k->pid > 0 && waitpid(k->pid, &status, 0) < 0 && errno == EINTR) {
    }
    k->pid = 0;
    return status;
}

/* Gives it the next thing, or lets it go when there is none. A worker that has died in the
 * meantime, or cannot be told, is found out when it is heard. */
static void give(struct crew *c, struct worker *k)
{
    k->got = 0;
    if (c->next == c->work->n) {
        dismiss(k);
        return;
    }
    k->at = c->next++;
    if (!write_whole(k->tell, (const char *)&k->at, sizeof k->at)) {
        shut(&k->tell); /* it would wait for ever: now it ends */
    }
}

static void say_end(const struct round_work *w, int status, char why[WHY_TEXT])
{
    if (WIFSIGNALED(status) && WTERMSIG(status) == SIGALRM) {
        snprintf(why, WHY_TEXT, "took longer than %u s and was given up", w->seconds);
    } else if (WIFSIGNALED(status)) {
        snprintf(why, WHY_TEXT, "the work on it ended by signal %d (%s)", WTERMSIG(status),
                 strsignal(WTERMSIG(status)));
    } else {
        snprintf(why, WHY_TEXT, "the work on it ended with exit code %d", WEXITSTATUS(status));
    }
}

/* It has ended on its thing: another takes its place. */
static enum err_code bury(struct crew *c, struct worker *k, struct err *e)
{
    char why[WHY_TEXT];
    say_end(c->work, dismiss(k), why);
    enum err_code code = c->work->take(c->work->context, k->at, NULL, why, e);
    if (code == ERR_OK && c->next < c->work->n && start(c, k)) {
        give(c, k);
    }
    return code;
}

static enum err_code hear(struct crew *c, struct worker *k, struct err *e)
{
    ssize_t got = read(k->hear, k->found + k->got, c->work->size - k->got);
    if (got < 0 && errno == EINTR) {
        return ERR_OK;
    }
    if (got <= 0) {
        return bury(c, k, e);
    }
    k->got += (size_t)got;
    if (k->got < c->work->size) {
        return ERR_OK;
    }
    enum err_code code = c->work->take(c->work->context, k->at, k->found, NULL, e);
    give(c, k);
    return code;
}

/* Hears all of them until everything is in. */
static enum err_code run(struct crew *c, struct err *e)
{
    enum err_code code = ERR_OK;
    while (code == ERR_OK) {
        size_t alive = 0;
        for (size_t i = 0; i < c->workers; i++) {
            c->watch[i] = (struct pollfd){.fd = c->worker[i].hear, .events = POLLIN};
            alive += c->worker[i].hear != CLOSED;
        }
        if (alive == 0) {
            break;
        }
        if (poll(c->watch, c->workers, -1) < 0 && errno != EINTR) {
            return err_set(e, ERR_BUG, "the workers cannot be heard: %s", strerror(errno));
        }
        for (size_t i = 0; i < c->workers && code == ERR_OK; i++) {
            code = c->watch[i].revents ? hear(c, &c->worker[i], e) : ERR_OK;
        }
    }
    bool undone = code == ERR_OK && c->next < c->work->n;
    return undone ? err_set(e, ERR_BUG, "the system has no room for another process; give fewer --jobs") : code;
}

static bool hire(struct crew *c, size_t jobs)
{
    c->worker = calloc(jobs, sizeof *c->worker);
    c->watch = calloc(jobs, sizeof *c->watch);
    for (size_t i = 0; c->worker && c->watch && i < jobs; i++) {
        struct worker *k = &c->worker[i];
        *k = (struct worker){.tell = CLOSED, .hear = CLOSED, .found = malloc(c->work->size)};
        c->workers++;
        if (!k->found) {
            return false;
        }
        if (start(c, k)) {
            give(c, k);
        }
    }
    return c->worker && c->watch;
}

enum err_code round_work(const struct round_work *w, struct err *e)
{
    struct crew c = {.work = w};
    enum err_code code = hire(&c, w->jobs < w->n ? w->jobs : w->n) ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory");
    code = code == ERR_OK ? run(&c, e) : code;
    for (size_t i = 0; i < c.workers; i++) {
        dismiss(&c.worker[i]);
        free(c.worker[i].found);
    }
    free(c.worker);
    free(c.watch);
    return code;
}
