/* Text in parts, as lines and for man(7). What is escaped, and how, is by groff_char(7) and
 * groff_man_style(7). SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/doc.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const char *shown(bool manual, void (*write)(const struct doc *d), char *text, size_t size)
{
    struct buf b;
    buf_init(&b);
    const struct doc d = {.b = &b, .manual = manual};
    write(&d);
    assert_false(b.failed);
    assert_true(b.length < size);
    memcpy(text, b.text, b.length + 1);
    buf_release(&b);
    return text;
}

static void paragraphs(const struct doc *d)
{
    doc_flow(d, "One\ntwo. Three-four.\n  sugarlea today --json\n  .b\n\n.five 'six' back\\slash\n");
}

static void test_flow(void **state)
{
    char text[512];
    (void)state;
    assert_string_equal(shown(false, paragraphs, text, sizeof text),
                        "One two. Three-four.\n\n  sugarlea today --json\n  .b\n\n.five 'six' back\\slash\n");
    assert_string_equal(shown(true, paragraphs, text, sizeof text),
                        ".PP\nOne two.\nThree\\-four.\n"
                        ".PP\n.RS 4\n.nf\nsugarlea today \\-\\-json\n\\&.b\n.fi\n.RE\n"
                        ".PP\n\\&.five \\(aqsix\\(aq back\\eslash\n");
}

static void headed(const struct doc *d)
{
    doc_macro(d, ".SH", "SO \"SAID\"");
    doc_flow(d, "Text.");
    doc_title(d, "Rows:");
}

static void test_no_paragraph_under_a_heading(void **state)
{
    char text[512];
    (void)state;
    assert_string_equal(shown(true, headed, text, sizeof text), ".SH \"SO \\(dqSAID\\(dq\"\nText.\n.PP\nRows:\n");
}

static void terms(const struct doc *d)
{
    doc_term(d, 12, "-v, --long X", "what it is");
    doc_term(d, 12, "    --longer than that", "so: below");
    doc_term(d, 12, "name", "");
}

static void test_terms(void **state)
{
    char text[512];
    (void)state;
    assert_string_equal(shown(false, terms, text, sizeof text), "  -v, --long X  what it is\n"
                                                                "      --longer than that\n"
                                                                "                so: below\n"
                                                                "  name          \n");
    assert_string_equal(shown(true, terms, text, sizeof text),
                        ".TP\n\\fB\\-v, \\-\\-long \\fR\\fIX\\fR\nwhat it is\n"
                        ".TP\n\\fB\\-\\-longer \\fR\\fIthan that\\fR\nso: below\n"
                        ".TP\n\\fBname\\fR\n\n");
}

static void long_text(const struct doc *d)
{
    char text[2000] = "";
    while (strlen(text) < sizeof text - 20) {
        strcat(text, "well-known words ");
    }
    doc_flow(d, text);
    doc_term(d, 20, "--option", text);
}

static void test_no_line_is_long(void **state)
{
    char text[8192];
    (void)state;
    for (int manual = 0; manual < 2; manual++) {
        shown(manual, long_text, text, sizeof text);
        size_t lines = 0;
        for (const char *line = text; *line; line += strcspn(line, "\n") + 1, lines++) {
            assert_true(strcspn(line, "\n") <= DOC_WIDTH);
        }
        assert_true(lines > 2 * 1900 / DOC_WIDTH);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_flow),
        cmocka_unit_test(test_no_paragraph_under_a_heading),
        cmocka_unit_test(test_terms),
        cmocka_unit_test(test_no_line_is_long),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
