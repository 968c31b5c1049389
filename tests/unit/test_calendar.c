/* Content lines of the calendar: RFC 5545, 3.1 (folding) and 3.3.11 (text).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/calendar.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

static void is(const char *value, const char *line)
{
    struct buf b;
    buf_init(&b);
    calendar_text("SUMMARY", value, &b);
    assert_string_equal(b.text, line);
    buf_release(&b);
}

/* "A BACKSLASH character ... MUST be escaped ... COMMA ... SEMICOLON ... A COLON ... SHALL NOT be
 * escaped"; an intended line break is "\n" (3.3.11). */
static void escapes(void **state)
{
    (void)state;
    is("plain", "SUMMARY:plain\r\n");
    is("", "SUMMARY:\r\n");
    is("a,b;c\\d:e\"f", "SUMMARY:a\\,b\\;c\\\\d:e\"f\r\n");
    is("one\ntwo\n", "SUMMARY:one\\ntwo\\n\r\n");
}

static void lets_no_control_through(void **state)
{
    (void)state;
    is("a\r\nEND:VEVENT", "SUMMARY:a \\nEND:VEVENT\r\n");
    is("a\tb\033[1m\177", "SUMMARY:a b [1m \r\n");
    is("bad \xff\xfe.", "SUMMARY:bad ??.\r\n");
}

/* Unfolded as 3.1 says, the text is what it was; no line is longer than 75 octets, none
 * begins or ends inside a character. */
static void folds(void **state)
{
    static const char *const sign[] = {"x", "\xc3\xa4", "\xe2\x82\xac", "\xf0\x9f\x90\xb4"}; /* 1 to 4 octets */
    char text[600], whole[700], expected[700];
    (void)state;
    for (size_t k = 0; k < 4; k++) {
        for (size_t before = 0; before < 80; before++) {
            struct buf b;
            size_t n = 0;
            memset(text, 'a', before);
            text[before] = 0;
            for (size_t i = 0; i < 100; i++) {
                strcat(text, sign[k]);
            }
            buf_init(&b);
            calendar_text("X", text, &b);
            for (char *line = b.text; *line;) {
                char *end = strstr(line, "\r\n");
                assert_non_null(end);
                assert_true(end - line <= 75);
                assert_true(line == b.text || *line == ' ');
                line += line > b.text; /* the blank of a folded line */
                assert_true(((unsigned char)*line & 0xC0) != 0x80);
                memcpy(whole + n, line, (size_t)(end - line));
                n += (size_t)(end - line);
                line = end + 2;
            }
            whole[n] = 0;
            snprintf(expected, sizeof expected, "X:%s", text);
            assert_string_equal(whole, expected);
            buf_release(&b);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(escapes), cmocka_unit_test(lets_no_control_through),
                                       cmocka_unit_test(folds)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
