/* Text that is not ours on a page, and numbers in its pictures. What must be escaped: HTML
 * standard, "13.3 Serializing HTML fragments", and the OWASP rule for quoted attributes
 * (from memory). SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "out/html.h"

static void shows(const char *text, const char *expected)
{
    struct buf b;
    buf_init(&b);
    html_text(&b, text, HTML_WHOLE);
    assert_false(b.failed);
    assert_string_equal(b.text, expected);
    buf_release(&b);
}

static void test_nothing_of_it_is_markup(void **state)
{
    (void)state;
    shows("", "");
    shows("Rosie's paddock", "Rosie&#39;s paddock");
    shows("<script>alert(1)</script>", "&lt;script&gt;alert(1)&lt;/script&gt;");
    shows("\" onload=\"x", "&quot; onload=&quot;x");
    shows("&lt; &amp;", "&amp;lt; &amp;amp;");
    shows("]]>--></title>", "]]&gt;--&gt;&lt;/title&gt;");
    shows("{{7*7}} ${x} %s", "{{7*7}} ${x} %s");
}

static void test_nothing_of_it_is_obeyed(void **state)
{
    (void)state;
    shows("a\nb\tc\x7f", "a b c ");
    shows("a\xe2\x80\xae"
          "b",
          "a b"); /* U+202E turns the direction of writing */
    shows("a\xe2\x81\xa7"
          "b",
          "a b");                      /* U+2067 */
    shows("\xff<\xc0\xbc", "?&lt;??"); /* no UTF-8, and "<" in two bytes */
    shows("K\xc3\xb6rnerwiese", "K\xc3\xb6rnerwiese");
}

static void test_it_is_cut_between_characters(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    html_text(&b, "&\xc3\xb6<<<", 3);
    assert_string_equal(b.text, "&amp;\xc3\xb6&lt;...");
    buf_release(&b);
}

static void test_every_byte_is_safe_between_quotes(void **state)
{
    (void)state;
    for (int c = 1; c < 256; c++) {
        char text[] = {(char)c, 0};
        struct buf b;
        buf_init(&b);
        html_text(&b, text, HTML_WHOLE);
        assert_null(strpbrk(b.text, "<>\"'\n\r"));
        buf_release(&b);
    }
}

static void test_a_line_breaks_where_a_number_is_none(void **state)
{
    (void)state;
    const double x[] = {0, 1, 2, 3, 4}, y[] = {10, 20.04, (double)NAN, -0.01, 1e9};
    struct buf b;
    buf_init(&b);
    svg_line(&b, "level", x, y, 5);
    assert_string_equal(b.text, "<path class=\"level\" d=\"M0 10L1 20M3 0L4 1000000000\"/>\n");
    buf_release(&b);
}

static void test_a_band_breaks_into_closed_pieces(void **state)
{
    (void)state;
    const double x[] = {0, 1, 2, 3}, low[] = {9, 8, 7, 6}, high[] = {1, 2, (double)INFINITY, 4};
    struct buf b;
    buf_init(&b);
    svg_band(&b, "band", x, low, high, 4);
    assert_string_equal(b.text, "<path class=\"band\" d=\"M0 1L1 2L1 8L0 9ZM3 4L3 6Z\"/>\n");
    buf_release(&b);
}

static void test_what_has_no_place_is_left_out(void **state)
{
    (void)state;
    struct buf b;
    buf_init(&b);
    svg_rect(&b, "out", (double)NAN, 0, 1, 1);
    svg_text(&b, "end", 0, (double)NAN, "lost");
    assert_string_equal(b.text, "");
    svg_rect(&b, "out", 0.25, 1, 10, 2);
    assert_string_equal(b.text, "<rect class=\"out\" x=\"0.2\" y=\"1\" width=\"10\" height=\"2\"/>\n");
    buf_release(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nothing_of_it_is_markup),
        cmocka_unit_test(test_nothing_of_it_is_obeyed),
        cmocka_unit_test(test_it_is_cut_between_characters),
        cmocka_unit_test(test_every_byte_is_safe_between_quotes),
        cmocka_unit_test(test_a_line_breaks_where_a_number_is_none),
        cmocka_unit_test(test_a_band_breaks_into_closed_pieces),
        cmocka_unit_test(test_what_has_no_place_is_left_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
