/* Starting and hearing a program out. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/child.h"

#include "base/clock.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { STREAMS = 3, LOOK_AGAIN_NS = 2000000 };

struct child {
    pid_t pid;
    int ours[STREAMS]; /* our ends of its standard input, output and error; -1 none */
};

static void shut(int *fd)
{
    if (*fd >= 0) {
        close(*fd);
    }
    *fd = -1;
}

static void shut_all(int fd[STREAMS])
{
    for (int i = 0; i < STREAMS; i++) {
        shut(&fd[i]);
    }
}

/* Pipes for each stream that is ours to hold. */
static int open_pipes(struct child *c, int theirs[STREAMS], bool errors)
{
    for (int i = 0; i < STREAMS; i++) {
        c->ours[i] = theirs[i] = -1;
    }
    for (int i = 0; i < (errors ? STREAMS : STREAMS - 1); i++) {
        int ends[2];
        if (pipe2(ends, O_CLOEXEC) != 0) {
            return errno;
        }
        c->ours[i] = ends[i == STDIN_FILENO];
        theirs[i] = ends[i != STDIN_FILENO];
    }
    return fcntl(c->ours[STDIN_FILENO], F_SETFL, O_NONBLOCK) == 0 ? 0 : errno;
}

/* A group of its own, so that what it starts ends with it; SIGPIPE as programs expect it. */
static int set_manners(posix_spawnattr_t *manners)
{
    sigset_t pipe_only;
    sigemptyset(&pipe_only);
    sigaddset(&pipe_only, SIGPIPE);
    int fault = posix_spawnattr_setsigdefault(manners, &pipe_only);
    return fault ? fault : posix_spawnattr_setflags(manners, POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGDEF);
}

static int spawn(const struct child_job *job, const int theirs[STREAMS], pid_t *pid)
{
    posix_spawn_file_actions_t streams;
    posix_spawnattr_t manners;
    int fault = posix_spawn_file_actions_init(&streams);
    if (fault) {
        return fault;
    }
    fault = posix_spawnattr_init(&manners);
    if (fault == 0) {
        fault = set_manners(&manners);
        for (int i = 0; i < STREAMS && fault == 0; i++) {
            fault = theirs[i] >= 0 ? posix_spawn_file_actions_adddup2(&streams, theirs[i], i) : 0;
        }
        if (fault == 0) {
            fault = posix_spawnp(pid, job->program, &streams, &manners, job->arguments,
                                 job->environment ? job->environment : environ);
        }
        posix_spawnattr_destroy(&manners);
    }
    posix_spawn_file_actions_destroy(&streams);
    return fault;
}

static enum err_code start(const struct child_job *job, bool errors, struct child *c, struct err *e)
{
    int theirs[STREAMS];
    int fault = open_pipes(c, theirs, errors);
    fault = fault ? fault : spawn(job, theirs, &c->pid);
    shut_all(theirs);
    if (fault == 0) {
        return ERR_OK;
    }
    shut_all(c->ours);
    bool absent = fault == ENOENT || fault == EACCES || fault == ENOTDIR || fault == ENOEXEC;
    enum err_code code = absent ? ERR_NOINPUT : fault == ENOMEM ? ERR_NOMEM : ERR_BUG;
    return err_set(e, code, "%s cannot be started: %s", job->program, strerror(fault));
}

/* Gives it what is left of its input. */
static void feed(struct child *c, const struct child_job *job, size_t *sent)
{
    assert(*sent <= job->input_size);
    ssize_t put = write(c->ours[STDIN_FILENO], job->input + *sent, job->input_size - *sent);
    *sent += put > 0 ? (size_t)put : 0;
    assert(*sent <= job->input_size);
    if ((put < 0 && errno != EAGAIN && errno != EINTR) || *sent == job->input_size) {
        shut(&c->ours[STDIN_FILENO]);
    }
}

/* Takes what is there, at most `most` bytes in all; false when there is more. */
static bool hear(int *fd, struct buf *b, size_t most)
{
    char bytes[16384];
    ssize_t got = read(*fd, bytes, sizeof bytes);
    if (got == 0 || (got < 0 && errno != EINTR && errno != EAGAIN)) {
        shut(fd);
    }
    size_t n = got > 0 ? (size_t)got : 0, room = b->length < most ? most - b->length : 0;
    buf_add_bytes(b, bytes, n < room ? n : room);
    return n <= room;
}

/* Feeds and hears it until it has closed what it says, is too late or says too much. */
static enum child_fate talk(struct child *c, const struct child_job *job, double until, struct buf *output,
                            struct buf *errors)
{
    size_t sent = 0;
    while (c->ours[STDOUT_FILENO] >= 0 || c->ours[STDERR_FILENO] >= 0) {
        struct pollfd fds[STREAMS];
        double left = until - clock_ticks();
        for (int i = 0; i < STREAMS; i++) {
            fds[i] = (struct pollfd){.fd = c->ours[i], .events = i == STDIN_FILENO ? POLLOUT : POLLIN};
        }
        if (left <= 0 || (poll(fds, STREAMS, (int)(left * 1000.0) + 1) < 0 && errno != EINTR)) {
            return CHILD_LATE;
        }
        if (fds[STDIN_FILENO].revents) {
            feed(c, job, &sent);
        }
        if (fds[STDOUT_FILENO].revents && !hear(&c->ours[STDOUT_FILENO], output, job->output_most)) {
            return CHILD_TALKATIVE;
        }
        if (fds[STDERR_FILENO].revents && errors) {
            hear(&c->ours[STDERR_FILENO], errors, CHILD_ERRORS_MOST);
        }
    }
    return CHILD_EXITED;
}

/* It may have closed what it says and still be there: waits to the deadline. */
static bool ended_by(pid_t pid, double until, int *status)
{
    for (;;) {
        pid_t got = waitpid(pid, status, WNOHANG);
        if (got == pid) {
            return true;
        }
        if ((got < 0 && errno != EINTR) || clock_ticks() > until) {
            return false;
        }
        nanosleep(&(struct timespec){.tv_nsec = LOOK_AGAIN_NS}, NULL);
    }
}

enum err_code child_run(const struct child_job *job, struct buf *output, struct buf *errors, struct child_end *end,
                        struct err *e)
{
    assert(job->program != NULL && job->arguments[0] != NULL);
    assert(job->input != NULL || job->input_size == 0);
    assert(job->deadline_s > 0);
    struct child c = {.pid = -1};
    int status = 0;
    double until = clock_ticks() + job->deadline_s;
    enum err_code code = start(job, errors != NULL, &c, e);
    if (code != ERR_OK) {
        return code;
    }
    *end = (struct child_end){.fate = talk(&c, job, until, output, errors)};
    shut_all(c.ours);
    if (end->fate == CHILD_EXITED && !ended_by(c.pid, until, &status)) {
        end->fate = CHILD_LATE;
    }
    if (end->fate != CHILD_EXITED) {
        kill(-c.pid, SIGKILL);
        while (waitpid(c.pid, &status, 0) < 0 && errno == EINTR) {
        }
    } else {
        end->fate = WIFSIGNALED(status) ? CHILD_SIGNALLED : CHILD_EXITED;
        end->status = WIFSIGNALED(status) ? WTERMSIG(status) : WEXITSTATUS(status);
    }
    bool full = output->failed || (errors && errors->failed);
    return full ? err_set(e, ERR_NOMEM, "out of memory while hearing %s", job->program) : ERR_OK;
}
