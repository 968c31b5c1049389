/* Holdings: a good file is read whole, defaults hold, and every kind of wrong
 * entry is refused with its place and what is allowed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "data/holding.h"

static struct arena kept_arena, arena;
static struct params params;
static struct holding holding;
static struct err err;

static int load(void **state)
{
    (void)state;
    arena_init(&kept_arena);
    return params_load("models", &kept_arena, &params, &err);
}

static int unload(void **state)
{
    (void)state;
    arena_release(&kept_arena);
    return 0;
}

static enum err_code parse(const char *text, size_t n)
{
    char *copy = malloc(n ? n : 1); /* exactly n bytes, so that a read beyond is caught */
    assert_non_null(copy);
    memcpy(copy, text, n);
    arena_release(&arena);
    arena_init(&arena);
    err = (struct err){0};
    enum err_code code = holding_parse(copy, n, "h.json", &params, &arena, &holding, &err);
    free(copy);
    return code;
}

/* cmocka takes NaN for equal to anything. */
#define SAME(a, b) assert_true(fabs((double)(a) - (double)(b)) <= 1e-6 * fabs((double)(b)) + 1e-9)

static const char good[] =
    "{\"sugarlea\": 1, \"name\": \"Sallow \\\"End\\\"\",\n"
    "\"site\": {\"latitude\": 52.19, \"longitude\": -2.71, \"elevation_m\": 120, \"timezone\": \"Europe/London\"},\n"
    "\"weather\": [{\"file\": \"weather/*.csv\"}, {\"service\": \"some-service\", \"cache_days\": 2,\n\"station\": "
    "\"USW00093820\", \"url\": \"https://example.org/w\", \"key_file\": \"k.txt\"}],\n"
    "\"paddocks\": [\n"
    "{\"id\": \"brook\", \"area_ha\": 0.8, \"grass\": {\"ryegrass\": 0.6, \"cocksfoot\": 0.2, \"white-clover\": 0.2},\n"
    "\"soil\": \"silty-clay-loam\", \"nitrogen\": \"low\", \"kept\": {\"how\": \"grazed\", \"cover_kg_dm_ha\": "
    "1900}},\n"
    "{\"id\": \"bank\", \"area_ha\": 1, \"kept\": {\"how\": \"cut\", \"dates\": [\"05-20\", \"08-01\"], \"to_cm\": "
    "6}},\n"
    "{\"id\": \"hill\", \"area_ha\": 2, \"grass\": \"cocksfoot\", \"kept\": {\"how\": \"cut\", \"every_days\": 28,\n"
    "\"from\": \"04-15\"}},\n"
    "{\"id\": \"moor\", \"area_ha\": 9, \"kept\": {\"how\": \"stocked\"}}],\n"
    "\"animals\": [\n"
    "{\"id\": \"does\", \"class\": \"goat-lactating\", \"count\": 12, \"weight_kg\": 66, \"paddock\": \"bank\",\n"
    "\"history\": [\"laminitis\", \"poor-teeth\"], \"fed_daily\": [{\"feed\": \"beet-pulp-plain\", \"kg\": 0.15}]},\n"
    "{\"id\": \"cob\", \"class\": \"pony\", \"paddock\": \"brook\",\n"
    "\"limits\": {\"nsc_caution_percent\": 11, \"nsc_stop_percent\": 14, \"level_probability\": 0.9, \"max_hours\": "
    "4}}],\n"
    "\"hay\": {\"stock\": [{\"feed\": \"grass-hay-mature\", \"bales\": 140, \"bale_kg\": 18, \"nsc_percent\": 11.5,\n"
    "\"nsc_is\": \"wsc+starch\"}, {\"feed\": \"grass-silage\", \"kg\": 900}], \"stored\": \"in-ground\",\n"
    "\"fed_from\": \"default-goat-keyhole\", \"price_per_bale\": 6.5}}\n";

static void test_good_place_and_weather(void **state)
{
    (void)state;
    assert_int_equal(parse(good, strlen(good)), ERR_OK);
    assert_string_equal(holding.name, "Sallow \"End\"");
    assert_string_equal(holding.path, "h.json");
    SAME(holding.site.latitude, 52.19);
    SAME(holding.site.longitude, -2.71);
    SAME(holding.site.elevation_m, 120);
    assert_string_equal(holding.site.timezone, "Europe/London");
    assert_int_equal(holding.sources, 2);
    assert_string_equal(holding.source[0].file, "weather/*.csv");
    assert_string_equal(holding.source[0].service, "");
    assert_string_equal(holding.source[1].service, "some-service");
    SAME(holding.source[1].cache_days, 2);
    assert_string_equal(holding.source[1].station, "USW00093820");
    assert_string_equal(holding.source[1].url, "https://example.org/w");
    assert_string_equal(holding.source[1].key_file, "k.txt");
}

static void test_good_paddocks(void **state)
{
    (void)state;
    assert_int_equal(parse(good, strlen(good)), ERR_OK);
    assert_int_equal(holding.paddocks, 4);
    const struct paddock *d = &holding.paddock[0];
    assert_string_equal(d->id, "brook");
    SAME(d->area_ha, 0.8);
    assert_int_equal(d->grasses, 3);
    assert_string_equal(d->grass[1]->id, "cocksfoot");
    SAME(d->share[0], 0.6);
    assert_string_equal(d->soil->id, "silty-clay-loam");
    SAME(d->nitrogen, 0.9);
    assert_string_equal(d->nitrogen_id, "low");
    assert_int_equal(d->kept.how, KEPT_GRAZED);
    SAME(d->kept.cover_kg_ha, 1900);
    d++;
    assert_string_equal(d->grass[0]->id, "unknown-mixed");
    assert_string_equal(d->soil->id, "unknown");
    SAME(d->nitrogen, 1);
    assert_int_equal(d->kept.how, KEPT_CUT);
    assert_int_equal(d->kept.cuts, 2);
    assert_int_equal(d->kept.cut_md[0], 520);
    assert_int_equal(d->kept.cut_md[1], 801);
    SAME(d->kept.to_cm, 6);
    d++;
    assert_int_equal(d->kept.every_days, 28);
    assert_int_equal(d->kept.from_md, 415);
    SAME(d->kept.to_cm, 5);
    assert_int_equal(d[1].kept.how, KEPT_STOCKED);
}

static void test_good_animals(void **state)
{
    (void)state;
    assert_int_equal(parse(good, strlen(good)), ERR_OK);
    assert_int_equal(holding.animals, 2);
    const struct animal_group *g = &holding.animal[0];
    assert_string_equal(g->class_id, "goat-lactating");
    assert_int_equal(g->count, 12);
    SAME(g->weight_kg, 66);
    assert_int_equal(g->paddock, 1);
    assert_int_equal(g->history, HISTORY_LAMINITIS | HISTORY_POOR_TEETH);
    SAME(g->rules.nsc_caution_pct, 12); /* of goat-laminitis-history */
    SAME(g->rules.intake_pct, 4);
    assert_false(g->limits_set);
    assert_int_equal(g->feds, 1);
    assert_string_equal(g->fed[0].feed->id, "beet-pulp-plain");
    SAME(g->fed[0].kg, 0.15);
    g++;
    assert_int_equal(g->count, 1);
    SAME(g->weight_kg, 250); /* the class's typical one */
    assert_int_equal(g->limits_set, 15);
    SAME(g->rules.nsc_caution_pct, 11);
    SAME(g->rules.nsc_stop_pct, 14);
    SAME(g->rules.level_probability, 0.9);
    SAME(g->rules.max_hours, 4);
}

static void test_good_hay(void **state)
{
    (void)state;
    assert_int_equal(parse(good, strlen(good)), ERR_OK);
    assert_int_equal(holding.lots, 2);
    SAME(holding.lot[0].kg, 2520);
    SAME(holding.lot[0].nsc_pct, 11.5);
    assert_string_equal(holding.lot[0].nsc_is, "wsc+starch");
    SAME(holding.lot[1].kg, 900);
    assert_true(isnan(holding.lot[1].nsc_pct) && isnan(holding.lot[1].bales));
    assert_string_equal(holding.lot[1].nsc_is, "");
    assert_string_equal(holding.stored, "in-ground");
    assert_string_equal(holding.fed_from, "default-goat-keyhole");
    SAME(holding.price_per_bale, 6.5);
}

static void test_least_holding(void **state)
{
    (void)state;
    const char *text = "{\"sugarlea\": 1, \"site\": {\"latitude\": 0}, \"paddocks\": [{\"id\": \"a\", \"area_ha\": 1}],"
                       "\"animals\": [{\"id\": \"x\", \"class\": \"sheep-dry\"}]}";
    assert_int_equal(parse(text, strlen(text)), ERR_OK);
    assert_true(isnan(holding.site.longitude) && isnan(holding.site.elevation_m) && isnan(holding.price_per_bale));
    assert_string_equal(holding.site.timezone, "");
    SAME(holding.paddock[0].kept.cover_kg_ha, 1800);
    assert_int_equal(holding.animal[0].paddock, 0);
    assert_int_equal(holding.lots, 1);
    assert_string_equal(holding.lot[0].feed->id, "grass-hay-mature");
    assert_true(isnan(holding.lot[0].nsc_pct) && isnan(holding.lot[0].kg));
    assert_string_equal(holding.stored, "");
}

/* The good holding with `from` replaced by `to` is refused: at the text `at` (its
 * line and column), with this field and these words. */
static void refused(const char *from, const char *to, const char *at, const char *field, const char *what)
{
    static char text[65536];
    const char *found = strstr(good, from);
    assert_non_null(found);
    snprintf(text, sizeof text, "%.*s%s%s", (int)(found - good), good, to, found + strlen(from));
    enum err_code code = parse(text, strlen(text));
    if (code != ERR_CONFIG || err.code != ERR_CONFIG || strcmp(err.field, field) != 0 || !strstr(err.what, what)) {
        fail_msg("code %d, field %s, \"%s\"; wanted %s, \"%s\"", (int)code, err.field, err.what, field, what);
    }
    assert_string_equal(err.file, "h.json");
    const char *place = strstr(text, at);
    assert_non_null(place);
    size_t line = 1, column = 1;
    for (const char *c = text; c < place; c++) {
        column = *c == '\n' ? 1 : column + 1;
        line += *c == '\n';
    }
    if (err.line != line || err.column != column) {
        fail_msg("%s: at %zu:%zu, wanted %zu:%zu", field, err.line, err.column, line, column);
    }
}

static void test_wrong_top(void **state)
{
    (void)state;
    refused("\"sugarlea\": 1,", "", "{", "", "must begin with \"sugarlea\": 1");
    refused("\"sugarlea\": 1", "\"sugarlea\": 2", "2,", "sugarlea", "version 1 only");
    refused("\"weather\": [", "\"whether\": [", "[", "whether", "did you mean \"weather\"?");
    refused("\"weather\": [", "\"name\": [", "\"name\": [", "", "twice");
    refused("\"site\": {\"latitude\"", "\"site\": {\"lat\"", "52.19", "site.lat", "unknown entry");
    refused("\"latitude\": 52.19, ", "", "{\"longitude", "site", "\"latitude\" is missing");
    refused("52.19", "152.19", "152.19", "site.latitude", "-90 to 90 is allowed");
    refused("-2.71", "\"2.71 W\"", "\"2.71 W", "site.longitude", "must be a number");
    refused("\"elevation_m\": 120", "\"elevation_m\": -500", "-500", "site.elevation_m", "-450 to 6000");
    refused("Europe/London", "../etc/passwd", "\"../etc", "site.timezone", "no zone name");
    refused("Europe/London", "Europe/Londkn", "\"Europe/Londkn", "site.timezone", "not known on this machine");
    refused("{\"file\": \"weather/*.csv\"}", "{\"file\": \"a\", \"service\": \"b\"}", "{\"file\"", "weather[0]",
            "either \"file\" or \"service\"");
    refused("{\"file\": \"weather/*.csv\"}", "{\"file\": \"\"}", "\"\"}", "weather[0].file", "must not be empty");
    refused("\"cache_days\": 2", "\"cache_days\": 200", "200", "weather[1].cache_days", "0 to 30");
    refused("{\"file\": \"weather/*.csv\"}", "{\"file\": \"a\", \"cache_days\": 1}", "{\"file\"", "weather[0]",
            "goes with \"service\" only");
}

static void test_wrong_service(void **state)
{
    (void)state;
    refused("USW00093820", "US/../x", "\"US/", "weather[1].station", "letters, digits and hyphens are allowed");
    refused("https://example.org/w", "ftp://example.org", "\"ftp", "weather[1].url", "https://HOST");
    refused("https://example.org/w", "https://", "\"https", "weather[1].url", "https://HOST");
    refused("https://example.org/w", "https://h?apikey=12345678", "\"https", "weather[1].url", "key_file");
    refused("https://example.org/w", "https://me:secret@h", "\"https", "weather[1].url", "without ? # @");
    refused("\"key_file\": \"k.txt\"", "\"key_file\": 7", "7}]", "weather[1].key_file", "must be text");
    refused("\"key_file\"", "\"keyfile\"", "\"k.txt", "weather[1].keyfile", "did you mean \"key_file\"?");
    refused("{\"file\": \"weather/*.csv\"}", "{\"file\": \"a\", \"station\": \"x\"}", "{\"file\"", "weather[0]",
            "\"station\" goes with \"service\" only");
}

static void test_wrong_paddock(void **state)
{
    (void)state;
    refused("\"area_ha\": 0.8,", "", "{\"id\": \"brook\"", "paddocks[0]", "\"area_ha\" is missing");
    refused("\"area_ha\": 0.8", "\"area_ha\": 0.0", "0.0,", "paddocks[0].area_ha", "out of range");
    refused("\"id\": \"bank\"", "\"id\": \"brook\"", "\"brook\", \"area_ha\": 1,", "paddocks[1].id",
            "used twice; entry 1");
    refused("{\"id\": \"bank\", ", "{", "{\"area_ha\": 1", "paddocks[1]", "\"id\" is missing");
    refused("\"ryegrass\": 0.6", "\"rygrass\": 0.6", "0.6", "paddocks[0].grass.rygrass", "did you mean \"ryegrass\"?");
    refused("\"ryegrass\": 0.6", "\"ryegrass\": 0.5", "{\"ryegrass\"", "paddocks[0].grass", "sum to 0.9");
    refused("\"ryegrass\": 0.6", "\"ryegrass\": 1.6", "1.6", "paddocks[0].grass.ryegrass", "0.001 to 1");
    refused("\"grass\": \"cocksfoot\"", "\"grass\": 7", "7,", "paddocks[2].grass", "must be a grass id");
    refused("\"grass\": \"cocksfoot\"", "\"grass\": {}", "{},", "paddocks[2].grass", "must be a grass id");
    refused("\"soil\": \"silty-clay-loam\"", "\"soil\": \"silty-clayloam\"", "\"silty-clayloam", "paddocks[0].soil",
            "did you mean \"silty-clay-loam\"?");
    refused("\"nitrogen\": \"low\"", "\"nitrogen\": \"lwo\"", "\"lwo\"", "paddocks[0].nitrogen",
            "allowed: none, low, normal, heavy");
    refused("\"nitrogen\": \"low\"", "\"nitrogen\": \"normle\"", "\"normle\"", "paddocks[0].nitrogen",
            "did you mean \"normal\"?");
    refused("\"nitrogen\"", "\"nitrogn\"", "\"low\"", "paddocks[0].nitrogn", "did you mean \"nitrogen\"?");
}

static void test_wrong_kept(void **state)
{
    (void)state;
    refused("\"how\": \"grazed\"", "\"how\": \"grased\"", "\"grased\"", "paddocks[0].kept.how",
            "did you mean \"grazed\"?; allowed: grazed, cut, stocked, rested");
    refused("\"cover_kg_dm_ha\": 1900", "\"cover_kg_dm_ha\": 19", "19}", "paddocks[0].kept.cover_kg_dm_ha",
            "540 to 12000"); /* animals leave 3 cm of 180 kg (swards.json) */
    refused("\"cover_kg_dm_ha\": 1900", "\"cover_kg_dm_ha\": 1900, \"height_cm\": 9", "{\"how\"", "paddocks[0].kept",
            "either \"cover_kg_dm_ha\" or \"height_cm\"");
    refused(", \"cover_kg_dm_ha\": 1900", "", "{\"how\"", "paddocks[0].kept", "needs either");
    refused("\"how\": \"stocked\"", "\"how\": \"rested\", \"to_cm\": 5", "5}}]", "paddocks[3].kept.to_cm",
            "goes with \"how\": \"cut\" only");
    refused("\"08-01\"", "\"08-32\"", "\"08-32\"", "paddocks[1].kept.dates[1]", "\"MM-DD\"");
    refused("\"08-01\"", "\"02-29\"", "\"02-29\"", "paddocks[1].kept.dates[1]", "day of every year");
    refused("\"08-01\"", "\"-8-01\"", "\"-8-01\"", "paddocks[1].kept.dates[1]", "\"MM-DD\"");
    refused("\"08-01\"", "\"05-20\"", "\"05-20\"], \"to", "paddocks[1].kept.dates[1]", "follow one another");
    refused("[\"05-20\", \"08-01\"]", "[]", "[], ", "paddocks[1].kept.dates", "at least one day");
    refused("\"to_cm\": 6", "\"every_days\": 28, \"from\": \"04-01\"", "{\"how\": \"cut\", \"dates", "paddocks[1].kept",
            "either \"dates\" or \"every_days\"");
    refused("\"every_days\": 28", "\"every_days\": 28.5", "28.5", "paddocks[2].kept.every_days", "whole number");
    refused("\"every_days\": 28", "\"every_days\": 3", "3,\n", "paddocks[2].kept.every_days", "7 to 365");
    refused(",\n\"from\": \"04-15\"", "", "{\"how\": \"cut\", \"every", "paddocks[2].kept", "\"from\" is missing");
    refused("\"to_cm\": 6", "\"to_cm\": 60", "60", "paddocks[1].kept.to_cm", "2 to 30");
}

static void test_wrong_animal(void **state)
{
    (void)state;
    refused("\"goat-lactating\"", "\"goat-lactatin\"", "\"goat-lactatin\"", "animals[0].class",
            "did you mean \"goat-lactating\"?");
    refused("\"class\": \"goat-lactating\", ", "", "{\"id\": \"does\"", "animals[0]", "\"class\" is missing");
    refused("\"count\": 12", "\"count\": -7", "-7,", "animals[0].count", "1 to 100000");
    refused("\"count\": 12", "\"count\": 2.5", "2.5", "animals[0].count", "whole number");
    refused("\"weight_kg\": 66", "\"weight_kg\": 660", "660", "animals[0].weight_kg", "5 to 180");
    refused("\"paddock\": \"bank\"", "\"paddock\": \"bnak\"", "\"bnak\"", "animals[0].paddock",
            "no paddock has the id");
    refused("\"paddock\": \"brook\"", "\"paddock\": \"brok\"", "\"brok\"", "animals[1].paddock",
            "did you mean \"brook\"?");
    refused(", \"paddock\": \"brook\"", "", "{\"id\": \"cob\"", "animals[1]", "\"paddock\" is missing");
    refused("\"id\": \"cob\"", "\"id\": \"does\"", "\"does\", \"class\": \"pony\"", "animals[1].id", "used twice");
    refused("\"laminitis\",", "\"laminitus\",", "\"laminitus\"", "animals[0].history[0]",
            "did you mean \"laminitis\"?; allowed: laminitis, ");
    refused("\"poor-teeth\"", "\"overweight\"", "\"overweight\"", "animals[0].history[1]",
            "no rules for the history \"overweight\" of this species (goat)");
    refused("\"poor-teeth\"", "\"laminitis\"", "\"laminitis\"],", "animals[0].history[1]", "stands twice");
    refused("[\"laminitis\", \"poor-teeth\"]", "\"laminitis\"", "\"laminitis\"", "animals[0].history",
            "list in brackets");
    refused("\"feed\": \"beet-pulp-plain\"", "\"feed\": \"beet-pulp-plan\"", "\"beet-pulp-plan\"",
            "animals[0].fed_daily[0].feed", "did you mean \"beet-pulp-plain\"?");
    refused("\"kg\": 0.15", "\"kg\": -100", "-100", "animals[0].fed_daily[0].kg", "out of range");
    /* 5 % of 66 kg is what a milking goat eats at most (animals.json), twice that 6.6 kg; the pulp is dry to 91 % */
    refused("\"kg\": 0.15", "\"kg\": 7.5", "7.5", "animals[0].fed_daily[0].kg", "what one animal gets a day");
    refused("\"kg\": 0.15", "\"lb\": 0.15", "0.15", "animals[0].fed_daily[0].lb", "unknown entry");
    refused("\"nsc_caution_percent\": 11", "\"nsc_caution_percent\": 15", "{\"nsc_caution", "animals[1].limits",
            "caution limit (15) is above the stop limit (14)");
    refused("\"level_probability\": 0.9", "\"level_probability\": 0.2", "0.2, \"max",
            "animals[1].limits.level_probability", "0.5 to 0.95");
    refused("\"max_hours\": 4", "\"sugar_limit\": 4", "4}}", "animals[1].limits.sugar_limit",
            "unknown entry; allowed: note, nsc_caution_percent, nsc_stop_percent, level_probability, max_hours");
    refused("\"max_hours\": 4", "\"max_hour\": 4", "4}}", "animals[1].limits.max_hour", "did you mean \"max_hours\"?");
}

static void test_wrong_hay(void **state)
{
    (void)state;
    refused("\"feed\": \"grass-silage\"", "\"feed\": \"gras-silage\"", "\"gras-silage\"", "hay.stock[1].feed",
            "did you mean \"grass-silage\"?");
    refused("\"feed\": \"grass-silage\"", "\"feed\": \"oats\"", "\"oats\"", "hay.stock[1].feed",
            "no hay, straw or silage");
    refused("\"bales\": 140, ", "", "{\"feed\": \"grass-hay-mature\"", "hay.stock[0]", "together with \"bale_kg\"");
    refused("\"kg\": 900", "\"kg\": 900, \"bales\": 3, \"bale_kg\": 300", "{\"feed\": \"grass-silage\"", "hay.stock[1]",
            "or \"kg\" alone");
    refused(",\n\"nsc_is\": \"wsc+starch\"", "", "{\"feed\": \"grass-hay-mature\"", "hay.stock[0]", "go together");
    refused("\"wsc+starch\"", "\"wsc + starch\"", "\"wsc + starch\"", "hay.stock[0].nsc_is",
            "did you mean \"wsc+starch\"?");
    refused("\"nsc_percent\": 11.5", "\"nsc_percent\": 115", "115", "hay.stock[0].nsc_percent", "3 to 50");
    refused("\"nsc_percent\": 11.5", "\"nsc_percent\": 1.15", "1.15", "hay.stock[0].nsc_percent",
            "no hay has been found with so little: 3 to 50 % of dry matter is allowed; was 11.5 meant?");
    refused("\"nsc_percent\": 11.5", "\"nsc_percent\": 0.115", "0.115", "hay.stock[0].nsc_percent", "was 11.5 meant?");
    refused("\"in-ground\"", "\"in-grund\"", "\"in-grund\"", "hay.stored", "did you mean \"in-ground\"?");
    refused("\"default-goat-keyhole\"", "\"in-stone\"", "\"in-stone\"", "hay.fed_from", "no feeder is called");
    refused("\"price_per_bale\": 6.5", "\"price_per_bale\": -1", "-1}}", "hay.price_per_bale", "out of range");
}

/* Names come from outside: what could end a field, a line or a terminal's patience. */
static void test_hostile_names(void **state)
{
    (void)state;
    static char longer[10100];
    snprintf(longer, sizeof longer, "\"%010000d\"", 0);
    refused("\"brook\"", longer, "\"000", "paddocks[0].id", "longer than the 63 bytes");
    refused("\"Sallow \\\"End\\\"\"", longer, "\"000", "name", "longer than the 255 bytes");
    refused("\"goat-lactating\"", longer, "\"000", "animals[0].class", "longer than the 63 bytes");
    refused("\"weather/*.csv\"", longer, "\"000", "weather[0].file", "longer than the 4095 bytes");
    refused("\"brook\"", "\"a\\nb\"", "\"a\\nb", "paddocks[0].id", "control character");
    refused("\"brook\"", "\"a\\u001b[2Jb\"", "\"a\\u", "paddocks[0].id", "control character");
    refused("\"brook\"", "\"a\\\"b\"", "\"a\\", "paddocks[0].id", "is no id");
    refused("\"brook\"", "\"a\\u202eb\"", "\"a\\u", "paddocks[0].id", "\"a???b\" is no id"); /* bidi: UTR 36, 3.1 */
    static const char *const unseen[] = {
        "061c", "200b", "200d", "200e", "200f", "00a0", "00ad", "1680",
        "2003", "202f", "2060", "205f", "3000", "3164", "feff"}; /* UTS 39, 3.1; UCD, Zs */
    for (size_t i = 0; i < sizeof unseen / sizeof unseen[0]; i++) {
        char id[16];
        snprintf(id, sizeof id, "\"brook\\u%s\"", unseen[i]);
        refused("\"brook\"", id, "\"brook\\u", "paddocks[0].id", "a blank or what cannot be seen (U+");
    }
    refused("\"brook\"", "\"a,b\"", "\"a,b", "paddocks[0].id", "is no id");
    refused("\"brook\"", "\"-rf\"", "\"-rf", "paddocks[0].id", "no hyphen in front");
    refused("\"brook\"", "\"\"", "\"\", \"area", "paddocks[0].id", "must not be empty");
    refused("Sallow", "\\u009b2J", "\"\\u009b", "name", "control character");
    refused("Sallow", "\\u007f", "\"\\u007f", "name", "control character");
    refused("\"laminitis\",", "\"\\u0007\",", "\"\\u0007", "animals[0].history[0]", "\"?\" is not known");
    const char *accents =
        "{\"sugarlea\":1,\"site\":{\"latitude\":1},\"paddocks\":[{\"id\":\"B\\u00e4chle_2.a\",\"area_ha\":1}]}";
    assert_int_equal(parse(accents, strlen(accents)), ERR_OK);
    assert_string_equal(holding.paddock[0].id, "B\303\244chle_2.a");
}

/* Shares within 0.01 of 1 are taken and made to sum to 1. */
static void test_shares_are_normalised(void **state)
{
    (void)state;
    const char *text = "{\"sugarlea\": 1, \"site\": {\"latitude\": 1}, \"paddocks\": [{\"id\": \"a\", \"area_ha\": 1, "
                       "\"grass\": {\"ryegrass\": 0.33, \"cocksfoot\": 0.33, \"white-clover\": 0.33}, "
                       "\"kept\": {\"how\": \"grazed\", \"height_cm\": 8}}]}";
    assert_int_equal(parse(text, strlen(text)), ERR_OK);
    SAME(holding.paddock[0].share[0] + holding.paddock[0].share[1] + holding.paddock[0].share[2], 1);
    SAME(holding.paddock[0].kept.cover_kg_ha, 8 * 180); /* Jouven et al. 2006: 180 kg/ha a ruler cm */
}

static void test_too_many(void **state)
{
    (void)state;
    static char text[1 << 16];
    size_t n = (size_t)snprintf(text, sizeof text, "{\"sugarlea\": 1, \"site\": {\"latitude\": 1}, \"paddocks\": [");
    for (int i = 0; i <= LIMIT_PADDOCKS; i++) {
        n += (size_t)snprintf(text + n, sizeof text - n, "%s{\"id\": \"p%d\", \"area_ha\": 1}", i ? "," : "", i);
    }
    snprintf(text + n, sizeof text - n, "]}");
    assert_int_equal(parse(text, strlen(text)), ERR_CONFIG);
    assert_non_null(strstr(err.what, "at most 256"));
}

/* Cut anywhere, or with any one bit changed, a holding is read or refused. */
static void test_damaged_files(void **state)
{
    (void)state;
    static char text[sizeof good];
    size_t n = strlen(good), whole = 0, refusals = 0;
    for (size_t i = 0; i < n - 1; i++) { /* the last byte is a line end */
        assert_int_equal(parse(good, i), ERR_CONFIG);
        assert_true(err.code == ERR_CONFIG && err.what[0] != '\0');
    }
    for (size_t i = 0; i < n; i++) {
        for (unsigned bit = 0; bit < 8; bit += 1 + (unsigned)(i % 2)) {
            memcpy(text, good, n);
            text[i] = (char)(text[i] ^ (1 << bit));
            enum err_code code = parse(text, n);
            assert_true(code == ERR_OK || code == ERR_CONFIG);
            assert_true(code == ERR_OK || (err.code == code && err.what[0] != '\0'));
            whole += code == ERR_OK;
            refusals += code == ERR_CONFIG;
        }
    }
    if (whole < 300 || refusals < 6000) {
        fail_msg("%zu were read, %zu refused", whole, refusals);
    }
}

/* "note" is the keeper's own in every object of the file, and changes nothing. */
static void test_notes(void **state)
{
    (void)state;
    static const char noted[] =
        "{\"note\": \"top\", \"sugarlea\": 1, \"site\": {\"note\": \"a\", \"latitude\": 52},\n"
        "\"weather\": [{\"note\": \"b\", \"file\": \"w.csv\"}],\n"
        "\"paddocks\": [{\"note\": \"\", \"id\": \"p\", \"area_ha\": 1,\n"
        "\"kept\": {\"note\": \"c\", \"how\": \"rested\"}}],\n"
        "\"animals\": [{\"note\": \"d\", \"id\": \"x\", \"class\": \"pony\", \"limits\": {\"note\": \"ask Ann\"},\n"
        "\"fed_daily\": [{\"note\": \"e\", \"feed\": \"oats\", \"kg\": 1}]}],\n"
        "\"hay\": {\"note\": \"f\", \"stock\": [{\"note\": \"g\", \"feed\": \"teff-hay\",\n"
        "\"soaked\": {\"note\": \"h\", \"hours\": 1}}]}}";
    assert_int_equal(parse(noted, strlen(noted)), ERR_OK);
    assert_int_equal(holding.paddock[0].kept.how, KEPT_RESTED);
    assert_false(holding.animal[0].limits_set);
    SAME(holding.lot[0].soaked_h, 1);
    refused("\"area_ha\": 0.8", "\"note\": 7, \"area_ha\": 0.8", "7, \"area_ha", "paddocks[0].note",
            "text in double quotes");
    refused("\"area_ha\": 0.8", "\"note\": \"a\\u0007\", \"area_ha\": 0.8", "\"a\\u", "paddocks[0].note", "control");
    refused("\"area_ha\": 0.8", "\"notes\": \"a\", \"area_ha\": 0.8", "\"a\", \"area_ha", "paddocks[0].notes",
            "did you mean \"note\"");
    refused("{\"ryegrass\": 0.6", "{\"note\": \"a\", \"ryegrass\": 0.6", "\"a\", \"ryegrass", "paddocks[0].grass.note",
            "number");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_good_place_and_weather),
        cmocka_unit_test(test_good_paddocks),
        cmocka_unit_test(test_good_animals),
        cmocka_unit_test(test_good_hay),
        cmocka_unit_test(test_least_holding),
        cmocka_unit_test(test_wrong_top),
        cmocka_unit_test(test_wrong_service),
        cmocka_unit_test(test_wrong_paddock),
        cmocka_unit_test(test_wrong_kept),
        cmocka_unit_test(test_wrong_animal),
        cmocka_unit_test(test_wrong_hay),
        cmocka_unit_test(test_hostile_names),
        cmocka_unit_test(test_shares_are_normalised),
        cmocka_unit_test(test_too_many),
        cmocka_unit_test(test_damaged_files),
        cmocka_unit_test(test_notes),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
