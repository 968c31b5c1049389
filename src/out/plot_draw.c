/* The one pipe to gnuplot. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/child.h"
#include "base/file.h"
#include "base/limits.h"
#include "out/plot_inner.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#define DEADLINE_S 20.0
enum { MARGIN = 12, LINE = 15, TITLE_HEIGHT = 24, LINE_WIDTH = 78, TEMPLATE_MOST = 64 << 10, ENVIRONMENT_ROOM = 16 };

static const struct {
    const char *ending, *terminal;
    double per_unit;  /* what the terminal counts sizes in, per unit of the page */
    const char *unit; /* behind a size */
    const char *options;
} row[] = {
    [PLOT_SVG] = {"svg", "svg", 1.0, "", "dynamic rounded font 'sans-serif,12' background '#ffffff'"},
    [PLOT_PNG] = {"png", "pngcairo", 2.0, "", "rounded font 'Sans,12' fontscale 1.5 linewidth 2 pointscale 2"},
    [PLOT_PDF] = {"pdf", "pdfcairo", 1.0 / 72.0, "in", "rounded font 'Sans,12' fontscale 0.75 linewidth 1.5"},
};
enum { ROWS = sizeof row / sizeof row[0] };

enum err_code plot_format_of(const char *path, enum plot_format *format, struct err *e)
{
    const char *dot = strrchr(path, '.');
    for (int i = 0; dot && i < ROWS; i++) {
        if (strcasecmp(dot + 1, row[i].ending) == 0) {
            *format = (enum plot_format)i;
            return ERR_OK;
        }
    }
    return err_set(e, ERR_USAGE, "\"%.100s\" has to end in .svg, .png or .pdf: that says what picture it becomes",
                   path);
}

static enum err_code add_template(const char *name, struct buf *script, struct err *e)
{
    char folder[LIMIT_PATH], path[LIMIT_PATH + 64];
    struct file_view view;
    file_own_folder("plots", "SUGARLEA_PLOTS", folder, sizeof folder);
    snprintf(path, sizeof path, "%s/%s.gp", folder, name);
    enum err_code code = file_view(path, TEMPLATE_MOST, &view, e);
    if (code == ERR_OK) {
        buf_add_bytes(script, view.data, view.size);
        buf_add_char(script, '\n');
        file_unview(&view);
    }
    return code;
}

/* Page, data, then what plots/common.gp and the figure's own template make of them. */
static enum err_code make_script(const struct plot *p, enum plot_format format, struct buf *script, struct err *e)
{
    struct buf words;
    buf_init(&words);
    size_t about = plot_add_wrapped(&words, "about", p->about.text, LINE_WIDTH);
    size_t caption = plot_add_wrapped(&words, "caption", p->caption.text, LINE_WIDTH);
    double top = MARGIN + TITLE_HEIGHT + LINE * (double)about;
    double height = ceil(top + p->body + LINE * (double)(caption + 1) + MARGIN);
    buf_addf(script, "set terminal %s size %g%s,%g%s noenhanced %s", row[format].terminal,
             PLOT_WIDTH * row[format].per_unit, row[format].unit, height * row[format].per_unit, row[format].unit,
             row[format].options);
    if (format == PLOT_SVG) { /* begins the ids of what is drawn */
        buf_addf(script, " name 'sugarlea_%s'", p->figure);
    }
    buf_add(script, "\nset encoding utf8\n");
    buf_addf(script, "W = %d.0\nH = %.1f\ntop = %.1f\nbody = %.1f\nline = %d.0\nmargin = %d.0\n", PLOT_WIDTH, height,
             top, p->body, LINE, MARGIN);
    buf_add(script, "title_text = ");
    plot_add_quoted(script, p->title.text, PLOT_TEXT_MOST);
    buf_add_char(script, '\n');
    buf_add_bytes(script, words.text, words.length);
    buf_add_bytes(script, p->given.text, p->given.length);
    bool failed = words.failed || p->given.failed || p->title.failed || p->about.failed || p->caption.failed;
    buf_release(&words);
    enum err_code code = add_template("common", script, e);
    code = code == ERR_OK ? add_template(p->figure, script, e) : code;
    buf_add(script, "unset multiplot\nunset output\n");
    return failed || script->failed ? err_set(e, ERR_NOMEM, "out of memory") : code;
}

/* Where programs and fonts are found, and nothing that steers gnuplot. */
static char **bare_environment(void)
{
    static const char *const kept[] = {
        "PATH",          "HOME",           "TMPDIR", "XDG_CACHE_HOME", "FONTCONFIG_FILE", "FONTCONFIG_PATH",
        "XDG_DATA_HOME", "LD_LIBRARY_PATH"};
    char **list = calloc(ENVIRONMENT_ROOM, sizeof *list);
    size_t n = 0;
    for (size_t i = 0; list && i < sizeof kept / sizeof kept[0]; i++) {
        const char *value = getenv(kept[i]);
        if (value && asprintf(&list[n], "%s=%s", kept[i], value) > 0) {
            n++;
        }
    }
    if (list) {
        list[n] = strdup("LC_ALL=C.UTF-8");
    }
    return list;
}

static void free_environment(char **list)
{
    for (size_t i = 0; list && list[i]; i++) {
        free(list[i]);
    }
    free(list);
}

/* Its last word, which says what stopped it: "line 12: undefined variable: x". */
static int last_line(const struct buf *b, const char **line)
{
    size_t end = b->length;
    while (end && strchr(" \r\n\t", b->text[end - 1])) {
        end--;
    }
    size_t from = end;
    while (from && b->text[from - 1] != '\n') {
        from--;
    }
    from += strspn(b->text + from, " \t");
    *line = b->text + from;
    return end > from ? (int)(end - from) : 0;
}

static void say_why(const struct child_end *end, const struct buf *complaint, struct err *e)
{
    const char *text;
    int length = last_line(complaint, &text);
    switch (end->fate) {
    case CHILD_LATE:
        err_set(e, ERR_CREATE, "gnuplot did not end within %.0f s and was stopped; no picture was written", DEADLINE_S);
        break;
    case CHILD_TALKATIVE:
        err_set(e, ERR_CREATE, "gnuplot drew more than %u bytes and was stopped; no picture was written",
                LIMIT_PICTURE);
        break;
    case CHILD_SIGNALLED:
        err_set(e, ERR_CREATE, "gnuplot was ended by signal %d; no picture was written", end->status);
        break;
    default:
        err_set(e, ERR_CREATE, "gnuplot failed (exit code %d%s%.*s); no picture was written", end->status,
                length ? ", it says: " : "", length < 200 ? length : 200, text);
    }
}

static enum err_code run_gnuplot(const struct buf *script, struct buf *image, struct err *e)
{
    char name[] = "gnuplot", defaults[] = "-d";
    char *const arguments[] = {name, defaults, NULL};
    char **environment = bare_environment();
    struct child_job job = {.program = name,
                            .arguments = arguments,
                            .environment = environment,
                            .input = script->text,
                            .input_size = script->length,
                            .deadline_s = DEADLINE_S,
                            .output_most = LIMIT_PICTURE};
    struct child_end end = {CHILD_EXITED, 0};
    struct buf complaint;
    buf_init(&complaint);
    enum err_code code =
        environment ? child_run(&job, image, &complaint, &end, e) : err_set(e, ERR_NOMEM, "out of memory");
    if (code == ERR_NOINPUT) {
        err_set(e, code,
                "pictures are drawn by gnuplot, which is not found on this machine: install it (Debian, Ubuntu: "
                "apt-get install gnuplot-nox; others: the package gnuplot). All else works without it");
    } else if (code == ERR_OK && (end.fate != CHILD_EXITED || end.status != 0)) {
        say_why(&end, &complaint, e);
        code = ERR_CREATE;
    }
    free_environment(environment);
    buf_release(&complaint);
    return code;
}

enum err_code plot_draw(const struct plot *p, enum plot_format format, struct buf *image, struct err *e)
{
    struct buf script;
    buf_init(&script);
    buf_clear(image);
    enum err_code code = make_script(p, format, &script, e);
    code = code == ERR_OK ? run_gnuplot(&script, image, e) : code;
    buf_release(&script);
    if (code == ERR_OK && !plot_finish(p, format, image)) {
        code = image->failed
                   ? err_set(e, ERR_NOMEM, "out of memory")
                   : err_set(e, ERR_CREATE, "gnuplot drew no whole %s picture (%zu bytes came); none was written",
                             row[format].ending, image->length);
    }
    return code;
}

enum err_code plot_write(const struct plot *p, const char *path, struct err *e)
{
    enum plot_format format = PLOT_SVG;
    struct buf image;
    buf_init(&image);
    enum err_code code = plot_format_of(path, &format, e);
    code = code == ERR_OK ? plot_draw(p, format, &image, e) : code;
    code = code == ERR_OK ? file_replace(path, image.text, image.length, e) : code;
    buf_release(&image);
    return code;
}
