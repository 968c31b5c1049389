/* The shipped model files load, hold the published figures, and wrong files are
 * refused with place and path. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/file.h"
#include "base/hash.h"
#include "data/params_file.h"

static struct arena arena;
static struct params params;

static int load(void **state)
{
    (void)state;
    struct err e = {0};
    arena_init(&arena);
    if (params_load("models", &arena, &params, &e) != ERR_OK) {
        char text[1024];
        err_format(&e, text, sizeof text);
        fprintf(stderr, "%s\n", text);
        return 1;
    }
    return 0;
}

static int unload(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

static const struct animal_class *class_of(const char *id)
{
    const struct animal_class *c = params_animal(&params, id);
    assert_non_null(c);
    return c;
}

static const struct feed *feed_of(const char *id)
{
    const struct feed *f = params_feed(&params, id);
    assert_non_null(f);
    return f;
}

/* cmocka takes NaN for equal to anything. */
#define SAME(a, b) assert_true(fabs((double)(a) - (double)(b)) <= 1e-6 * fabs((double)(b)) + 1e-9)

/* Limits against their published source. */
static void test_limits_are_the_published_ones(void **state)
{
    (void)state;
    /* Lu et al. 2005, Small Rumin Res 60: 41 % NDF adequate for lactating goats, 23 % ADF for growing ones */
    SAME(class_of("goat-lactating")->min_ndf_pct, 41);
    SAME(class_of("goat-dry")->min_ndf_pct, 41);
    SAME(class_of("goat-growing")->min_adf_pct, 23);
    /* Longland et al. 2011, Vet Rec 168:618: hay of at most 100 g WSC/kg DM for laminitic animals */
    SAME(class_of("equid-laminitis-history")->nsc_caution_pct, 10);
    SAME(class_of("equid-acute")->nsc_stop_pct, 10);
    /* Luthersson 2009, seen second-hand: 1 g starch/kg BW a meal, 2 g a day */
    SAME(class_of("horse")->starch_meal_g_kg, 1);
    SAME(class_of("horse")->starch_day_g_kg, 2);
    /* Macon et al. 2023 and Kerley et al. 2025: about 0.1 g NSC/kg BW a bucket meal */
    SAME(class_of("equid-laminitis-history")->bucket_nsc_meal_g_kg, 0.1);
    /* Harris 2019, seen second-hand: 1.0 % BW only with a vet; 1.5 % the usual floor */
    SAME(class_of("equid-laminitis-history")->min_forage_vet_pct, 1.0);
    SAME(class_of("equid-laminitis-history")->min_forage_pct, 1.5);
    SAME(class_of("donkey")->min_forage_pct, 1.3);
}

static void test_intakes_are_the_published_ones(void **state)
{
    (void)state;
    /* Longland 2021, EEHNC: most equids hold condition at 2.0 % BW */
    SAME(class_of("horse")->intake_pct, 2.0);
    /* eXtension/LPELC: horses on pasture 1.5-2.5 % BW */
    SAME(class_of("horse")->intake_low_pct, 1.5);
    SAME(class_of("horse")->intake_high_pct, 2.5);
    /* Langston University: a dry Boer doe of 59 kg took 1.78 % BW */
    SAME(class_of("goat-dry")->intake_low_pct, 1.8);
    /* NCAT ATTRA, Grazier's Math: ewes dry 2.5, lactating up to 4.5; beef cattle 2.5-3.0 */
    SAME(class_of("sheep-dry")->intake_pct, 2.5);
    SAME(class_of("sheep-lactating")->intake_high_pct, 4.5);
    SAME(class_of("cattle")->intake_pct, 2.5);
    SAME(class_of("cattle")->intake_high_pct, 3.0);
    /* veterinary wiki on donkeys, seen second-hand: 1.3-1.8 % BW */
    SAME(class_of("donkey")->intake_low_pct, 1.3);
    SAME(class_of("donkey")->intake_high_pct, 1.8);
}

static void test_feeds_are_the_published_ones(void **state)
{
    (void)state;
    /* NASEM 2021, Table 19-1: DM, starch, WSC, NDF */
    static const struct {
        const char *id;
        double dm, starch, wsc, ndf;
    } rows[] = {
        {"grass-hay-mid", 88.3, 2.2, 15.2, 58.0},  {"grass-hay-mature", 89.8, 2.0, 10.8, 66.7},
        {"oat-hay-mid", 89.5, 4.1, 17.8, 59.0},    {"wheat-straw", 89.5, 1.8, 4.2, 76.9},
        {"beet-pulp-plain", 92.3, 0.6, 5.7, 46.9}, {"oats", 89.3, 44.7, 2.9, 28.6},
        {"bread-waste", 67.4, 53.5, 11.4, 6.3},    {"molasses", 65.4, 0.8, 60.0, 0.6},
        {"pasture-grass", 19.3, 2.1, 14.6, 41.8},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct feed *f = feed_of(rows[i].id);
        SAME(f->dm_pct, rows[i].dm);
        SAME(f->starch_pct, rows[i].starch);
        SAME(f->wsc_pct, rows[i].wsc);
        SAME(f->ndf_pct, rows[i].ndf);
    }
    SAME(feed_of("teff-hay")->wsc_pct, 8);            /* Washington State University 2015 */
    SAME(feed_of("uk-hay-2011-high")->wsc_pct, 23.0); /* Longland et al. 2011 */
}

/* NSC is WSC + starch in every row of NASEM 2021; the ends of ranges and remembered
 * figures (pellets, browse, carrots, apples) are rounder than that. */
static void test_nsc_adds_up(void **state)
{
    (void)state;
    size_t checked = 0;
    for (size_t i = 0; i < params.feeds; i++) {
        const struct feed *f = &params.feed[i];
        bool round = strstr(f->id, "pellet") || strstr(f->id, "browse") || strstr(f->id, "carrots");
        if (!round && !isnan(f->wsc_pct) && !isnan(f->starch_pct) && !isnan(f->nsc_pct)) {
            assert_true(fabs(f->nsc_pct - f->wsc_pct - f->starch_pct) <= 0.41);
            checked++;
        }
    }
    assert_true(checked > 25);
}

static void test_classes_are_whole(void **state)
{
    (void)state;
    assert_int_equal(params.animals, 19);
    for (size_t i = 0; i < params.animals; i++) {
        const struct animal_class *c = &params.animal[i];
        assert_true(c->caps_are_ours == (c->species != SPECIES_EQUID));
        assert_true(!c->muzzle_offered || c->species == SPECIES_EQUID);
        assert_true(c->grazing == (strcmp(c->id, "equid-acute") != 0));
        assert_true(!c->grazing || c->intake_pct >= c->min_forage_pct);
        bool young = strstr(c->id, "pregnant") || strstr(c->id, "lactating") || strstr(c->id, "growing");
        assert_true(c->evidence_no_slimming == young);
        assert_true(c->evidence[0] != '\0' && c->description[0] != '\0');
    }
    /* a goat with a laminitis history eats as a dry goat, fibre floor included */
    SAME(class_of("goat-laminitis-history")->intake_pct, class_of("goat-dry")->intake_pct);
    SAME(class_of("goat-laminitis-history")->min_ndf_pct, 41);
    SAME(class_of("goat-laminitis-history")->nsc_caution_pct, 12);
    /* common practice, no source; sheep new to grain: a New Zealand smallholder page, seen second-hand */
    SAME(class_of("goat-growing")->max_concentrate_pct, 50);
    SAME(class_of("goat-lactating")->max_concentrate_pct, 50);
    SAME(class_of("goat-late-pregnant")->concentrate_rise_g_day, 50);
    SAME(class_of("ewe-late-pregnant")->grain_start_g, 45);
    SAME(class_of("sheep-dry")->grain_end_g, 130);
    SAME(class_of("sheep-lactating")->grain_step_days, 9);
    assert_true(class_of("goat-dry")->needs_no_bucket && class_of("donkey")->needs_no_bucket);
    assert_false(class_of("goat-late-pregnant")->needs_no_bucket);
}

static void test_feeds_are_whole(void **state)
{
    (void)state;
    for (size_t i = 0; i < params.feeds; i++) {
        const struct feed *f = &params.feed[i];
        bool hay = strstr(f->id, "-hay") || strstr(f->id, "-straw") || strstr(f->id, "silage");
        bool grown = strncmp(f->id, "browse", 6) == 0 || strncmp(f->id, "pasture", 7) == 0;
        assert_true(f->may_be_hay == hay);
        assert_true(f->is_forage == (hay || grown));
        assert_true(!strstr(f->id, "-straw") || f->is_coarse);
        assert_true(f->name[0] != '\0');
    }
    assert_true(isnan(feed_of("barley-straw")->dm_pct));
}

static void test_losses(void **state)
{
    (void)state;
    /* Kentucky State, goat hay sheet: factor 0.93-0.95 inside on the ground */
    const struct hay_loss *l = params_loss(&params, HAY_LOSS_STORAGE, "in-ground");
    assert_non_null(l);
    SAME(l->low_pct, 5);
    SAME(l->high_pct, 7);
    /* Grev et al. 2014, JEVS: 13 % of small squares fed on the ground */
    l = params_loss(&params, HAY_LOSS_FEEDING, "sq-ground");
    assert_non_null(l);
    SAME(hay_loss_planning_pct(l), 13);
    assert_null(params_loss(&params, HAY_LOSS_STORAGE, "sq-ground"));
    SAME(hay_loss_planning_pct(params_loss(&params, HAY_LOSS_STORAGE, "out-12-18m")), 50);
}

static void test_limits_file(void **state)
{
    (void)state;
    SAME(params.limits.muzzle_pony, 0.21);     /* Longland et al. 2016, JEVS */
    SAME(params.limits.muzzle_horse, 0.70);    /* Glunk et al. 2014, from memory */
    SAME(params.limits.grass_ndf_pct, 41.8);   /* NASEM 2021, Table 19-1 */
    SAME(params.limits.equid_nsc_day_g_kg, 5); /* common practice, no source */
}

/* What the three types of sward share. */
static void test_common_numbers(void **state)
{
    (void)state;
    for (size_t i = 0; i < SWARD_TYPES; i++) {
        const struct sward_kind *k = &params.kind[i];
        SAME(k->height_density, 180); /* (850 + 500 + 300 + 150) g/m3, Jouven et al. 2006, group A */
        assert_true(k->killing_frost <= -4.8 && k->killing_frost >= -6); /* van Oijen: LT50 */
    }
}

/* Every number is listed with unit, range, source field and evidence. */
static void test_everything_is_listed(void **state)
{
    (void)state;
    static const char *const paths[] = {"animals.equid-laminitis-history.nsc_caution_pct", "feeds.oats.starch_pct",
                                        "limits.muzzle_pony", "losses.sq-ground.typical_pct"};
    size_t seen = 0;
    assert_true(params.list.n > 500);
    for (size_t i = 0; i < params.list.n; i++) {
        const struct param_entry *x = &params.list.entry[i];
        assert_true(x->value >= x->low && x->value <= x->high);
        bool curve = strstr(x->path, "_curve."); /* a share: no unit */
        assert_true((curve || x->unit[0] != '\0') && x->evidence[0] != '\0');
        assert_non_null(x->source);
        for (size_t k = 0; k < sizeof paths / sizeof paths[0]; k++) {
            seen += strcmp(x->path, paths[k]) == 0;
        }
        for (size_t k = 0; k < i; k++) {
            assert_string_not_equal(x->path, params.list.entry[k].path);
        }
    }
    assert_int_equal(seen, sizeof paths / sizeof paths[0]);
}

static void test_unknown_ids(void **state)
{
    (void)state;
    static const struct {
        enum params_thing thing;
        const char *id, *meant;
    } rows[] = {
        {PARAMS_ANIMAL, "gaot-dry", "\"goat-dry\""},
        {PARAMS_FEED, "oat", "\"oats\""},
        {PARAMS_GRASS, "rygrass", "\"ryegrass\""},
        {PARAMS_SOIL, "silt-lome", "\"silt-loam\""},
        {PARAMS_STORE, "in-grond", "\"in-ground\""},
        {PARAMS_FEEDER, "sq-gronud", "\"sq-ground\""},
        {PARAMS_HAY, "teff-hey", "\"teff-hay\""},
        {PARAMS_ANIMAL, "cows", "did you mean \"cattle\""},
        {PARAMS_ANIMAL, "ponies", "did you mean \"pony\""},
        {PARAMS_ANIMAL, "kid", "there are goat-dry, goat-late-pregnant"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct err e = {0};
        assert_int_equal(params_unknown(&params, rows[i].thing, rows[i].id, &e), ERR_CONFIG);
        assert_non_null(strstr(e.what, rows[i].meant));
    }
    struct err e = {0};
    params_unknown(&params, PARAMS_FEED, "zzzzzzzz", &e);
    assert_null(strstr(e.what, "did you mean"));
    assert_null(params_feed(&params, ""));
}

/* A shipped file with one text replaced by another. */
static enum err_code load_with(const char *name, params_reader read, const char *from, const char *to, struct err *e)
{
    static char text[1 << 17];
    char folder[] = "/tmp/sugarlea-params-XXXXXX", path[256];
    struct arena a;
    struct params p = {0};
    struct file_view view;
    uint64_t hash = HASH_START;
    snprintf(path, sizeof path, "models/%s", name);
    assert_int_equal(file_view(path, sizeof text / 2, &view, NULL), ERR_OK);
    memcpy(text, view.data, view.size);
    text[view.size] = '\0';
    file_unview(&view);
    char *at = strstr(text, from);
    assert_non_null(at);
    memmove(at + strlen(to), at + strlen(from), strlen(at + strlen(from)) + 1);
    memcpy(at, to, strlen(to));
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/%s", folder, name);
    assert_int_equal(file_replace(path, text, strlen(text), NULL), ERR_OK);
    arena_init(&a);
    enum err_code code = params_read_file(folder, name, read, &a, &p, &hash, e);
    arena_release(&a);
    unlink(path);
    rmdir(folder);
    return code;
}

static void refused(const char *name, params_reader read, const char *from, const char *to, const char *field,
                    const char *what)
{
    struct err e = {0};
    assert_int_equal(load_with(name, read, from, to, &e), ERR_CONFIG);
    assert_non_null(strstr(e.file, name));
    assert_true(e.line > 1 && e.column >= 1);
    assert_string_equal(e.field, field);
    if (!strstr(e.what, what)) {
        fail_msg("\"%s\" lacks \"%s\"", e.what, what);
    }
}

static void test_wrong_animals(void **state)
{
    (void)state;
    params_reader r = params_read_animals;
    const char *f = "animals.json";
    refused(f, r, "\"weight_kg\": 60", "\"weight_kg\": 6000", "animals.goat-dry.weight_kg", "5 to 1500 is allowed");
    refused(f, r, "\"weight_kg\": 60", "\"wieght_kg\": 60", "animals.goat-dry.wieght_kg",
            "did you mean \"weight_kg\"?");
    refused(f, r, "\"weight_kg\": 60,", "", "animals.goat-dry", "\"weight_kg\" is missing");
    refused(f, r, "\"species\": \"goat\"", "\"species\": \"goats\"", "animals.goat-dry.species",
            "did you mean \"goat\"?; allowed: goat, equid");
    refused(f, r, "\"grazing\": true", "\"grazing\": 1", "animals.goat-dry.grazing", "true or false");
    refused(f, r, "\"intake_of\": \"goat-dry\"", "\"intake_of\": \"goat-try\"",
            "animals.goat-laminitis-history.intake_of", "did you mean \"goat-dry\"?");
    refused(f, r, "\"nsc_caution_pct\": 15", "\"nsc_caution_pct\": 25", "animals.goat-dry", "above nsc_stop_pct");
    refused(f, r, "\"grain_start_g\": 45, ", "", "animals.sheep-dry", "grain_step_days go together");
    refused(f, r, ", \"grain_step_days\": 9", "", "animals.sheep-dry", "grain_step_days go together");
    refused(f, r, "\"goat-dry\": {", "\"Goat Dry\": {", "animals.Goat Dry", "a-z, 0-9 and hyphens");
    refused(f, r, "\"unit\": \"kg\"", "\"unit\": \"lb\"", "columns.weight_kg.unit", "\"lb\" is not the one");
    refused(f, r, "\"high\": 1500", "\"high\": 1e9", "columns.weight_kg.high", "out of range");
    refused(f, r, "\"laminitis\": \"goat-laminitis-history\"", "\"laminitis\": \"pony\"", "histories.goat",
            "another species");
    refused(f, r, "\"laminitis\": \"goat", "\"laminitus\": \"goat", "histories.goat.laminitus",
            "did you mean \"laminitis\"?");
    refused(f, r,
            "\"evidence\": \"intake: low and high source seen, typ common practice; NDF: source seen "
            "(for lactating goats); NSC limits: common practice\"",
            "\"evidence\": \"\"", "animals.goat-dry", "evidence is empty");
}

static void test_wrong_others(void **state)
{
    (void)state;
    refused("feeds.json", params_read_feeds, "\"dm_pct\": 88.3", "\"dm_pct\": \"88.3\"", "feeds.grass-hay-mid.dm_pct",
            "must be a number");
    refused("feeds.json", params_read_feeds, "\"grass-hay-mature\": {", "\"grass-hay-mid\": {", "", "stands twice");
    refused("limits.json", params_read_limits, "\"brief_h\"", "\"breif_h\"", "limits.breif_h",
            "did you mean \"brief_h\"?");
    refused("limits.json", params_read_limits, "\"value\": 0.36", "\"value\": 3.6", "limits.spread_paddock.value",
            "0.15 to 0.6 is allowed");
    refused("hay-losses.json", params_read_losses, "\"kind\": \"storage\"", "\"kind\": \"stored\"",
            "losses.in-ground.kind", "allowed: storage, feeding");
    refused("hay-losses.json", params_read_losses, "\"low_pct\": 3, \"typical_pct\": 4, \"high_pct\": 5,", "",
            "losses.in-stone", "is needed to plan with");
    refused("starter.json", params_read_starter, "\"timothy\": 0.5,", "\"timothy\": 0.4,", "looks.rows.meadow",
            "sum to 0.9; they must sum to 1");
    refused("starter.json", params_read_starter, "\"cocksfoot\": 0.6,", "\"cocksfoot\": 0.6, \"to_latitude\": 60,",
            "looks.rows.stiff", "by to_latitude, the highest first");
    refused("limits.json", params_read_limits, "{\"value\": 0.36", "{{\"value\": 0.36", "", "not valid JSON");
}

static void test_missing_file(void **state)
{
    (void)state;
    struct arena a;
    struct params p;
    struct err e = {0};
    arena_init(&a);
    assert_int_equal(params_load("models/no-such-folder", &a, &p, &e), ERR_NOINPUT);
    assert_non_null(strstr(e.file, "swards.json"));
    arena_release(&a);
}

/* FNV-1a 64 of "foobar": the reference vector of the algorithm's authors (RFC 9923, appendix C). */
static void test_hash(void **state)
{
    (void)state;
    char folder[] = "/tmp/sugarlea-hash-XXXXXX", path[256];
    uint64_t hash = HASH_START;
    struct arena a;
    struct params p = {0};
    struct err e = {0};
    arena_init(&a);
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/x.json", folder);
    assert_int_equal(file_replace(path, "foobar", 6, NULL), ERR_OK);
    assert_int_equal(params_read_file(folder, "x.json", params_read_feeds, &a, &p, &hash, &e), ERR_CONFIG);
    assert_true(hash == 0x85944171f73967e8u);
    unlink(path);
    rmdir(folder);
    arena_release(&a);
}

/* The hash tells one set of files from another, and the same set again. */
static void test_hash_of_the_models(void **state)
{
    (void)state;
    struct arena a;
    struct params again;
    struct err e = {0};
    arena_init(&a);
    assert_int_equal(strlen(params.hash), 16);
    assert_int_equal(strspn(params.hash, "0123456789abcdef"), 16);
    assert_int_equal(params_load("models", &a, &again, &e), ERR_OK);
    assert_string_equal(again.hash, params.hash);
    assert_int_equal(again.list.n, params.list.n);
    arena_release(&a);
}

/* Every id of grass and soil that the options and the holding take by default. */
static void test_defaults_exist(void **state)
{
    (void)state;
    assert_non_null(params_grass(&params, "unknown-mixed"));
    assert_non_null(params_soil(&params, "unknown"));
    assert_non_null(params_feed(&params, "grass-hay-mature"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_limits_are_the_published_ones),
        cmocka_unit_test(test_intakes_are_the_published_ones),
        cmocka_unit_test(test_feeds_are_the_published_ones),
        cmocka_unit_test(test_nsc_adds_up),
        cmocka_unit_test(test_classes_are_whole),
        cmocka_unit_test(test_feeds_are_whole),
        cmocka_unit_test(test_losses),
        cmocka_unit_test(test_limits_file),
        cmocka_unit_test(test_common_numbers),
        cmocka_unit_test(test_everything_is_listed),
        cmocka_unit_test(test_unknown_ids),
        cmocka_unit_test(test_wrong_animals),
        cmocka_unit_test(test_wrong_others),
        cmocka_unit_test(test_missing_file),
        cmocka_unit_test(test_hash),
        cmocka_unit_test(test_hash_of_the_models),
        cmocka_unit_test(test_defaults_exist),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
