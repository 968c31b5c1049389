/* One thread reads and writes; the others, one a core, work on two places each where two lie ready. Places lie
 * on a belt that goes round: read onto it, worked on, and written from it in the order in which they were read.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/season_many.h"

#include "base/clock.h"
#include "base/file.h"

#include <errno.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { THREADS_MOST = 256, AT_ONCE = 2, SPARE = 2, NAMED_MOST = 20 };
#define TELL_SECONDS 0.5 /* between two words on how far it is */

struct place {
    struct context c;        /* of the site alone; its arena has the weather */
    const char *file, *site; /* in the arena, too; site: its name, else the file's */
    struct buf rows;
    enum err_code code; /* of the work on it */
    struct err e;
    bool done;
};

struct many {
    const struct context *all;
    const struct options *o;
    struct season_ask ask;
    const char *path; /* of the file being read */

    pthread_mutex_t lock;
    pthread_cond_t given, done;
    bool closed;             /* nothing more comes */
    size_t in, taken, out;   /* sites put on the belt, looked at by a thread, written: site n lies at n % places */
    size_t places, left_out; /* left_out: sites and files without rows */
    struct place *place;
    unsigned threads;
    pthread_t thread[THREADS_MOST];

    bool broken; /* it cannot go on: reading ended with the writer's error */
    bool terminal;
    double told; /* s, when it was last said how far it is */
};

/* Of the days asked for those that the place has. */
static enum err_code find_days(const struct context *c, const struct options *o, struct season_ask *a, struct err *e)
{
    char begins[DATE_TEXT], ends[DATE_TEXT];
    date_t day0 = c->weather.day0, end = day0 + (date_t)c->weather.n - 1;
    date_t to = o->to != DATE_NONE && o->to < end ? o->to : end;
    date_t from = o->from != DATE_NONE ? o->from : to - SEASON_DAYS_SHOWN + 1;
    from = from < day0 ? day0 : from;
    if (from > to) {
        return err_set(e, ERR_NOINPUT, "its weather goes from %s to %s: none of the days asked for",
                       date_format(day0, begins), date_format(end, ends));
    }
    a->first = (size_t)(from - day0);
    a->last = (size_t)(to - day0);
    return ERR_OK;
}

struct work { /* on one place */
    struct place *p;
    struct run run;
    struct season_ask ask;
    struct buf site;
    struct season_walk walk;
};

/* p->code says whether it can begin; end_work is needed in any case. */
static void begin_work(const struct many *m, struct place *p, struct work *w)
{
    w->p = p;
    w->ask = m->ask;
    buf_init(&w->site);
    p->code = context_complete(&p->c, &p->e);
    p->code = p->code == ERR_OK ? find_days(&p->c, m->o, &w->ask, &p->e) : p->code;
    if (p->code == ERR_OK && !context_run(&p->c, true, &w->run)) {
        p->code = err_set(&p->e, ERR_NOMEM, "out of memory");
    }
    buf_add_csv_field(&w->site, p->site);
    w->ask.site = &w->site;
    w->walk = (struct season_walk){.c = &p->c, .ask = &w->ask, .run = &w->run, .out = &p->rows};
}

static void end_work(struct work *w)
{
    if (w->p->code == ERR_OK && (w->site.failed || w->p->rows.failed)) {
        w->p->code = err_set(&w->p->e, ERR_NOMEM, "out of memory");
    }
    buf_release(&w->site);
}

/* On n places, at most AT_ONCE. */
static void work_on(const struct many *m, struct place *const *p, size_t n)
{
    struct work work[AT_ONCE];
    size_t ready = 0;
    for (size_t k = 0; k < n; k++) {
        begin_work(m, p[k], &work[k]);
        ready += p[k]->code == ERR_OK;
    }
    if (ready == AT_ONCE) {
        season_rows_two(&work[0].walk, &work[1].walk);
    }
    for (size_t k = 0; k < n; k++) {
        if (ready < AT_ONCE && p[k]->code == ERR_OK) {
            season_rows(&work[k].walk);
        }
        end_work(&work[k]);
    }
}

/* What lies ready and may be worked on; what has failed before is passed over. */
static size_t take(struct many *m, struct place *taken[AT_ONCE])
{
    size_t n = 0;
    while (n < AT_ONCE && m->taken < m->in) {
        struct place *p = &m->place[m->taken++ % m->places];
        if (!p->done) {
            taken[n++] = p;
        }
    }
    return n;
}

static void *work(void *many)
{
    struct many *m = many;
    struct place *p[AT_ONCE];
    pthread_mutex_lock(&m->lock);
    while (m->taken < m->in || !m->closed) {
        size_t n = take(m, p);
        if (n == 0) {
            pthread_cond_signal(&m->done); /* what was passed over may be written */
            if (!m->closed) {
                pthread_cond_wait(&m->given, &m->lock);
            }
            continue;
        }
        pthread_mutex_unlock(&m->lock);
        work_on(m, p, n);
        pthread_mutex_lock(&m->lock);
        for (size_t k = 0; k < n; k++) {
            p[k]->done = true;
        }
        pthread_cond_signal(&m->done);
    }
    pthread_mutex_unlock(&m->lock);
    return NULL;
}

/* On a terminal and not at once: how far it is. */
static void tell(struct many *m)
{
    double now = clock_ticks();
    if (m->terminal && now - m->told >= TELL_SECONDS) {
        fprintf(stderr, "\rsugarlea: %zu places", m->out);
        m->told = now;
    }
}

/* p: the site that has no rows; NULL: a whole file, which e names. */
static void leave_out(struct many *m, const struct place *p, const struct err *e)
{
    char text[sizeof *e];
    struct buf b;
    if (m->left_out++ >= NAMED_MOST) {
        return;
    }
    buf_init(&b);
    buf_add(&b, m->terminal ? "\r" : "");
    buf_add(&b, "sugarlea: ");
    if (p) {
        buf_add_clean(&b, p->file, strlen(p->file), LIMIT_PATH);
        buf_add(&b, p->site == p->file ? "" : ": site ");
        buf_add_clean(&b, p->site, p->site == p->file ? 0 : strlen(p->site), LIMIT_NAME);
        buf_add(&b, ": ");
    }
    err_format(e, text, sizeof text);
    buf_addf(&b, "%s\n", text);
    fputs(b.text, stderr);
    buf_release(&b);
}

static enum err_code write_rows(const struct buf *b, struct err *e)
{
    bool written = fwrite(b->text, 1, b->length, stdout) == b->length;
    return written ? ERR_OK
                   : err_set(e, ERR_WRITE, "the answer could not be written to standard output: %s", strerror(errno));
}

/* Writes the oldest place of the belt when it is ready, and clears it: no thread may come to look at it any more. */
static enum err_code write_oldest(struct many *m, struct err *e)
{
    struct place *p = &m->place[m->out % m->places];
    pthread_mutex_lock(&m->lock);
    while (!p->done || (m->threads > 0 && m->taken <= m->out)) {
        pthread_cond_wait(&m->done, &m->lock);
    }
    pthread_mutex_unlock(&m->lock);
    enum err_code code = ERR_OK;
    if (p->code == ERR_NOMEM) {
        code = err_set(e, ERR_NOMEM, "out of memory");
    } else if (p->code != ERR_OK) {
        leave_out(m, p, &p->e);
    } else {
        code = write_rows(&p->rows, e);
    }
    m->broken = m->broken || code != ERR_OK;
    m->out++;
    context_release(&p->c);
    buf_clear(&p->rows);
    p->done = false;
    tell(m);
    return code;
}

/* Makes the place ready for work, with memory of its own. */
static enum err_code load(const struct many *m, const struct weather_site *site, struct place *p)
{
    err_clear(&p->e);
    enum err_code code = context_of_site(m->all, site, &p->c, &p->e);
    p->file = arena_strdup(&p->c.arena, m->path);
    p->site = site->name[0] ? arena_strdup(&p->c.arena, site->name) : p->file;
    return p->file && p->site ? code : err_set(&p->e, ERR_NOMEM, "out of memory");
}

/* A site as it was read: onto the belt. */
static enum err_code put(void *many, const struct weather_site *site, struct err *e)
{
    struct many *m = many;
    enum err_code code = m->in - m->out == m->places ? write_oldest(m, e) : ERR_OK;
    if (code != ERR_OK) {
        return code;
    }
    struct place *p = &m->place[m->in % m->places];
    p->code = load(m, site, p);
    p->done = p->code != ERR_OK || m->threads == 0;
    if (p->code == ERR_OK && m->threads == 0) { /* none could be started */
        work_on(m, &p, 1);
    }
    pthread_mutex_lock(&m->lock);
    m->in++;
    pthread_cond_signal(&m->given);
    pthread_mutex_unlock(&m->lock);
    return ERR_OK;
}

static enum err_code read_file(struct many *m, const char *path, struct err *e)
{
    const struct weather_hints hints = {
        .layout = m->o->layout, .units = m->o->file_units, .longitude = m->all->holding.site.longitude};
    m->path = path;
    return weather_each(path, &hints, put, m, e);
}

/* A file of the list. What is wrong with it keeps no other from being read. */
static enum err_code read_listed(struct many *m, char *line, ssize_t length, struct err *e)
{
    struct err why;
    while (length > 0 && (line[length - 1] == '\n' || line[length - 1] == '\r')) {
        line[--length] = 0;
    }
    if (length == 0) {
        return ERR_OK;
    }
    err_clear(&why);
    enum err_code code = ERR_OK;
    if (strlen(line) != (size_t)length || strcmp(line, "-") == 0) {
        code = err_set(&why, ERR_NOINPUT, "a line of the list is no path: write one a line");
    } else {
        code = read_file(m, line, &why);
    }
    if (m->broken || code == ERR_NOMEM || code == ERR_USAGE) {
        *e = why;
        return code;
    }
    if (code != ERR_OK) {
        leave_out(m, NULL, &why);
    }
    return ERR_OK;
}

static enum err_code read_list(struct many *m, struct err *e)
{
    bool standard = strcmp(m->o->list, "-") == 0;
    FILE *list = standard ? stdin : fopen(m->o->list, "re");
    char *line = NULL;
    size_t room = 0;
    ssize_t length;
    enum err_code code = ERR_OK;
    if (!list) {
        err_set(e, ERR_NOINPUT, "cannot be opened: %s", strerror(errno));
        return err_at(e, m->o->list, 0, 0, NULL);
    }
    for (bool first = true; code == ERR_OK && (length = getline(&line, &room, list)) >= 0; first = false) {
        size_t mark = first ? file_mark(line, (size_t)length) : 0;
        code = read_listed(m, line + mark, length - (ssize_t)mark, e);
    }
    if (code == ERR_OK && ferror(list)) {
        err_set(e, ERR_NOINPUT, "cannot be read: %s", strerror(errno));
        code = err_at(e, standard ? "standard input" : m->o->list, 0, 0, NULL);
    }
    free(line);
    if (!standard) {
        fclose(list);
    }
    return code;
}

static void start(struct many *m, unsigned jobs)
{
    pthread_mutex_init(&m->lock, NULL);
    pthread_cond_init(&m->given, NULL);
    pthread_cond_init(&m->done, NULL);
    m->terminal = isatty(STDERR_FILENO) != 0;
    m->told = clock_ticks();
    while (m->threads < jobs && pthread_create(&m->thread[m->threads], NULL, work, m) == 0) {
        m->threads++;
    }
}

/* The threads end when they have worked off what lies there. */
static void stop(struct many *m)
{
    pthread_mutex_lock(&m->lock);
    m->closed = true;
    pthread_cond_broadcast(&m->given);
    pthread_mutex_unlock(&m->lock);
    for (unsigned i = 0; i < m->threads; i++) {
        pthread_join(m->thread[i], NULL);
    }
    for (; m->out < m->in; m->out++) { /* the writer has failed */
        context_release(&m->place[m->out % m->places].c);
    }
    pthread_cond_destroy(&m->done);
    pthread_cond_destroy(&m->given);
    pthread_mutex_destroy(&m->lock);
}

static enum err_code write_names(const struct many *m, struct err *e)
{
    struct arena a;
    struct run r;
    struct buf b;
    arena_init(&a);
    buf_init(&b);
    bool room = run_init(&r, &m->all->params, &m->all->holding, &a);
    if (room) {
        season_begin(SEASON_CSV, SHOW_METRIC, true, &r, &b);
    }
    enum err_code code = room && !b.failed ? write_rows(&b, e) : err_set(e, ERR_NOMEM, "out of memory");
    buf_release(&b);
    arena_release(&a);
    return code;
}

/* Reads, and writes what is ready, until all is written. */
static enum err_code go_on(struct many *m, struct err *e)
{
    enum err_code code = write_names(m, e);
    if (code != ERR_OK) {
        return code;
    }
    code = m->o->list ? read_list(m, e) : read_file(m, m->o->weather, e);
    for (struct err later; !m->broken && m->out < m->in;) {
        enum err_code written = write_oldest(m, &later);
        if (written != ERR_OK) {
            *e = later;
            code = written;
        }
    }
    if (m->terminal && m->out > 0) {
        fputs("\r                                \r", stderr);
    }
    if (code == ERR_OK && m->left_out > 0) {
        code = err_set(e, ERR_DATA, "%zu %s no rows; %s above", m->left_out,
                       m->left_out > 1 ? "places or files have" : "place or file has",
                       m->left_out > NAMED_MOST ? "the first are named" : "what is wrong stands");
    }
    return code;
}

static unsigned jobs_of(const struct options *o)
{
    long cores = sysconf(_SC_NPROCESSORS_ONLN);
    long jobs = isnan(o->jobs) ? cores : (long)o->jobs;
    return jobs < 1 ? 1 : jobs > THREADS_MOST ? THREADS_MOST : (unsigned)jobs;
}

enum err_code season_many(const struct context *c, const struct options *o, const struct season_ask *ask, struct err *e)
{
    unsigned jobs = jobs_of(o);
    struct many m = {.all = c, .o = o, .ask = *ask, .places = (size_t)AT_ONCE * SPARE * jobs + SPARE};
    m.place = calloc(m.places, sizeof *m.place);
    if (!m.place) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    for (size_t i = 0; i < m.places; i++) {
        buf_init(&m.place[i].rows);
    }
    start(&m, jobs);
    enum err_code code = go_on(&m, e);
    stop(&m);
    for (size_t i = 0; i < m.places; i++) {
        buf_release(&m.place[i].rows);
    }
    free(m.place);
    return code;
}

/* Two sites are enough to know. */
static enum err_code count(void *sites, const struct weather_site *site, struct err *e)
{
    size_t *n = sites;
    (void)site;
    return ++*n < 2 ? ERR_OK : err_set(e, ERR_AGAIN, "there are several");
}

enum err_code season_is_many(const struct options *o, bool *many, struct err *e)
{
    size_t sites = 0;
    struct err why;
    const struct weather_hints hints = {.layout = o->layout, .units = o->file_units, .longitude = o->longitude};
    bool nearest = !isnan(o->latitude) && !isnan(o->longitude);
    *many = o->list != NULL;
    if (o->list || !o->csv || nearest || !o->weather || strcmp(o->weather, "-") == 0 || context_has_holding(o)) {
        return ERR_OK;
    }
    err_clear(&why);
    enum err_code code = weather_each(o->weather, &hints, count, &sites, &why);
    *many = sites > 1;
    return code == ERR_NOMEM ? err_set(e, ERR_NOMEM, "%s", why.what) : ERR_OK;
}
