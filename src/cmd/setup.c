/* Writes a holding file by questions, keeps the one before, and shows the first advice.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "setup/setup.h"

#include "base/clock.h"
#include "base/file.h"
#include "base/term.h"
#include "cmd/context.h"
#include "cmd/today.h"
#include "data/diary_weight.h"

#include <errno.h>
#include <libgen.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { GIVEN_TEXT = 64 };

static enum setup_line read_answer(void *with, char *line, size_t size)
{
    (void)with;
    if (!fgets(line, (int)size, stdin)) {
        line[0] = 0;
        return SETUP_LINE_END;
    }
    size_t n = strlen(line);
    if (n + 1 < size || line[n - 1] == '\n') {
        line[strcspn(line, "\n")] = 0;
        return SETUP_LINE;
    }
    line[0] = 0;
    int c = getchar();
    while (c != '\n' && c != EOF) {
        c = getchar();
    }
    return SETUP_LINE_LONG;
}

static void write_text(void *with, const char *text)
{
    (void)with;
    fputs(text, stdout);
    fflush(stdout);
}

static enum err_code check_folder_of(const char *path, struct err *e)
{
    char folder[LIMIT_PATH];
    snprintf(folder, sizeof folder, "%s", path);
    if (access(dirname(folder), W_OK) != 0) {
        err_set(e, ERR_CREATE, "cannot be created: %s; name another file with --holding FILE", strerror(errno));
        return err_at(e, path, 0, 0, NULL);
    }
    return ERR_OK;
}

/* Asked before anybody types answers that cannot be kept: the file is written where a link leads, and the one before
 * is kept beside the link. */
static enum err_code check_folder(const char *path, struct err *e)
{
    char target[LIMIT_PATH];
    enum err_code code = file_target(path, target, e);
    code = code == ERR_OK ? check_folder_of(target, e) : code;
    return code == ERR_OK && access(path, F_OK) == 0 ? check_folder_of(path, e) : code;
}

/* The wished file: by option, environment, or holding.json here. */
static enum err_code check_path(const struct options *o, char path[LIMIT_PATH], struct err *e)
{
    const char *set = getenv("SUGARLEA_HOLDING");
    const char *wished = o->holding ? o->holding : set && set[0] ? set : "holding.json";
    if (strcmp(wished, "-") == 0 || strlen(wished) >= LIMIT_PATH - GIVEN_TEXT || !wished[0]) {
        return options_wrong(e, "--holding", "needs the name of a file to write");
    }
    snprintf(path, LIMIT_PATH, "%s", wished);
    if (o->no_input && !o->replace && access(path, F_OK) == 0) {
        err_set(
            e, ERR_CREATE,
            "is there already, and is not replaced unasked: name another with --holding FILE, say --replace (the old "
            "one is kept), or leave --no-input out to go through it");
        return err_at(e, path, 0, 0, NULL);
    }
    return check_folder(path, e);
}

static enum err_code check_together(const struct options *o, struct err *e)
{
    if (o->replace && !o->no_input) {
        return options_wrong(e, "--replace", "goes with --no-input; with questions you are asked");
    }
    if (isnan(o->latitude) != isnan(o->longitude)) {
        return options_wrong(e, isnan(o->latitude) ? "--longitude" : "--latitude",
                             "needs the other one: a place is --latitude and --longitude");
    }
    return ERR_OK;
}

static char *number(struct context *c, double x, const char *unit)
{
    char text[GIVEN_TEXT];
    snprintf(text, sizeof text, "%.10g%s%s", x, unit[0] ? " " : "", unit);
    return isnan(x) ? NULL : arena_strdup(&c->arena, text);
}

static char *word(struct context *c, const char *text)
{
    return text ? arena_strdup(&c->arena, text) : NULL;
}

static enum err_code ask(const struct options *o, struct context *c, char path[LIMIT_PATH], struct buf *text,
                         struct err *e)
{
    char place[GIVEN_TEXT];
    snprintf(place, sizeof place, "%.10g, %.10g", o->latitude, o->longitude);
    const struct setup_given given[] = {{"name", word(c, o->name)},
                                        {"weather", word(c, o->weather)},
                                        {"latitude", isnan(o->latitude) ? NULL : word(c, place)},
                                        {"elevation", number(c, o->elevation, "m")},
                                        {"timezone", word(c, o->timezone)},
                                        {"service", word(c, o->service)},
                                        {"area", number(c, o->area, "ha")},
                                        {"grass", word(c, o->grass)},
                                        {"soil", word(c, o->soil)},
                                        {"nitrogen", word(c, o->nitrogen)},
                                        {"cover", number(c, o->cover, "kg")},
                                        {"animal", word(c, o->animal)},
                                        {"count", number(c, o->count, "")},
                                        {"weight", number(c, o->weight, "kg")}};
    const struct setup_job job = {.params = &c->params,
                                  .arena = &c->arena,
                                  .io = {.read = read_answer,
                                         .write = write_text,
                                         .terminal = isatty(STDIN_FILENO) != 0,
                                         .colour = !o->plain && !o->no_colour && term_colour(STDOUT_FILENO),
                                         .width = term_width(STDOUT_FILENO)},
                                  .no_input = o->no_input,
                                  .brief = o->brief,
                                  .anew = o->no_input,
                                  .given = given,
                                  .givens = sizeof given / sizeof given[0]};
    return setup_ask(&job, path, text, e);
}

/* The file that stands there is kept under another name first. */
static enum err_code keep_old(const char *path, char old[LIMIT_PATH], struct err *e)
{
    struct file_view view;
    old[0] = 0;
    if (access(path, F_OK) != 0) {
        return ERR_OK;
    }
    enum err_code code = file_view(path, LIMIT_JSON_BYTES, &view, e);
    if (code == ERR_OK) {
        setup_free_name(path, true, old);
        code = file_replace(old, view.data, view.size, e);
        file_unview(&view);
    }
    return code;
}

static void say_written(const struct page *page, const char *path, const char *old)
{
    char text[2 * LIMIT_PATH + GIVEN_TEXT];
    snprintf(text, sizeof text, "Written: %s%s%s%s", path, old[0] ? " (what stood there is now " : "", old,
             old[0] ? ")" : ".");
    buf_add(page->b, "\n");
    text_wrap(page, "", text);
}

static void say_next(const struct options *o, const struct page *page, const char *path)
{
    char also[LIMIT_PATH + GIVEN_TEXT];
    const char *set = getenv("SUGARLEA_HOLDING");
    bool named = strcmp(path, "holding.json") != 0 && !(set && strcmp(path, set) == 0);
    buf_add(page->b, "\nWhat to do next:\n");
    text_wrap(page, "  sugarlea today                 ", "the advice, each morning");
    text_wrap(page, "  sugarlea sheet -o sheet.html   ", "a page for the phone and the stable door");
    text_wrap(page, "  sugarlea help record           ", "how to write down what you see and do");
    if (named) {
        snprintf(also, sizeof also, "Each with --holding %s behind it.", path);
        text_wrap(page, "  ", also);
    }
    if (options_units(o) == SHOW_US && !getenv("SUGARLEA_UNITS")) {
        text_wrap(page, "  ",
                  "Each with --units us behind it; or once for all, in the ~/.profile of this machine: "
                  "export SUGARLEA_UNITS=us");
    }
}

static void say_weight(const struct options *o, const struct page *page, const struct animal_group *g)
{
    char kg[UNITS_TEXT], day[DATE_TEXT], text[LIMIT_TEXT];
    units_text(options_units(o), AMOUNT_MASS, g->weight_kg, 0, kg);
    snprintf(text, sizeof text, "%s, of %s. If that is old: sugarlea record weight ANIMAL KG", kg,
             date_format(g->weighed, day));
    buf_addf(page->b, "The diary's weight is the one that counts for %s:\n", g->id);
    text_wrap(page, "  ", text);
}

/* Who typed another weight than the diary's must not believe that it counts. A file that cannot
 * be read is told of by the advice. */
static void say_weights(const struct options *o, const struct page *page, const char *path)
{
    struct options own = *o;
    struct context c;
    struct err unsaid = {0};
    char diary[LIMIT_PATH];
    context_init(&c);
    own.holding = path;
    enum err_code code = context_holding(&c, &own, &unsaid);
    const struct holding *h = &c.holding;
    double *typed = code == ERR_OK ? arena_alloc(&c.arena, h->animals, sizeof *typed) : NULL;
    for (size_t i = 0; typed && i < h->animals; i++) {
        typed[i] = h->animal[i].weight_kg;
    }
    if (typed) {
        diary_path(h, diary, sizeof diary);
        code = diary_load(diary, h, &c.arena, &c.diary, &unsaid);
    }
    if (typed && code == ERR_OK) {
        size_t known = diary_until(&c.diary, clock_today(h->site.timezone));
        diary_weigh(c.diary.entry, known, &c.params.limits, &c.holding);
    }
    for (size_t i = 0; typed && i < h->animals; i++) {
        if (h->animal[i].weighed != DATE_NONE && fabs(h->animal[i].weight_kg - typed[i]) >= 0.5) {
            say_weight(o, page, &h->animal[i]);
        }
    }
    context_release(&c);
}

/* What was done, told at once: whatever comes after, the file stands. */
static enum err_code tell(const struct options *o, const char *path, const char *old, struct err *e)
{
    struct buf b;
    buf_init(&b);
    const struct page page = options_page(o, &b);
    say_written(&page, path, old);
    say_weights(o, &page, path);
    say_next(o, &page, path);
    buf_add(&b, "\n");
    write_text(NULL, b.text);
    enum err_code code = b.failed ? err_set(e, ERR_NOMEM, "out of memory") : ERR_OK;
    buf_release(&b);
    return code;
}

/* The first advice is that of `today --short`: the list to act on. Where weather is missing, old or not to be had, the
 * file is good all the same, and what to do is said; a file that cannot be read is an error. */
static enum err_code first_advice(const struct options *o, const char *path, struct buf *out, struct err *e)
{
    const struct page page = options_page(o, out);
    struct options morning = *o;
    char why[LIMIT_TEXT * 3];
    int status = 0;
    morning.holding = path;
    morning.brief = true;
    morning.weather = NULL;
    morning.date = DATE_NONE;
    enum err_code code = cmd_today(&morning, out, &status, e);
    if ((code != ERR_NOINPUT && code != ERR_NETWORK) || e->file[0]) {
        return code;
    }
    snprintf(why, sizeof why, "%s.", e->what);
    text_wrap(&page, "No advice yet: ", why);
    text_wrap(
        &page, "  ",
        "When the weather is there, \"sugarlea today\" gives it; \"sugarlea weather\" shows what there is. README.md, "
        "Weather, tells where to get it.");
    err_clear(e);
    return ERR_OK;
}

enum err_code cmd_setup(const struct options *o, struct buf *out, int *status, struct err *e)
{
    char path[LIMIT_PATH], old[LIMIT_PATH];
    struct context c;
    struct buf text;
    (void)status;
    context_init(&c);
    buf_init(&text);
    enum err_code code = check_path(o, path, e);
    code = code == ERR_OK ? check_together(o, e) : code;
    code = code == ERR_OK ? context_params(&c, e) : code;
    code = code == ERR_OK ? ask(o, &c, path, &text, e) : code;
    code = code == ERR_OK ? keep_old(path, old, e) : code;
    code = code == ERR_OK ? file_replace(path, text.text, text.length, e) : code;
    code = code == ERR_OK ? tell(o, path, old, e) : code;
    code = code == ERR_OK ? first_advice(o, path, out, e) : code;
    buf_release(&text);
    context_release(&c);
    return code;
}
