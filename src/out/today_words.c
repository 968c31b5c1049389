/* What the text and the sheet both say. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/today_words.h"

#include "out/ration.h"
#include "out/text.h"
#include "out/tune.h"

#include <math.h>
#include <stdio.h>

#define SURPLUS_LEAST 0.02 /* share worth a word */
#define LITTLE_KG 0.05     /* kg a head: less reads as nothing */
#define HAY_LEAST 0.15     /* the same, where it is little of the day: nobody weighs out less */
#define HAY_SHARE 0.1      /* of the day's dry matter, which is little */

enum { DRIVER_LEAST = 5, CAUTIONS_FIRST = 3 }; /* g/kg worth a word; cautions that stand for all */

const char today_ahead_words[] = "Look again each morning: a forecast is surer of tomorrow than of next week.";
const char today_level_words[] =
    "The estimate comes from weather, not from a test of your grass; its direction is surer than its level.";

static bool has_window(const struct advice *a)
{
    return a->turnout == TURNOUT_TIMED || a->turnout == TURNOUT_BRIEF;
}

const char *today_window(const struct today_view *v, const struct advice *a, char *text)
{
    char from[6], to[6];
    text[0] = 0;
    if (has_window(a)) {
        snprintf(text, TODAY_WINDOW, "%s to %s", today_clock(v, a->from_h, from), today_clock_end(v, a, to));
    }
    return text;
}

bool today_over_midnight(const struct today_view *v, const struct advice *a)
{
    enum { DAY_MIN = 24 * 60 };
    return has_window(a) && today_minutes(v, a->from_h) + (int)lround(a->hours * 60.0) > DAY_MIN;
}

/* A session over midnight is told by the hours off grass: who reads it in the morning may have the animals out
 * by yesterday's, and must not shut them in until tonight. */
const char *today_window_told(const struct today_view *v, const struct advice *a, char *text)
{
    char from[6], to[6];
    text[0] = 0;
    if (has_window(a)) {
        today_clock(v, a->from_h, from);
        today_clock_end(v, a, to);
        bool over = today_over_midnight(v, a);
        snprintf(text, TODAY_WINDOW_TOLD, over ? "all day and night but from %s to %s" : "from %s to %s",
                 over ? to : from, over ? from : to);
    }
    return text;
}

const char *today_frost_name(const struct today_day *day)
{
    return day->air_frost ? "frost" : day->ground_frost ? "ground frost" : "";
}

double today_hay_kg(const struct advice *a)
{
    bool part = a->ration.hay_dm_kg < HAY_SHARE * a->ration.dm_kg; /* of a small animal's day it may be much */
    return a->hay_kg < (part ? HAY_LEAST : LITTLE_KG) ? 0.0 : a->hay_kg;
}

const char *today_weight(const struct today_view *v, const struct animal_group *g, char *text)
{
    char kg[UNITS_TEXT], date[DATE_TEXT];
    units_text(v->units, AMOUNT_MASS, g->weight_kg, 0, kg);
    if (g->weighed == DATE_NONE) {
        snprintf(text, TODAY_WEIGHT, "%s", kg);
    } else {
        snprintf(text, TODAY_WEIGHT, "%s (diary, %s)", kg, date_format(g->weighed, date));
    }
    return text;
}

void today_say_basis(const struct today_view *v, const struct today_to *to)
{
    char line[LIMIT_TEXT + 80], date[DATE_TEXT];
    snprintf(line, sizeof line, "Weather recorded to %s%s. Clock: %s.", date_format(v->recorded_to, date),
             v->day->assumed ? "; today's own weather is assumed to be like the last three days" : "",
             v->solar ? "by the sun (12:00 is when it stands highest)" : v->holding->site.timezone);
    to->say(to, "", line);
}

bool today_hay_first(const struct run_animal *a)
{
    return a->group->rules.species != SPECIES_EQUID || a->advice.turnout == TURNOUT_BRIEF;
}

void today_say_turnout(const struct today_view *v, const struct run_animal *a, const struct today_to *to)
{
    const struct advice *x = &a->advice;
    char line[2 * LIMIT_TEXT], hours[32], window[TODAY_WINDOW_TOLD];
    switch (x->turnout) {
    case TURNOUT_FREE:
        to->say(to, "", "FREE: no limit for sugar's sake today.");
        return;
    case TURNOUT_NONE:
        to->say(to, "", "NONE: keep off grass today, hay instead.");
        return;
    default:
        snprintf(line, sizeof line, "%s: %s on grass, %s%s%s%s.", x->turnout == TURNOUT_TIMED ? "TIMED" : "BRIEF",
                 units_hours(x->hours, hours, sizeof hours), today_window_told(v, x, window),
                 x->muzzle ? ", with a grazing muzzle" : "", today_hay_first(a) ? ", hay first" : "",
                 a->input.back.after_signs ? ", only if your vet agrees" : "");
        to->say(to, "", line);
    }
}

/* Hours are no promise that the mouth is filled. Where hay would fill it that nobody weighs out, it is full. */
void today_say_lacking(const struct today_view *v, const struct run_animal *a, const struct today_to *to)
{
    const struct ration *r = &a->advice.ration;
    char line[2 * LIMIT_TEXT], kg[UNITS_TEXT], area[UNITS_TEXT];
    if (r->lacking_dm_kg < LITTLE_KG || today_hay_kg(&a->advice) == 0.0) {
        return;
    }
    snprintf(line, sizeof line,
             "too little for its animals on %s: %s%s of dry matter a head and day; hay is counted for the rest. Is the "
             "paddock larger? Correct its area: \"sugarlea setup\". The grass taller? Write its height down: "
             "\"sugarlea help record\".",
             units_text(v->units, AMOUNT_AREA, v->holding->paddock[a->group->paddock].area_ha, UNITS_SHORT, area),
             r->grass_dm_kg < LITTLE_KG ? "under " : "about ",
             units_text(v->units, AMOUNT_MASS, fmax(r->grass_dm_kg, 0.1), 1, kg));
    to->say(to, "Grass", line);
}

const char *today_hay_told(const struct today_view *v, const struct run_animal *a, char *text)
{
    const struct hay_lot *lot = run_hay_of(v->holding, a->group);
    const char *apart = hay_lot_apart(lot);
    bool soaked = !isnan(lot->soaked_h); /* its dry matter is always that of dry hay */
    char kg[UNITS_TEXT];
    text[0] = 0;
    if (today_hay_kg(&a->advice) > 0.0) {
        snprintf(text, TODAY_HAY_TOLD, "%s a head for the day%s: %s%s%s%s",
                 units_text(v->units, AMOUNT_MASS, a->advice.hay_kg, 1, kg), soaked ? ", weighed dry" : "",
                 lot->feed->name, apart[0] ? ", lot " : "", apart, soaked ? ", soaked" : "");
    }
    return text;
}

void today_say_hay(const struct today_view *v, const struct run_animal *a, const struct today_to *to)
{
    const struct advice *x = &a->advice;
    char line[4 * LIMIT_TEXT], told[TODAY_HAY_TOLD], esc[LIMIT_TEXT];
    if (!today_hay_told(v, a, told)[0]) {
        to->say(to, "Hay", "none needed beside the grass; have some in reach all the same.");
        return;
    }
    const char *teeth = advice_teeth_text(&a->input);
    advice_esc_text(x->hay_esc_pct, x->hay_nsc_pct, esc, sizeof esc);
    snprintf(line, sizeof line, "%s%s%s%s%s", told,
             esc[0]            ? ". "
             : x->hay_analysed ? " (analysed)."
                               : " (not analysed: a table value stands for it).",
             esc, teeth[0] ? " " : "", teeth);
    to->say(to, "Hay", line);
}

void today_say_limits(const struct run_animal *a, const struct today_to *to)
{
    const struct animal_class *rules = &a->group->rules;
    char line[LIMIT_TEXT], hours[32], part[GROUP_LIMITS][96];
    const char *between = ": ";
    if (!a->group->limits_set) {
        return;
    }
    snprintf(part[GROUP_CAUTION], sizeof part[0], "%g %% sugar and starch", rules->nsc_caution_pct);
    snprintf(part[GROUP_STOP], sizeof part[0], "%g %% for an hour", rules->nsc_stop_pct);
    snprintf(part[GROUP_LEVEL], sizeof part[0], "grass judged on the level it stays under %g times in 100",
             100.0 * rules->level_probability);
    snprintf(part[GROUP_HOURS], sizeof part[0], "%s on grass at most",
             units_hours(rules->max_hours, hours, sizeof hours));
    size_t used = (size_t)snprintf(line, sizeof line, "set in the holding file for your vet");
    for (int i = 0; i < GROUP_LIMITS; i++) {
        if (a->group->limits_set >> i & 1u) {
            used += (size_t)snprintf(line + used, sizeof line - used, "%s%s", between, part[i]);
            between = "; ";
        }
    }
    snprintf(line + used, sizeof line - used, ".");
    to->say(to, "Limits", line);
}

const char *today_frost_told(const struct today_day *day)
{
    return day->air_frost      ? "let the grass thaw, and look at it, before any animal goes out."
           : day->ground_frost ? "likely on the grass this morning: look, and let it thaw first."
                               : "";
}

/* What a group kept off grass for the day is given, kg a head as fed. */
static double hay_without_grass(const struct today_view *v, const struct run_animal *a)
{
    const struct run *r = v->day->run;
    struct advice_animal off = a->input;
    struct advice without;
    off.rested = true;
    advise_plainly(&r->tables, &a->grass, &off, &r->params->limits, &without);
    return without.hay_kg;
}

/* White grass keeps animals waiting, and never longer out: the hours end as advised. */
const char *today_frost_text(const struct today_view *v, const struct run_animal *a, char *text)
{
    const struct today_day *day = v->day;
    const struct advice *x = &a->advice;
    char thaw[6], from[6], to[6], kg[UNITS_TEXT];
    enum { LEAST_MIN = 15 }; /* on grass after the thaw: less is not worth the way */
    bool never = isnan(day->thaw_h), round = !has_window(x) || today_over_midnight(v, x);
    text[0] = 0;
    if (x->turnout == TURNOUT_NONE || !(day->air_frost || day->ground_frost)) {
        return text;
    }
    units_text(v->units, AMOUNT_MASS, hay_without_grass(v, a), 1, kg);
    today_clock(v, never ? 0.0 : day->thaw_h, thaw);
    if (round && never) {
        snprintf(text, TODAY_FROST_TEXT,
                 "white grass will hardly thaw today: until it does, hay: %s a head in all for a whole day.", kg);
    } else if (round) {
        snprintf(text, TODAY_FROST_TEXT, "if the grass is white, keep who is in until it has thawed, about %s.", thaw);
    } else if (!never && day->thaw_h <= x->from_h) {
        snprintf(text, TODAY_FROST_TEXT, "it should have thawed by %s; look.", today_clock(v, x->from_h, from));
    } else if (!never && day->thaw_h <= x->from_h + x->hours - LEAST_MIN / 60.0) {
        snprintf(text, TODAY_FROST_TEXT,
                 "if the grass is white at %s, wait for the thaw, about %s, and still bring them in at %s.",
                 today_clock(v, x->from_h, from), thaw, today_clock_end(v, x, to));
    } else {
        snprintf(text, TODAY_FROST_TEXT,
                 "if the grass is white at %s, no grass today: %s of hay a head in all. It hardly thaws %s%s.",
                 today_clock(v, x->from_h, from), kg, never ? "today" : "before ", never ? "" : thaw);
    }
    return text;
}

void today_say_frost(const struct today_view *v, const struct run_animal *a, const struct today_to *to)
{
    char text[TODAY_FROST_TEXT];
    if (today_frost_text(v, a, text)[0]) {
        to->say(to, "Frost", text);
    }
}

void today_say_ration(const struct today_view *v, const struct run_animal *a, const struct today_to *to)
{
    struct account ration;
    ration_account(v, a, &ration);
    ration_lines(&ration, v->units, to);
}

void today_say_what_if(const struct today_view *v, const struct run_animal *a, const struct today_to *to)
{
    static const char lead[] = "Would change it";
    struct advice_what_if w;
    char line[LIMIT_TEXT], hours[32];
    advise_what_if(&a->grass, v->day->run->paddock[a->group->paddock].tested_ln_sd, &a->input,
                   &v->day->run->params->limits, &w);
    if (w.hours_tested_grass > a->advice.hours + 0.25) {
        snprintf(line, sizeof line, "a grass test that confirmed the estimate: %s.",
                 units_hours(w.hours_tested_grass, hours, sizeof hours));
        to->say(to, lead, line);
    }
    if (w.hours_better_hay > a->advice.hours + 0.25) {
        snprintf(line, sizeof line, "hay tested at %g %% sugar and starch%s: %s.",
                 v->day->run->params->limits.better_hay_nsc_pct, isnan(a->advice.hay_esc_pct) ? "" : " (WSC + starch)",
                 units_hours(w.hours_better_hay, hours, sizeof hours));
        to->say(to, lead, line);
    }
    if (!a->advice.muzzle && w.hours_muzzled > a->advice.hours + 0.25) {
        snprintf(line, sizeof line, "a grazing muzzle that fits: %s.",
                 units_hours(w.hours_muzzled, hours, sizeof hours));
        to->say(to, lead, line);
    }
}

void today_say_reasons(const struct run_animal *a, const struct today_to *to)
{
    char text[512];
    for (int r = 0; r < REASON_COUNT; r++) {
        if (advice_has(&a->advice, (enum advice_reason)r)) {
            to->say(to, "", advice_reason_text((enum advice_reason)r, &a->advice, &a->input, text, sizeof text));
        }
    }
}

static size_t add_once(const char *text, const char *said[TODAY_CAUTIONS], size_t n)
{
    size_t k = 0;
    while (k < n && said[k] != text) {
        k++;
    }
    if (k == n && n < TODAY_CAUTIONS) {
        said[n++] = text;
    }
    return n;
}

const char *today_first_caution(const struct today_view *v)
{
    const char *first = "";
    if (v->day->run->animals > 0) {
        const struct run_animal *a = &v->day->run->animal[0];
        advice_cautions(&a->advice, &a->input, &first, 1);
    }
    return first;
}

size_t today_cautions(const struct today_view *v, const char *said[TODAY_CAUTIONS])
{
    const char *caution[ADVICE_CAUTIONS];
    size_t n_said = 0;
    for (size_t i = 0; i < v->day->run->animals; i++) {
        const struct run_animal *a = &v->day->run->animal[i];
        size_t n = advice_cautions(&a->advice, &a->input, caution, ADVICE_CAUTIONS);
        for (size_t k = CAUTIONS_FIRST; k < n; k++) {
            n_said = add_once(caution[k], said, n_said);
        }
    }
    return n_said;
}

static void say_drivers(const struct today_view *v, size_t index, const struct today_to *to)
{
    char line[LIMIT_TEXT], sugar[UNITS_TEXT];
    for (size_t k = 0; v->day->driver && k < DRIVERS; k++) {
        const struct driver *d = &v->day->driver[index * DRIVERS + k];
        if (fabs(d->effect) >= DRIVER_LEAST) {
            snprintf(line, sizeof line, "%s, %s%s %s than usual weather would give.", d->phrase,
                     units_text(v->units, AMOUNT_SUGAR, fabs(d->effect), 0, sugar),
                     v->units == SHOW_US ? " of dry matter" : "", d->effect < 0.0 ? "less" : "more");
            to->say(to, "Last days", line);
        }
    }
}

/* What makes the figure less than it seems. */
static void say_doubts(const struct today_view *v, const struct run_paddock *k, const struct today_to *to)
{
    const struct advice_limits *l = &v->day->run->params->limits;
    double surplus = sward_short_surplus(&k->sward);
    char line[LIMIT_TEXT], sugar[UNITS_TEXT];
    if (sward_green_kg_ha(&k->sward) < l->low_green_kg_ha) {
        to->say(to, "Doubt", "so little is green that its sugar figure means little.");
    }
    if (k->sward.days_since_kill < l->killing_frost_days) {
        snprintf(line, sizeof line, "grass killed by the hard frost may still hold up to %s.",
                 units_text(v->units, AMOUNT_SUGAR, k->level * k->sward.killed_nsc, 0, sugar));
        to->say(to, "Doubt", line);
    }
    if (surplus >= SURPLUS_LEAST) {
        snprintf(line, sizeof line, "the short stubble of a rested sward may hold %.0f %% more than that.",
                 100.0 * surplus);
        to->say(to, "Doubt", line);
    }
}

void today_say_paddock(const struct today_view *v, size_t paddock, const struct today_to *to)
{
    const struct run_paddock *k = &v->day->run->paddock[paddock];
    const struct sward_result *r = &k->expected;
    enum units u = v->units;
    char line[LIMIT_TEXT + 160], sugar[5][UNITS_TEXT], growth[UNITS_TEXT], green[UNITS_TEXT];
    double low, high;
    run_band(r->nsc_mean, k->ln_sd, &low, &high);
    const double level[] = {run_dawn_nsc(k, r), r->nsc_max, r->nsc_mean, low, high};
    for (size_t i = 0; i < sizeof level / sizeof level[0]; i++) {
        units_number(u, AMOUNT_SUGAR, level[i], 0, sugar[i]);
    }
    snprintf(line, sizeof line, "%s at dawn, %s at the highest, %s over the day (8 in 10: %s to %s).", sugar[0],
             sugar[1], sugar[2], sugar[3], sugar[4]);
    to->say(to, "Estimate", line);
    snprintf(line, sizeof line, "growing %s of dry matter %s and day; %s green; soil water %.0f %%%s.",
             units_text(u, AMOUNT_MASS_OF_LAND, r->growth, 0, growth), units_land(u),
             units_text(u, AMOUNT_MASS_OF_LAND, sward_green_kg_ha(&k->sward), 0, green), 100.0 * r->water,
             v->day->air_frost      ? "; frost"
             : v->day->ground_frost ? "; ground frost is likely"
                                    : "");
    to->say(to, "Grass", line);
    if (k->kept->tuned.tests > 0) {
        to->say(to, "Tuned", tune_level_text(&k->kept->tuned, &v->day->run->params->tune, line, sizeof line));
    }
    say_doubts(v, k, to);
    say_drivers(v, paddock, to);
}
