/* The diary file: what is read, what is refused, and that what is written is read back.
 * Expected values are those written in the rows; conversions by definition (an inch is
 * 2.54 cm, a pound 0.45359237 kg). SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "data/diary.h"

static struct arena arena;
static struct params params;
static struct holding holding;

static const char holding_text[] =
    "{\"sugarlea\":1,\"name\":\"Invented\",\"site\":{\"latitude\":52,\"longitude\":0,\"timezone\":\"Europe/London\"},"
    "\"weather\":[{\"file\":\"w.csv\"}],"
    "\"paddocks\":[{\"id\":\"brook\",\"area_ha\":1},{\"id\":\"old-bank\",\"area_ha\":1}],"
    "\"animals\":[{\"id\":\"grey-pony\",\"class\":\"pony\",\"paddock\":\"brook\"},"
    "{\"id\":\"does\",\"class\":\"goat-dry\",\"count\":4,\"paddock\":\"old-bank\"}],"
    "\"hay\":{\"stock\":[{\"feed\":\"grass-hay-mature\",\"bales\":10,\"bale_kg\":18}]}}";

static int load(void **state)
{
    (void)state;
    struct err e = {0};
    arena_init(&arena);
    return params_load("models", &arena, &params, &e) ||
           holding_parse(holding_text, strlen(holding_text), "holding.json", &params, &arena, &holding, &e);
}

static int unload(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

#define HEAD "date,time,subject,what,value,unit,note\n"

static struct diary good(const char *text)
{
    struct diary d;
    struct err e = {0};
    enum err_code code = diary_parse(text, strlen(text), "diary.csv", &holding, &arena, &d, &e);
    if (code != ERR_OK) {
        print_error("%s:%zu %s: %s\n", e.file, e.line, e.field, e.what);
    }
    assert_int_equal(code, ERR_OK);
    return d;
}

static void bad(const char *text, size_t line, const char *field, const char *what)
{
    struct diary d;
    struct err e = {0};
    assert_int_equal(diary_parse(text, strlen(text), "diary.csv", &holding, &arena, &d, &e), ERR_DATA);
    if (!strstr(e.what, what) || strcmp(e.field, field) != 0 || e.line != line) {
        print_error("%s:%zu %s: %s\n", e.file, e.line, e.field, e.what);
    }
    assert_string_equal(e.file, "diary.csv");
    assert_int_equal(e.line, line);
    assert_string_equal(e.field, field);
    assert_non_null(strstr(e.what, what));
}

#define SAME(a, b) assert_near(a, b, 1e-4)

static void test_entries_are_read_in_order_of_time(void **state)
{
    (void)state;
    struct diary d = good(HEAD "2025-04-24,07:10,grey-pony,foot-signs,shifting-weight+hot-feet,,both fore feet\n"
                               "2025-04-23,06:40,brook,grass-nsc,18.2,%,\"lab Invented, cut at 6 cm\"\n"
                               "2025-04-23,,brook,sward-height,4,in,\n"
                               "2025-04-24,06:59:30,does,weight,62,kg,\n"
                               "2025-04-24,12:00,grass-hay-mature,hay-test,95,g/kg,\n"
                               "2025-04-25,,old-bank,rested,,,\n"
                               "2025-04-26,8:05,does,condition,3.5,/5,\n");
    assert_int_equal(d.n, 7);
    assert_int_equal(d.strangers, 0);
    const struct diary_entry *x = d.entry;
    assert_int_equal(x[0].what, DIARY_SWARD_HEIGHT);
    assert_int_equal(x[0].minute, -1);
    SAME(x[0].value, 10.16);
    assert_int_equal(x[1].what, DIARY_GRASS_NSC);
    assert_int_equal(x[1].minute, 400);
    SAME(x[1].value, 182);
    assert_string_equal(x[1].note, "lab Invented, cut at 6 cm");
    assert_int_equal(x[1].line, 3);
    assert_int_equal(x[2].subject, 1);
    SAME(x[2].value, 62);
    assert_int_equal(x[3].words, SIGN_SHIFTING_WEIGHT | SIGN_HOT_FEET);
    SAME(x[4].value, 9.5);
    assert_true(isnan(x[5].value));
    assert_int_equal(x[6].unit, 1);
}

static void test_spreadsheets_may_save_it_again(void **state)
{
    (void)state;
    struct diary d = good("\xef\xbb\xbf\"date\";\"time\";\"subject\";\"what\";\"value\";\"unit\";\"note\"\r\n"
                          "2025-04-23;06:40:00;brook;grass-nsc;18,2;%;\"first line\nsecond; \"\"quoted\"\"\"\r\n"
                          ";;;;;;\r\n"
                          "2025-04-24;;does;weight;62,5;kg;'=1+1\r\n\r\n");
    assert_int_equal(d.n, 2);
    SAME(d.entry[0].value, 182);
    assert_string_equal(d.entry[0].note, "first line\nsecond; \"quoted\"");
    SAME(d.entry[1].value, 62.5);
    assert_string_equal(d.entry[1].note, "=1+1");
    assert_int_equal(d.entry[1].line, 5);
    assert_int_equal(good("").n, 0);
    assert_int_equal(good(HEAD).n, 0);
    assert_int_equal(good("date,time,subject,what,value,unit,note").n, 0);
    assert_int_equal(good("date\ttime\tsubject\twhat\tvalue\tunit\tnote\r2025-04-24\t\tdoes\tturnout\t0\t\t\r").n, 1);
}

static void test_signs_without_a_time_are_the_last_word_of_their_day(void **state)
{
    (void)state;
    struct diary d = good(HEAD "2025-04-24,,does,foot-signs,kneeling,,\n2025-04-24,18:00,does,foot-signs,none,,\n"
                               "2025-04-24,,does,weight,62,kg,a\x1b[31mb\n2025-04-25,,does,foot-signs,none,,\n");
    assert_int_equal(d.entry[0].what, DIARY_WEIGHT);
    assert_string_equal(d.entry[0].note, "a\x1b[31mb"); /* as it stands; cleaned where it is shown (buf_add_clean) */
    assert_int_equal(d.entry[1].words, SIGN_NONE);
    assert_int_equal(d.entry[2].words, SIGN_KNEELING);
    assert_int_equal(d.entry[3].words, SIGN_NONE);
}

static void test_who_left_the_holding_is_named_and_passed_over(void **state)
{
    (void)state;
    struct diary d = good(HEAD "2025-04-24,,old-mare,weight,500,kg,\n2025-04-25,,does,weight,62,kg,\n"
                               "2025-04-26,,old-mare,foot-signs,hot-feet,,\n");
    assert_int_equal(d.n, 1);
    assert_int_equal(d.strangers, 1);
    assert_string_equal(d.stranger[0].name, "old-mare");
    assert_int_equal(d.stranger[0].line, 2);
    assert_int_equal(d.stranger[0].entries, 2);
}

static void test_every_bad_line_says_what_is_allowed(void **state)
{
    (void)state;
    static const struct {
        const char *row, *field, *what;
    } cases[] = {
        {"24/04/2025,,does,weight,62,kg,", "date", "2025-05-04"},
        {"2025-02-30,,does,weight,62,kg,", "date", "2025-05-04"},
        {"2025-04-24,25:00,does,weight,62,kg,", "time", "07:10"},
        {"2025-04-24,7,does,weight,62,kg,", "time", "07:10"},
        {"2025-04-24,,does,weights,62,kg,", "what", "did you mean \"weight\""},
        {"2025-04-24,,does,colour,62,kg,", "what", "it knows grass-nsc"},
        {"2025-04-24,,does,,62,kg,", "what", "it knows grass-nsc"},
        {"2025-04-24,,,weight,62,kg,", "subject", "grey-pony, does"},
        {"2025-04-24,,does,weight,,kg,", "value", "is missing"},
        {"2025-04-24,,does,weight,heavy,kg,", "value", "is not a number"},
        {"2025-04-24,,does,weight,1e1,kg,", "value", "is not a number"},
        {"2025-04-24,,does,weight,-62,kg,", "value", "out of range"},
        {"2025-04-24,,does,weight,6200,kg,", "value", "from 1 to 2000 kg"},
        {"2025-04-24,,does,weight,62,stone,", "unit", "kg, lb"},
        {"2025-04-24,,does,condition,3,,", "unit", "must be said"},
        {"2025-04-24,,brook,grass-nsc,0.18,g/kg,", "value", "another unit"},
        {"2025-04-24,,brook,rested,3,,", "value", "has no value"},
        {"2025-04-24,,does,foot-signs,hot-foot,,", "value", "did you mean \"hot-feet\""},
        {"2025-04-24,,does,foot-signs,limp,,", "value", "shifting-weight"},
        {"2025-04-24,,does,foot-signs,,,", "value", "shifting-weight"},
        {"2025-04-24,,does,foot-signs,none+hot-feet,,", "value", "at once"},
        {"2025-04-24,,does,weight", "", "cut short"},
        {"2025-04-24,,does,weight,62,kg,well, and fat", "", "more than seven"},
        {"2025-04-24,,does,weight,62,kg,\"well", "", "never closed"},
        {"2025-04-24,,does,weight,62,kg,\"lab, cut at\"6 cm\"", "", "behind a closing quote"},
        {"2025-04-24,,\"does\"2,weight,62,kg,", "", "is written twice"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[512];
        snprintf(text, sizeof text, "%s2025-04-23,,does,weight,61,kg,\n%s\n", HEAD, cases[i].row);
        bad(text, 3, cases[i].field, cases[i].what);
    }
    bad("date,what\n", 1, "", "cut short");
    bad("day,time,subject,what,value,unit,note\n", 1, "date", "the first row must be");
}

static void test_what_is_written_is_read_back(void **state)
{
    (void)state;
    static const char *const note[] = {
        "",         "plain", "two, fields; or\tthree", "\"quoted\"", "=cmd|' /C calc'!A0", "+1", "-1", "@x", "'",
        "\xc3\xa4", "'=x"};
    static const char delimiters[] = ",;\t";
    for (size_t w = 0; w < DIARY_WHATS; w++) {
        for (size_t i = 0; i < sizeof note / sizeof note[0]; i++) {
            for (const char *delimiter = delimiters; *delimiter; delimiter++) {
                const struct diary_kind *k = &diary_kinds[w];
                struct diary_entry entry = {
                    .date = date_make(2025, 4, 24),
                    .minute = w % 2 ? 430 : -1,
                    .what = (enum diary_what)w,
                    .unit = k->unit[0].name ? 0 : -1,
                    .value = k->unit[0].name ? (k->unit[0].low + k->unit[0].high) / 2 * k->unit[0].scale : (double)NAN,
                    .words = k->word[0] ? 2 : 0,
                    .note = note[i]};
                struct buf b;
                buf_init(&b);
                for (const char *c = diary_header; *c; c++) {
                    buf_add_char(&b, *c == ',' ? *delimiter : *c);
                }
                diary_write_entry(&entry, &holding, *delimiter, &b);
                struct diary d = good(b.text);
                assert_int_equal(d.n, 1);
                assert_int_equal(d.entry->what, entry.what);
                assert_int_equal(d.entry->minute, entry.minute);
                assert_int_equal(d.entry->words, entry.words);
                assert_true(isnan(entry.value) ? isnan(d.entry->value) : fabs(d.entry->value - entry.value) < 1e-6);
                /* a tab is a control character and becomes a blank; '= loses the apostrophe that disarms */
                const char *back = i == 2 ? "two, fields; or three" : i == 10 ? "=x" : note[i];
                assert_string_equal(d.entry->note, back);
                buf_release(&b);
            }
        }
    }
}

static void test_a_note_stays_on_its_line_and_short(void **state)
{
    (void)state;
    char note[2000];
    struct buf b;
    memset(note, 'x', sizeof note);
    memcpy(note, "a\nb\r\n\x01\xff", 7);
    note[sizeof note - 1] = 0;
    struct diary_entry entry = {.date = 20000, .minute = -1, .what = DIARY_RESTED, .unit = -1, .note = note};
    buf_init(&b);
    diary_write_entry(&entry, &holding, ',', &b);
    assert_true(b.length < DIARY_NOTE + 64);
    assert_ptr_equal(strchr(b.text, '\n'), b.text + b.length - 1);
    assert_non_null(strstr(b.text, "a b   ?x"));
    buf_release(&b);
}

static void test_a_missing_file_is_an_empty_diary(void **state)
{
    (void)state;
    struct diary d;
    struct err e = {0};
    assert_int_equal(diary_load("tests/data/no-such-diary.csv", &holding, &arena, &d, &e), ERR_OK);
    assert_int_equal(d.n, 0);
    assert_int_equal(diary_load("tests", &holding, &arena, &d, &e), ERR_NOINPUT);
}

static void test_a_row_without_end_is_refused(void **state)
{
    (void)state;
    size_t size = 200000;
    char *text = arena_alloc(&arena, size + 1, 1);
    memset(text, 'x', size);
    memcpy(text, HEAD, strlen(HEAD));
    struct diary d;
    struct err e = {0};
    assert_int_equal(diary_parse(text, size, "diary.csv", &holding, &arena, &d, &e), ERR_DATA);
    assert_int_equal(diary_parse("da\0te", 5, "diary.csv", &holding, &arena, &d, &e), ERR_DATA);
}

/* An odd quote within a field is a letter; what is quoted behind it ends where a row must. */
static void test_no_text_outgrows_the_room_of_a_row(void **state)
{
    (void)state;
    static const char begin[] = HEAD "2025-04-23,06:40,a\"b,\"";
    static const size_t lines[] = {600, 700, 100000};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        struct diary d;
        struct err e = {0};
        struct buf b;
        buf_init(&b);
        buf_add(&b, begin);
        for (size_t k = 0; k < lines[i]; k++) {
            buf_addf(&b, "%99d\n", 1);
        }
        buf_add(&b, "\",1,2,3\n");
        assert_int_equal(diary_parse(b.text, b.length, "diary.csv", &holding, &arena, &d, &e), ERR_DATA);
        assert_int_equal(e.line, 2);
        assert_non_null(strstr(e.what, lines[i] < 650 ? "nothing that the diary knows" : "longer than 64 KiB"));
        buf_release(&b);
    }
}

/* Whatever bytes stand there: an answer or one error with its line, and no more. */
static void test_damaged_bytes_do_no_harm(void **state)
{
    (void)state;
    static const char sound[] = HEAD "2025-04-24,07:10,grey-pony,foot-signs,hot-feet,,\"both; fore\"\n"
                                     "2025-04-23,06:40,brook,grass-nsc,18.2,%,\r\n2025-04-23,,brook,cut,5,cm,x\n";
    static const char byte[] = ",;\"'\t\r\n=+-0129:./ %\x00\xff\xc3";
    uint32_t seed = 1;
    size_t refused = 0;
    for (int round = 0; round < 20000; round++) {
        char text[sizeof sound];
        struct arena scratch;
        struct diary d;
        struct err e = {0};
        memcpy(text, sound, sizeof sound);
        for (int k = 0; k < 1 + round % 4; k++) {
            seed = seed * 1664525u + 1013904223u;
            text[(seed >> 8) % (sizeof sound - 1)] = byte[(seed >> 24) % (sizeof byte - 1)];
        }
        seed = seed * 1664525u + 1013904223u;
        size_t n = round % 3 ? sizeof sound - 1 : (seed >> 8) % sizeof sound;
        arena_init(&scratch);
        enum err_code code = diary_parse(text, n, "diary.csv", &holding, &scratch, &d, &e);
        assert_true(code == ERR_OK || (code == ERR_DATA && e.line > 0 && e.what[0]));
        for (size_t i = 0; code == ERR_OK && i + 1 < d.n; i++) {
            assert_true(d.entry[i].date <= d.entry[i + 1].date);
        }
        refused += code != ERR_OK;
        arena_release(&scratch);
    }
    assert_true(refused > 1000 && refused < 19500);
}

static void test_the_table_is_whole(void **state)
{
    (void)state;
    for (size_t w = 0; w < DIARY_WHATS; w++) {
        const struct diary_kind *k = &diary_kinds[w];
        assert_non_null(k->name);
        assert_non_null(k->what);
        assert_true((k->word[0] != NULL) + (k->unit[0].name != NULL) < 2);
        assert_true(k->word[0] || k->unit[0].name || k->bare);
        for (size_t u = 0; u < DIARY_UNITS && k->unit[u].name; u++) {
            assert_true(k->unit[u].scale > 0 && k->unit[u].low < k->unit[u].high);
        }
        assert_ptr_equal(diary_kind_of(k->name, NULL), k);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_entries_are_read_in_order_of_time),
        cmocka_unit_test(test_spreadsheets_may_save_it_again),
        cmocka_unit_test(test_signs_without_a_time_are_the_last_word_of_their_day),
        cmocka_unit_test(test_who_left_the_holding_is_named_and_passed_over),
        cmocka_unit_test(test_every_bad_line_says_what_is_allowed),
        cmocka_unit_test(test_what_is_written_is_read_back),
        cmocka_unit_test(test_a_note_stays_on_its_line_and_short),
        cmocka_unit_test(test_a_missing_file_is_an_empty_diary),
        cmocka_unit_test(test_a_row_without_end_is_refused),
        cmocka_unit_test(test_no_text_outgrows_the_room_of_a_row),
        cmocka_unit_test(test_damaged_bytes_do_no_harm),
        cmocka_unit_test(test_the_table_is_whole),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
