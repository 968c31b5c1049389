/* Checks that the tests of all weather layouts share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

void layout_good(struct weather_text *t, const char *text, const char *layout)
{
    weather_text_read(t, text);
    if (t->code != ERR_OK) {
        fail_msg("%s:%zu:%zu: %s: %s", t->err.file, t->err.line, t->err.column, t->err.field, t->err.what);
    }
    assert_string_equal(t->set.layout, layout);
    assert_int_equal(t->set.n, 1);
}

void layout_value(const struct weather_text *t, const char *date, enum weather_var v, double expected)
{
    double x = weather_text_at(t, date, v);
    if (isnan(expected) ? !isnan(x) : !(fabs(x - expected) < 1e-9)) {
        fail_msg("%s of %s is %.9g, not %.9g", weather_var_name(v), date, x, expected);
    }
}

void layout_span(const struct weather_text *t, const char *first, const char *last)
{
    char text[DATE_TEXT];
    const struct weather_days *w = &t->set.site[0].days;
    assert_string_equal(date_format(w->day0, text), first);
    assert_string_equal(date_format(w->day0 + (date_t)w->n - 1, text), last);
}

void layout_faults(const struct layout_fault *fault, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        struct weather_text t;
        weather_text_read(&t, fault[i].text);
        if (t.code != ERR_DATA || t.err.line != fault[i].line || !strstr(t.err.what, fault[i].said) || t.set.n) {
            fail_msg("%s\ngave %d, line %zu: %s", fault[i].text, t.code, t.err.line, t.err.what);
        }
        weather_text_release(&t);
    }
}

void json_faults(const struct json_fault *fault, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const struct json_fault *r = &fault[i];
        struct weather_text t;
        weather_text_read(&t, r->text);
        if (t.code != ERR_DATA || !strstr(t.err.what, r->said) || strcmp(t.err.field, r->field) != 0 ||
            t.err.line != 1 || t.err.column == 0) {
            fail_msg("%s\ngave %d, %zu:%zu: %s: %s", r->text, t.code, t.err.line, t.err.column, t.err.field,
                     t.err.what);
        }
        assert_null(t.set.site);
        weather_text_release(&t);
    }
}

void layout_day_is(const char *text, const char *date, enum weather_var v, double x)
{
    struct weather_text t;
    weather_text_read(&t, text);
    if (t.code != ERR_OK) {
        fail_msg("%s: line %zu: %s", text, t.err.line, t.err.what);
    }
    double found = weather_text_at(&t, date, v);
    if (isnan(x) ? !isnan(found) : !(fabs(found - x) < 1e-9)) {
        fail_msg("%s: %g on %s", text, found, date);
    }
    weather_text_release(&t);
}

void layout_refused(const char *text, size_t line, const char *field, const char *said)
{
    struct weather_text t;
    weather_text_read(&t, text);
    if (t.code != ERR_DATA || t.err.line != line || strcmp(t.err.field, field) != 0 || !strstr(t.err.what, said)) {
        fail_msg("%s: %d, line %zu: %s: %s", text, t.code, t.err.line, t.err.field, t.err.what);
    }
    weather_text_release(&t);
}
