/* The diary on a run: paddocks are kept as it says; whatever stands in it, no animal gets
 * longer on grass than the sugar allows, and none with foot signs gets any. Weather and
 * entries are made up here from a seed. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "season/events.h"
#include "season/run.h"

enum { DAYS = 420, FROM = 300, DIARIES = 24, ENTRIES_MOST = 120 };

static struct arena arena;
static struct params params;
static struct holding holding;
static struct run_day weather[DAYS];
static date_t first;

static const char holding_text[] =
    "{\"sugarlea\":1,\"name\":\"t\",\"site\":{\"latitude\":52},\"paddocks\":["
    "{\"id\":\"p\",\"area_ha\":1,\"grass\":\"ryegrass\",\"kept\":{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}},"
    "{\"id\":\"q\",\"area_ha\":1,\"grass\":\"bent\",\"kept\":{\"how\":\"cut\",\"dates\":[\"06-10\"],\"to_cm\":5}}],"
    "\"animals\":[{\"id\":\"a\",\"class\":\"pony\",\"paddock\":\"p\"},"
    "{\"id\":\"b\",\"class\":\"equid-laminitis-history\",\"paddock\":\"p\"},"
    "{\"id\":\"c\",\"class\":\"goat-dry\",\"paddock\":\"q\"},{\"id\":\"d\",\"class\":\"horse\",\"paddock\":\"q\"}],"
    "\"hay\":{\"stock\":[{\"feed\":\"grass-hay-mature\",\"bales\":9,\"bale_kg\":18,\"nsc_percent\":9.5,\"nsc_is\":"
    "\"wsc+starch\"}]}}";

static uint32_t seed;
static unsigned draw(unsigned n)
{
    seed = seed * 1664525u + 1013904223u;
    return (seed >> 8) % n;
}

static int load(void **state)
{
    struct err e = {0};
    (void)state;
    arena_init(&arena);
    first = date_make(2022, 4, 1);
    seed = 7;
    for (int i = 0; i < DAYS; i++) {
        double season = sin((double)(i - 20) / 365.0 * 6.2831853), tmin = 4 + 7 * season + (draw(80) - 40.0) / 10.0;
        double tmax = tmin + 4 + draw(90) / 10.0;
        struct sward_weather w = {.date = first + i,
                                  .tmin = tmin,
                                  .tmax = tmax,
                                  .rad = 10 + 8 * season + draw(60) / 10.0,
                                  .rain = draw(2) * 4.0,
                                  .et0 = 1.5 + season,
                                  .tmax_before = tmax,
                                  .tmin_after = tmin};
        weather[i] = (struct run_day){.recorded = w, .morning = w};
    }
    return params_load("models", &arena, &params, &e) ||
           holding_parse(holding_text, strlen(holding_text), "t.json", &params, &arena, &holding, &e);
}

static int release(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

static void begin(struct run *r, const struct diary_entry *entry, size_t n, bool follow)
{
    assert_true(run_init(r, &params, &holding, &arena));
    r->event = entry;
    r->events = n;
    r->follow_animals = follow;
}

static int by_time(const void *x, const void *y)
{
    const struct diary_entry *a = x, *b = y;
    return a->date != b->date ? (a->date < b->date ? -1 : 1) : a->minute < b->minute ? -1 : a->minute > b->minute;
}

/* Any entry the table allows, but that signs are not too common to be ever over. */
static size_t make_diary(struct diary_entry *entry)
{
    size_t n = draw(ENTRIES_MOST);
    for (size_t i = 0; i < n; i++) {
        enum diary_what what = draw(3) ? (enum diary_what)draw(DIARY_WHATS) : DIARY_TURNOUT;
        const struct diary_kind *k = &diary_kinds[what];
        int unit = k->unit[0].name ? (int)(k->unit[1].name ? draw(2) : 0) : -1;
        double low = unit < 0 ? 0 : k->unit[unit].low, high = unit < 0 ? 0 : k->unit[unit].high;
        entry[i] = (struct diary_entry){.date = first + FROM - 20 + (date_t)draw(DAYS - FROM + 20),
                                        .minute = (int)draw(1441) - 1,
                                        .what = what,
                                        .subject = draw(k->subject == DIARY_OF_GROUP ? 4
                                                        : k->subject                 ? 1
                                                                                     : 2),
                                        .unit = unit,
                                        .value = unit < 0 || (k->bare && draw(2))
                                                     ? (double)NAN
                                                     : (low + (high - low) * draw(101) / 100.0) * k->unit[unit].scale,
                                        .note = ""};
        entry[i].words = what == DIARY_VET          ? 1u << draw(3)
                         : what == DIARY_FOOT_SIGNS ? draw(2) ? SIGN_NONE : 2u << draw(9)
                                                    : 0;
    }
    qsort(entry, n, sizeof *entry, by_time);
    return n;
}

/* The rule once more, in the plainest way: the last word known that morning; and signs that
 * stood on its day and are gone without the vet's word count for the day. */
static bool sore(const struct diary_entry *entry, size_t n, size_t animal, date_t date)
{
    bool signs = false, stood = false;
    for (size_t i = 0; i < n; i++) {
        bool known = entry[i].date < date || (entry[i].date == date && entry[i].minute <= 720);
        if (!known || entry[i].subject != animal) {
            continue;
        }
        stood = stood || (entry[i].date == date && signs);
        if (entry[i].what == DIARY_FOOT_SIGNS) {
            signs = entry[i].words != SIGN_NONE;
        }
        if (entry[i].what == DIARY_VET && (entry[i].words & VET_CLEARED)) {
            signs = stood = false;
        }
        stood = stood || (entry[i].date == date && signs);
    }
    return signs || stood;
}

static void no_diary_buys_time_on_grass(void **state)
{
    struct diary_entry entry[ENTRIES_MOST] = {{0}};
    size_t kept_off = 0, held = 0, equal = 0;
    (void)state;
    seed = 2025;
    for (int diary = 0; diary < DIARIES; diary++) {
        size_t n = make_diary(entry);
        struct run with, without;
        begin(&with, entry, n, true);
        begin(&without, entry, n, false);
        for (int i = 0; i < DAYS; i++) {
            run_morning(&with, &weather[i]);
            run_morning(&without, &weather[i]);
            for (size_t k = 0; k < with.animals; k++) {
                const struct run_animal *x = &with.animal[k];
                const struct advice *a = &x->advice, *b = &without.animal[k].advice;
                assert_true(a->hours <= b->hours + 1e-9 && a->turnout >= b->turnout);
                assert_true(a->hours == 0.0 || a->ration.nsc_pct <= a->stop_pct + 1e-6);
                assert_true(a->hours == 0.0 || a->ration.nsc_pct <= b->stop_pct + 1e-6);
                assert_int_equal(x->seen.words != 0, sore(entry, n, k, first + i));
                assert_true(x->input.back.day == 0 || a->hours <= x->input.back.most_h + 1e-9);
                assert_true(x->input.back.day == 0 || a->hours_bare <= x->input.back.most_h + 1e-9);
                if (x->seen.words) {
                    assert_true(a->turnout == TURNOUT_NONE && a->hours == 0.0 && advice_has(a, REASON_FOOT_SIGNS));
                }
                kept_off += x->seen.words != 0;
                held += !x->seen.words && a->hours < b->hours;
                equal += a->hours == b->hours;
            }
            run_evening(&with, &weather[i]);
            run_evening(&without, &weather[i]);
        }
    }
    /* the test saw each case often, else it proves nothing */
    assert_true(kept_off > 500 && held > 500 && equal > 500);
}

static struct diary_entry at(int day, enum diary_what what, size_t subject, double value, unsigned words)
{
    return (struct diary_entry){.date = first + day,
                                .minute = 420,
                                .what = what,
                                .subject = subject,
                                .unit = 0,
                                .value = value,
                                .words = words,
                                .note = ""};
}

/* What stands on paddock 0 after each day. */
static void stand(const struct diary_entry *entry, size_t n, int days, double *kg_ha)
{
    struct run r;
    begin(&r, entry, n, true);
    for (int i = 0; i < days; i++) {
        run_morning(&r, &weather[i]);
        run_evening(&r, &weather[i]);
        kg_ha[i] = sward_total_kg_ha(&r.paddock[0].sward);
    }
}

static void paddocks_are_kept_as_the_diary_says(void **state)
{
    double plain[150], cut[150], rested[150], grazed[150];
    (void)state;
    stand(NULL, 0, 150, plain);
    struct diary_entry e = at(60, DIARY_CUT, 0, 5.0, 0);
    stand(&e, 1, 150, cut);
    assert_true(cut[59] == plain[59] && cut[60] < 0.7 * plain[60]);
    assert_true(cut[149] > 1.5 * cut[60]); /* it grows again, and is grazed as before */
    e = at(60, DIARY_RESTED, 0, (double)NAN, 0);
    stand(&e, 1, 150, rested);
    assert_true(rested[59] == plain[59] && rested[60] > plain[60] && rested[149] > 1.5 * plain[149]);
    struct diary_entry two[] = {at(60, DIARY_RESTED, 0, (double)NAN, 0), at(90, DIARY_GRAZED, 0, 6.0, 0)};
    stand(two, 2, 150, grazed);
    assert_true(grazed[89] == rested[89] && grazed[90] < rested[90]);
    /* 6 cm by ruler at 180 kg a cm (Jouven et al. 2006, summed); animals take 30 % of what is above it a
     * day, so with at most 120 kg of growth 0.7/0.3 of that stands above */
    assert_true(grazed[149] > 1080 && grazed[149] < 1080 + 0.7 / 0.3 * 120);
    /* of another paddock: nothing changes here */
    e = at(60, DIARY_CUT, 1, 5.0, 0);
    stand(&e, 1, 150, cut);
    assert_true(cut[149] == plain[149]);
}

static void what_was_written_after_the_morning_waits(void **state)
{
    struct diary_entry e = at(40, DIARY_FOOT_SIGNS, 3, (double)NAN, SIGN_HOT_FEET);
    struct run r;
    (void)state;
    e.minute = 780; /* one in the afternoon */
    begin(&r, &e, 1, true);
    for (int i = 0; i <= 41; i++) {
        run_morning(&r, &weather[i]);
        assert_int_equal(r.animal[3].seen.words != 0, i == 41);
        run_evening(&r, &weather[i]);
    }
    assert_int_equal(r.animal[3].signs.since, first + 40);
    r.live = first + 40; /* on the very day, it counts at once */
    begin(&r, &e, 1, true);
    r.live = first + 40;
    for (int i = 0; i <= 40; i++) {
        run_morning(&r, &weather[i]);
        assert_int_equal(r.animal[3].input.foot_signs, i == 40);
        run_evening(&r, &weather[i]);
    }
}

static void the_way_back_begins_when_signs_are_gone(void **state)
{
    struct diary_entry e[] = {at(40, DIARY_FOOT_SIGNS, 3, (double)NAN, SIGN_HOT_FEET),
                              at(42, DIARY_FOOT_SIGNS, 3, (double)NAN, SIGN_LYING_MORE),
                              at(44, DIARY_FOOT_SIGNS, 3, (double)NAN, SIGN_NONE)};
    struct run r;
    (void)state;
    begin(&r, e, 3, true);
    for (int i = 0; i <= 50; i++) {
        run_morning(&r, &weather[i]);
        const struct run_animal *a = &r.animal[3];
        assert_true(i < 40 || i > 44 || a->seen.since == first + 40); /* off grass still on the day they went */
        assert_true(i < 42 || i > 44 || a->seen.words == (SIGN_HOT_FEET | SIGN_LYING_MORE));
        assert_true(i != 45 || (a->input.back.day == 1 && a->advice.hours <= 0.25));
        assert_true(i != 50 || a->input.back.day == 1 + 5);
        run_evening(&r, &weather[i]);
    }
    /* gone within the morning: off grass that day, and the way begins on the next */
    struct diary_entry brief[] = {at(40, DIARY_FOOT_SIGNS, 3, (double)NAN, SIGN_HOT_FEET),
                                  at(40, DIARY_FOOT_SIGNS, 3, (double)NAN, SIGN_NONE)};
    begin(&r, brief, 2, true);
    for (int i = 0; i <= 41; i++) {
        run_morning(&r, &weather[i]);
        assert_true(r.animal[3].input.foot_signs == (i == 40));
        run_evening(&r, &weather[i]);
    }
    assert_true(r.animal[3].input.back.day == 1 && r.animal[3].advice.hours <= 0.25);
    /* but the vet's word counts at once */
    brief[1] = at(40, DIARY_VET, 3, (double)NAN, VET_CLEARED);
    begin(&r, brief, 2, true);
    for (int i = 0; i <= 40; i++) {
        run_morning(&r, &weather[i]);
        run_evening(&r, &weather[i]);
    }
    assert_true(!r.animal[3].input.foot_signs && r.animal[3].advice.hours <= 0.25);
    run_morning(&r, &weather[41]); /* a day with signs is none of the way back */
    assert_int_equal(r.animal[3].input.back.day, 1);
}

static void days_kept_in_lead_to_the_way_back(void **state)
{
    struct diary_entry e[8];
    struct run r;
    (void)state;
    for (int i = 0; i < 8; i++) {
        e[i] = at(40 + i, DIARY_TURNOUT, 3, i < 7 ? 0.0 : 0.25, 0);
    }
    begin(&r, e, 8, true);
    for (int i = 0; i <= 48; i++) {
        run_morning(&r, &weather[i]);
        assert_int_equal(r.animal[3].input.back.day, i < 47 ? 0 : i - 46);
        run_evening(&r, &weather[i]);
    }
    assert_int_equal(r.animal[3].n_recent, RUN_RECENT);
    assert_true(r.animal[3].recent[1].written && r.animal[3].recent[1].hours == 0.25);
    assert_true(!r.animal[3].recent[0].written);
}

/* A turnout written days after it is none of today's; one of the day counts in place of the advice. */
static void hours_are_those_of_their_day(void **state)
{
    struct diary_entry late = at(38, DIARY_TURNOUT, 3, 1.5, 0), of_day = at(40, DIARY_TURNOUT, 3, 2.5, 0);
    struct diary_entry e[] = {late, of_day};
    struct run r;
    (void)state;
    begin(&r, e, 2, true);
    r.next = 0;
    for (int i = 39; i <= 41; i++) { /* the run begins after the first entry's day */
        run_morning(&r, &weather[i]);
        run_evening(&r, &weather[i]);
        const struct run_hours *h = &r.animal[3].recent[0];
        assert_int_equal(h->date, first + i);
        assert_true(h->written == (i == 40));
        assert_true(h->hours == (i == 40 ? 2.5 : r.animal[3].advice.hours));
    }
    assert_int_equal(r.animal[3].n_recent, 3);
}

/* Signs seen in the afternoon: the hours of that morning are told, and the next day none. */
static void what_was_advised_before_the_signs_is_told(void **state)
{
    struct diary_entry e[] = {at(40, DIARY_FOOT_SIGNS, 3, (double)NAN, SIGN_HOT_FEET)};
    struct run r;
    (void)state;
    e[0].minute = 17 * 60;
    begin(&r, e, 1, true);
    for (int i = 0; i <= 41; i++) {
        run_morning(&r, &weather[i]);
        double advised = r.animal[3].advice.hours;
        bool muzzle = r.animal[3].advice.muzzle;
        run_evening(&r, &weather[i]);
        const struct run_hours *h = &r.animal[3].recent[0];
        assert_int_equal(h->date, first + i);
        assert_true(h->hours == advised && h->muzzle == muzzle && !h->written);
        assert_true(i != 40 || h->hours > 0.0);
        assert_true(i != 41 || h->hours == 0.0);
    }
}

/* Looked at on the 40th day: what was seen before stands unless it went before, and what is written that
 * afternoon or later is not known. */
static void a_look_knows_what_the_morning_knew(void **state)
{
    struct diary_entry e[] = {at(20, DIARY_FOOT_SIGNS, 1, (double)NAN, SIGN_KNEELING),
                              at(30, DIARY_FOOT_SIGNS, 1, (double)NAN, SIGN_NONE),
                              at(38, DIARY_FOOT_SIGNS, 3, (double)NAN, SIGN_HOT_FEET),
                              at(39, DIARY_FOOT_SIGNS, 0, (double)NAN, SIGN_RELUCTANT),
                              at(40, DIARY_FOOT_SIGNS, 2, (double)NAN, SIGN_LYING_MORE),
                              at(40, DIARY_VET, 3, (double)NAN, VET_CLEARED),
                              at(41, DIARY_FOOT_SIGNS, 0, (double)NAN, SIGN_NONE),
                              at(41, DIARY_FOOT_SIGNS, 1, (double)NAN, SIGN_KNEELING)};
    static const unsigned seen[] = {SIGN_RELUCTANT, 0, SIGN_LYING_MORE, SIGN_HOT_FEET};
    struct run r;
    (void)state;
    e[5].minute = 780; /* one in the afternoon */
    begin(&r, e, sizeof e / sizeof e[0], true);
    run_look_over(&r, first + 40);
    for (size_t i = 0; i < 4; i++) {
        assert_int_equal(r.animal[i].seen.words, seen[i]);
        assert_true(r.animal[i].input.foot_signs == (seen[i] != 0));
    }
    assert_int_equal(r.animal[3].seen.since, first + 38);
}

/* Grazed again, without saying how high: as the holding says, which may be stocked. Where it says no height,
 * the usual one (1800 kg DM/ha: models/limits.json). */
static void grazed_is_as_the_holding_says(void **state)
{
    struct kept was = holding.paddock[0].kept;
    struct diary_entry e[] = {at(10, DIARY_RESTED, 0, (double)NAN, 0), at(20, DIARY_GRAZED, 0, (double)NAN, 0)};
    (void)state;
    for (int stocked = 0; stocked < 2; stocked++) {
        struct run r;
        holding.paddock[0].kept.how = stocked ? KEPT_STOCKED : KEPT_GRAZED;
        holding.paddock[0].kept.cover_kg_ha = 2300;
        begin(&r, e, 2, true);
        for (int i = 0; i < 25; i++) {
            run_morning(&r, &weather[i]);
            run_evening(&r, &weather[i]);
            assert_int_equal(run_rests(&r.paddock[0]), i >= 10 && i < 20);
        }
        assert_int_equal(r.paddock[0].now.how, stocked ? KEPT_STOCKED : KEPT_GRAZED);
        assert_true(stocked || r.paddock[0].now.cover_kg_ha == 2300);
    }
    holding.paddock[0].kept.how = KEPT_RESTED; /* at rest by the holding file is nothing that the diary says */
    struct run r;
    begin(&r, NULL, 0, true);
    assert_false(run_rests(&r.paddock[0]));
    begin(&r, e, 2, true);
    events_evening(&r, first + 20);
    assert_true(r.paddock[0].now.how == KEPT_GRAZED && r.paddock[0].now.cover_kg_ha == 1800);
    holding.paddock[0].kept = was;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_diary_buys_time_on_grass),
        cmocka_unit_test(paddocks_are_kept_as_the_diary_says),
        cmocka_unit_test(what_was_written_after_the_morning_waits),
        cmocka_unit_test(the_way_back_begins_when_signs_are_gone),
        cmocka_unit_test(days_kept_in_lead_to_the_way_back),
        cmocka_unit_test(hours_are_those_of_their_day),
        cmocka_unit_test(what_was_advised_before_the_signs_is_told),
        cmocka_unit_test(a_look_knows_what_the_morning_knew),
        cmocka_unit_test(grazed_is_as_the_holding_says),
    };
    return cmocka_run_group_tests(tests, load, release);
}
