/* What a figure hands to gnuplot, and what is made of its answer. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "out/plot_inner.h"

static void assert_clean(const char *text, size_t most, const char *expected)
{
    struct buf b;
    buf_init(&b);
    buf_add_clean(&b, text, strlen(text), most);
    assert_string_equal(b.text, expected);
    buf_release(&b);
}

static void test_clean(void **state)
{
    (void)state;
    assert_clean("Sallow End", 40, "Sallow End");
    assert_clean("a\nb\rc\td\x7f"
                 "e\x1b[31m",
                 40, "a b c d e [31m");
    assert_clean("a\xc2\x85"
                 "b\xe2\x80\xa8"
                 "c\xe2\x80\xae"
                 "d\xe2\x81\xa6",
                 40, "a b c d "); /* next line, line separator, turned writing */
    assert_clean("W\xc3\xbc"
                 "ste \xff\xc3",
                 40, "W\xc3\xbcste ??");                                /* letters stay, what is no UTF-8 does not */
    assert_clean("\xc3\xbc\xc3\xbc\xc3\xbc", 2, "\xc3\xbc\xc3\xbc..."); /* cut between characters */
    assert_clean("", 5, "");
}

static void assert_quoted(const char *text, const char *expected)
{
    struct buf b;
    buf_init(&b);
    plot_add_quoted(&b, text, PLOT_TEXT_MOST);
    assert_string_equal(b.text, expected);
    buf_release(&b);
}

static void test_quoted(void **state)
{
    (void)state;
    assert_quoted("it's", "'it\xe2\x80\x99s'");
    assert_quoted("'", "'\xe2\x80\x99'");
    assert_quoted("`touch x`\n\"$(y)\" \\", "'`touch x` \"$(y)\" \\'");
    assert_quoted("", "''");
}

static void test_wrapped(void **state)
{
    struct buf b;
    (void)state;
    buf_init(&b);
    assert_int_equal(plot_add_wrapped(&b, "a", "one two three", 7), 2);
    assert_string_equal(b.text, "array a[2]\na[1] = 'one two'\na[2] = 'three'\n");
    buf_clear(&b);
    assert_int_equal(plot_add_wrapped(&b, "a", "abcdefgh ij", 4), 3);
    assert_string_equal(b.text, "array a[3]\na[1] = 'abcd'\na[2] = 'efgh'\na[3] = 'ij'\n");
    buf_clear(&b);
    assert_int_equal(plot_add_wrapped(&b, "a", "\xc3\xbc\xc3\xbc\xc3\xbc it's", 3), 3);
    assert_string_equal(b.text, "array a[3]\na[1] = '\xc3\xbc\xc3\xbc\xc3\xbc'\na[2] = 'it\xe2\x80\x99'\na[3] = 's'\n");
    buf_clear(&b);
    assert_int_equal(plot_add_wrapped(&b, "a", "", 5), 1);
    assert_string_equal(b.text, "array a[1]\na[1] = ''\n");
    buf_release(&b);
}

static void test_scale(void **state)
{
    static const struct {
        double most;
        int steps;
        const char *given;
    } rule[] = {{437, 5, "x_step = 100\nx_top = 500\n"},
                {500, 5, "x_step = 100\nx_top = 500\n"},
                {501, 5, "x_step = 200\nx_top = 600\n"},
                {0.7, 4, "x_step = 0.2\nx_top = 0.8\n"},
                {9, 4, "x_step = 2.5\nx_top = 10\n"}};
    (void)state;
    for (size_t i = 0; i < sizeof rule / sizeof rule[0]; i++) {
        struct plot p;
        plot_init(&p, "days", 100);
        plot_scale(&p, "x", rule[i].most, rule[i].steps);
        assert_string_equal(p.given.text, rule[i].given);
        plot_release(&p);
    }
}

static void test_block(void **state)
{
    struct plot p;
    (void)state;
    plot_init(&p, "days", 100);
    plot_block(&p, "d");
    plot_row(&p, (double[]){1, NAN, -0.00001, INFINITY}, 4);
    plot_row(&p, NULL, 0);
    plot_block_end(&p);
    assert_string_equal(p.given.text, "$d << EOD\n1 NaN 0 NaN\n\nEOD\n");
    plot_release(&p);
}

static size_t count(const char *text, const char *what)
{
    size_t n = 0;
    for (const char *at = text; (at = strstr(at, what)); at += strlen(what)) {
        n++;
    }
    return n;
}

/* Labels for spans from a day to three centuries: some, and never too many. */
static void test_time_axis(void **state)
{
    static const int days[] = {1, 2, 10, 31, 62, 98, 99, 200, 365, 430, 431, 800, 1300, 1301, 5479, 14610, 120000};
    (void)state;
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        struct plot p;
        date_t first = date_make(1850, 1, 20);
        plot_init(&p, "days", 100);
        plot_time_axis(&p, first, first + days[i] - 1);
        assert_in_range(count(p.given.text, "tick_text["), 2, 17); /* with the array itself */
        plot_release(&p);
    }
}

static void test_format(void **state)
{
    enum plot_format f;
    struct err e;
    (void)state;
    assert_int_equal(plot_format_of("a.b/x.SVG", &f, &e), ERR_OK);
    assert_int_equal(f, PLOT_SVG);
    assert_int_equal(plot_format_of("x.png", &f, &e), ERR_OK);
    assert_int_equal(f, PLOT_PNG);
    assert_int_equal(plot_format_of("x.pdf", &f, &e), ERR_OK);
    assert_int_equal(f, PLOT_PDF);
    static const char *const bad[] = {"x", "x.", "x.gif", "", "-", "svg", "x.svgz", "x.svg/"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        assert_int_equal(plot_format_of(bad[i], &f, &e), ERR_USAGE);
        assert_non_null(strstr(e.what, ".svg, .png or .pdf"));
    }
}

static bool finishes(enum plot_format f, const char *bytes, size_t n, struct buf *image)
{
    struct plot p;
    plot_init(&p, "days", 100);
    plot_title(&p, "A <b>&", "about");
    plot_caption(&p, "Said.");
    buf_init(image);
    buf_add_bytes(image, bytes, n);
    bool whole = plot_finish(&p, f, image);
    plot_release(&p);
    return whole;
}

#define SVG_HEAD "<?xml version=\"1.0\"?>\n<svg >\n<title>Gnuplot</title>\n<desc>Produced by X</desc>\n"

static void test_finish_svg(void **state)
{
    static const char whole[] = SVG_HEAD "<g id=\"gnuplot_canvas\"><g fill=\"none\">\n</g>\n<use xlink:href='#gpPt0'/>"
                                         "<g id=\"p\" ><title>p</title><text>'gpPt0</text></g></g></svg>\n\n";
    struct buf image;
    (void)state;
    assert_true(finishes(PLOT_SVG, whole, sizeof whole - 1, &image));
    assert_string_equal(image.text,
                        "<?xml version=\"1.0\"?>\n<svg >\n<title>A &lt;b&gt;&amp;: about</title>\n<desc>Said.</desc>"
                        "\n\n<g id=\"sugarlea-days-gnuplot_canvas\"><use xlink:href='#sugarlea-days-gpPt0'/>"
                        "<g id=\"p\" ><text>'gpPt0</text></g></g></svg>\n\n");
    buf_release(&image);
    static const char *const broken[] = {"", SVG_HEAD, SVG_HEAD "<g>", "</svg>", "warning\n" SVG_HEAD "</svg>"};
    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++) {
        assert_false(finishes(PLOT_SVG, broken[i], strlen(broken[i]), &image));
        buf_release(&image);
    }
}

static void test_finish_png_pdf(void **state)
{
    static const char png[] = "\x89PNG\r\n\x1a\n....\0\0\0\0IEND\xae\x42\x60\x82";
    static const char pdf[] = "%PDF-1.5\n<< /Producer (x)\n   /CreationDate (D:20261125150143Z)\n>>\n%%EOF\n";
    struct buf image;
    (void)state;
    for (size_t n = 0; n < sizeof png; n++) {
        assert_int_equal(finishes(PLOT_PNG, png, n, &image), n == sizeof png - 1);
        buf_release(&image);
    }
    for (size_t n = 0; n < sizeof pdf; n++) {
        assert_int_equal(finishes(PLOT_PDF, pdf, n, &image), n >= sizeof pdf - 2); /* the last newline may lack */
        assert_int_equal(image.length, n);
        buf_release(&image);
    }
    assert_true(finishes(PLOT_PDF, pdf, sizeof pdf - 1, &image));
    assert_null(strstr(image.text, "2026"));
    assert_null(strstr(image.text, "Date"));
    assert_non_null(strstr(image.text, "   \n>>\n%%EOF"));
    buf_release(&image);
    static const char endless[] = "%PDF-1.5\n/CreationDate (D:2026\n%%EOF\n"; /* a date that does not end */
    assert_false(finishes(PLOT_PDF, endless, sizeof endless - 1, &image));
    buf_release(&image);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_clean),  cmocka_unit_test(test_quoted),     cmocka_unit_test(test_wrapped),
        cmocka_unit_test(test_scale),  cmocka_unit_test(test_block),      cmocka_unit_test(test_time_axis),
        cmocka_unit_test(test_format), cmocka_unit_test(test_finish_svg), cmocka_unit_test(test_finish_png_pdf),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
