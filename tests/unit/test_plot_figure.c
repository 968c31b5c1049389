/* A figure of one's own through the whole pipe, as a new command would add it; with text
 * that would start a program if anything evaluated it. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/file.h"
#include "out/plot.h"

static char folder[] = "/tmp/sugarlea-plots-XXXXXX", marker[64];

static void put(const char *name, const char *text, size_t n)
{
    char path[128];
    struct err e;
    snprintf(path, sizeof path, "%s/%s", folder, name);
    assert_int_equal(file_replace(path, text, n, &e), ERR_OK);
}

static int make_folder(void **state)
{
    static const char template[] =
        "at = 20.0; high = 100.0; words = label\n@panel; @heading; @axes; @grid\n"
        "set xrange [x_from:x_to]\nset yrange [0:top_top]\nset ytics top_step\n"
        "plot $stock using 1:2:4 with filledcurves lc rgb pale, $stock using 1:3 with lines\n";
    struct file_view common;
    struct err e;
    (void)state;
    assert_non_null(mkdtemp(folder));
    snprintf(marker, sizeof marker, "%s/marker", folder);
    assert_int_equal(file_view("plots/common.gp", 1 << 20, &common, &e), ERR_OK);
    put("common.gp", common.data, common.size);
    file_unview(&common);
    put("stock.gp", template, sizeof template - 1);
    return setenv("SUGARLEA_PLOTS", folder, 1);
}

static int drop_folder(void **state)
{
    static const char *const name[] = {"common.gp", "stock.gp", "marker"};
    (void)state;
    for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
        char path[128];
        snprintf(path, sizeof path, "%s/%s", folder, name[i]);
        unlink(path);
    }
    return rmdir(folder);
}

static void build(struct plot *p, const char *text)
{
    date_t first = date_make(2025, 10, 1);
    plot_init(p, "stock", 150);
    plot_title(p, text, text);
    plot_caption(p, text);
    plot_time_axis(p, first, first + 29);
    plot_scale(p, "top", 1130.0, 4);
    plot_text(p, "label", text);
    plot_texts(p, "labels", (const char *const[]){text, "b"}, 2);
    plot_block(p, "stock");
    for (int i = 0; i < 30; i++) {
        plot_row(p, (double[]){first + i + 0.5, 1000.0 - 10.0 * i, 1050.0 - 8.0 * i, 1130.0 - 6.0 * i}, 4);
    }
    plot_block_end(p);
}

/* "%s" is where the command that leaves a marker goes. */
static const char *const hostile[] = {"plain",
                                      "`%s`",
                                      "'`%s`'",
                                      "\"`%s`\"",
                                      "' . system(\"%s\") . '",
                                      "'' . system(\"%s\") . ''",
                                      "''' . system(\"%s\") . '''",
                                      "'; system \"%s\"; x = '",
                                      "'\nsystem \"%s\"\nx = '",
                                      "\nEOD\nsystem \"%s\"\n$x << EOD\n",
                                      "x\\\n! %s\n",
                                      "\\'; ! %s",
                                      "a\r! %s\r",
                                      "a\xe2\x80\xa8! %s",
                                      "< %s",
                                      "| %s",
                                      "@x $(%s) ${x} #{x}",
                                      "' # %s",
                                      "\xff\xfe' . system(\"%s\") . '"};

static bool have_gnuplot(void)
{
    struct buf image;
    struct plot p;
    struct err e;
    buf_init(&image);
    build(&p, "plain");
    bool have = plot_draw(&p, PLOT_SVG, &image, &e) != ERR_NOINPUT;
    plot_release(&p);
    buf_release(&image);
    return have;
}

static void test_hostile(void **state)
{
    (void)state;
    if (!have_gnuplot()) {
        print_message("# skipped: gnuplot is not installed\n");
        skip();
    }
    for (size_t i = 0; i < sizeof hostile / sizeof hostile[0]; i++) {
        char command[128], text[256];
        const char *gap = strstr(hostile[i], "%s");
        struct plot p;
        struct buf image;
        struct err e;
        snprintf(command, sizeof command, "touch %s", marker);
        snprintf(text, sizeof text, "%.*s%s%s", gap ? (int)(gap - hostile[i]) : 100, hostile[i], gap ? command : "",
                 gap ? gap + 2 : "");
        build(&p, text);
        buf_init(&image);
        for (int f = PLOT_SVG; f <= PLOT_PDF; f++) {
            err_clear(&e);
            if (plot_draw(&p, (enum plot_format)f, &image, &e) != ERR_OK) {
                fail_msg("format %d of \"%s\": %s", f, text, e.what);
            }
            if (access(marker, F_OK) == 0) {
                fail_msg("\"%s\" started a program", text);
            }
        }
        plot_release(&p);
        buf_release(&image);
    }
}

/* The marker would be seen: a template that does evaluate what it is given leaves one. */
static void test_marker(void **state)
{
    static const char careless[] = "x = system(label)\nplot [0:1] [0:1] NaN\n";
    struct plot p;
    struct buf image;
    struct err e;
    char command[128];
    (void)state;
    if (!have_gnuplot()) {
        skip();
    }
    put("stock.gp", careless, sizeof careless - 1);
    snprintf(command, sizeof command, "touch %s", marker);
    build(&p, command);
    buf_init(&image);
    assert_int_equal(plot_draw(&p, PLOT_SVG, &image, &e), ERR_OK);
    assert_int_equal(access(marker, F_OK), 0);
    plot_release(&p);
    buf_release(&image);
}

/* Told before gnuplot is looked for. */
static void test_no_template(void **state)
{
    struct plot p;
    struct buf image;
    struct err e;
    char text[1024];
    err_clear(&e);
    (void)state;
    plot_init(&p, "absent", 100);
    buf_init(&image);
    assert_int_equal(plot_draw(&p, PLOT_PNG, &image, &e), ERR_NOINPUT);
    err_format(&e, text, sizeof text);
    assert_non_null(strstr(text, "absent.gp"));
    assert_int_equal(image.length, 0);
    plot_release(&p);
    buf_release(&image);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_no_template), cmocka_unit_test(test_hostile),
                                       cmocka_unit_test(test_marker)};
    signal(SIGPIPE, SIG_IGN);
    return cmocka_run_group_tests(tests, make_folder, drop_folder);
}
