/* The morning advice for people: what to do first, then why.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/ration.h"
#include "out/signs.h"
#include "out/tune.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define SURPLUS_LEAST 0.02 /* share worth a word */
#define HAY_LEAST 0.05     /* kg: less reads as nothing */

enum { DRIVER_LEAST = 5, CAUTIONS_FIRST = 3 }; /* g/kg worth a word; cautions that stand for all */

struct sheet {
    const struct today_view *v;
    struct page page;
};

static void heading(const struct sheet *p)
{
    char day[64], line[LIMIT_TEXT + 80], date[DATE_TEXT];
    const struct today_view *v = p->v;
    snprintf(line, sizeof line, "%s%s%s", date_format_long(v->day->date, day, sizeof day),
             v->holding->name[0] ? "  " : "", v->holding->name);
    text_bold(&p->page, line);
    buf_add_char(p->page.b, '\n');
    snprintf(line, sizeof line, "Weather recorded to %s%s. Clock: %s.", date_format(v->recorded_to, date),
             v->day->assumed ? "; today's own weather is assumed to be like the last three days" : "",
             v->solar ? "by the sun (12:00 is when it stands highest)" : v->holding->site.timezone);
    text_wrap(&p->page, "", line);
    for (size_t i = 0; i < v->warnings; i++) {
        text_wrap(&p->page, "Note: ", v->warning[i]);
    }
}

bool today_hay_first(const struct run_animal *a)
{
    return a->group->rules.species != SPECIES_EQUID || a->advice.turnout == TURNOUT_BRIEF;
}

const char *today_frost_text(const struct today_view *v, const struct run_animal *a)
{
    if (a->advice.turnout == TURNOUT_NONE || !(v->day->air_frost || v->day->ground_frost)) {
        return "";
    }
    return v->day->air_frost ? "let the grass thaw, and look at it, before any animal goes out."
                             : "likely on the grass this morning: look, and let it thaw first.";
}

/* What to do, in one sentence. */
static void action(const struct sheet *p, const struct run_animal *a)
{
    const struct advice *x = &a->advice;
    char line[2 * LIMIT_TEXT], hours[32], from[6], to[6], kg[UNITS_TEXT];
    switch (x->turnout) {
    case TURNOUT_FREE:
        snprintf(line, sizeof line, "FREE: no limit for sugar's sake today.");
        break;
    case TURNOUT_NONE:
        snprintf(line, sizeof line, "NONE: keep off grass today, hay instead.");
        break;
    default:
        snprintf(line, sizeof line, "%s: %s on grass, from %s to %s%s%s%s.",
                 x->turnout == TURNOUT_TIMED ? "TIMED" : "BRIEF", text_hours(x->hours, hours, sizeof hours),
                 today_clock(p->v, x->from_h, from), today_clock_end(p->v, x, to),
                 x->muzzle ? ", with a grazing muzzle" : "", today_hay_first(a) ? ", hay first" : "",
                 a->input.back.after_signs ? ", only if your vet agrees" : "");
    }
    text_bold(&p->page, "  ");
    text_bold(&p->page, line);
    buf_add_char(p->page.b, '\n');
    if (today_frost_text(p->v, a)[0]) {
        text_wrap(&p->page, "  Frost: ", today_frost_text(p->v, a));
    }
    if (x->hay_kg < HAY_LEAST) {
        text_wrap(&p->page, "  Hay: ", "none needed beside the grass; have some in reach all the same.");
        return;
    }
    snprintf(line, sizeof line, "%s a head for the day: %s (%s).",
             units_text(p->v->units, AMOUNT_MASS, x->hay_kg, 1, kg), a->input.hay->name,
             x->hay_analysed ? "analysed" : "not analysed: a table value stands for it");
    text_wrap(&p->page, "  Hay: ", line);
}

static void reasons(const struct sheet *p, const struct run_animal *a)
{
    struct account ration;
    char text[512];
    for (int r = 0; r < REASON_COUNT; r++) {
        if (advice_has(&a->advice, (enum advice_reason)r)) {
            text_wrap(&p->page, "  - ",
                      advice_reason_text((enum advice_reason)r, &a->advice, &a->input, text, sizeof text));
        }
    }
    ration_account(p->v, a, &ration);
    ration_lines(&p->page, &ration, p->v->units);
}

/* What would change the advice, where it would. */
static void what_if(const struct sheet *p, const struct run_animal *a)
{
    struct advice_what_if w;
    char line[LIMIT_TEXT], hours[32];
    advise_what_if(&a->grass, &a->input, &p->v->day->run->params->limits, &w);
    if (w.hours_tested_grass > a->advice.hours + 0.25) {
        snprintf(line, sizeof line, "a grass test that confirmed the estimate: %s.",
                 text_hours(w.hours_tested_grass, hours, sizeof hours));
        text_wrap(&p->page, "  - Would change it: ", line);
    }
    if (w.hours_better_hay > a->advice.hours + 0.25) {
        snprintf(line, sizeof line, "hay tested at %g %% sugar and starch: %s.",
                 p->v->day->run->params->limits.better_hay_nsc_pct,
                 text_hours(w.hours_better_hay, hours, sizeof hours));
        text_wrap(&p->page, "  - Would change it: ", line);
    }
}

/* The list to act on: every group's turnout and hay, before any reason. */
static void group_action(const struct sheet *p, const struct run_animal *a)
{
    char kg[UNITS_TEXT];
    buf_addf(p->page.b, "\n%s: %d x %s, %s, on %s\n", a->group->id, a->group->count, a->group->class_id,
             units_text(p->v->units, AMOUNT_MASS, a->group->weight_kg, 0, kg),
             p->v->holding->paddock[a->group->paddock].id);
    action(p, a);
    signs_text(&p->page, p->v, a);
}

/* Of those who show foot signs, or of the others. */
static void actions(const struct sheet *p, bool sore)
{
    for (size_t i = 0; i < p->v->day->run->animals; i++) {
        const struct run_animal *a = &p->v->day->run->animal[i];
        if ((a->seen.words != 0) == sore) {
            group_action(p, a);
        }
    }
}

static void group_reasons(const struct sheet *p, const struct run_animal *a)
{
    buf_addf(p->page.b, "\nWhy, for %s:\n", a->group->id);
    reasons(p, a);
    what_if(p, a);
}

static void ahead_row(const struct sheet *p, const struct today_view *day, const struct run_animal *a)
{
    const struct advice *x = &a->advice;
    const struct sward_result *grass = &day->day->run->paddock[a->group->paddock].expected;
    char date[16], hours[32] = "", from[6], to[6], window[32] = "", sugar[UNITS_TEXT];
    if (x->turnout == TURNOUT_TIMED || x->turnout == TURNOUT_BRIEF) {
        text_hours(x->hours, hours, sizeof hours);
        snprintf(window, sizeof window, "%s to %s", today_clock(day, x->from_h, from), today_clock_end(day, x, to));
    }
    double hay_kg = x->hay_kg < HAY_LEAST ? 0.0 : x->hay_kg;
    buf_addf(p->page.b, "  %-10s  %-5s  %-11s  %-14s  %4.1f  %5s%s%s\n",
             date_format_short(day->day->date, date, sizeof date), turnout_name(x->turnout), hours, window,
             units_value(day->units, AMOUNT_MASS, hay_kg),
             units_number(day->units, AMOUNT_SUGAR, grass->nsc_mean, 0, sugar), x->muzzle ? "  muzzle" : "",
             day->day->air_frost      ? "  frost"
             : day->day->ground_frost ? "  ground frost"
                                      : "");
}

/* The mornings ahead, a table for each group. */
static void ahead(const struct sheet *p)
{
    struct today_view day = *p->v;
    for (size_t i = 0; i < p->v->day->run->animals && p->v->days > 1; i++) {
        buf_addf(p->page.b, "\nThe days ahead by the forecast, for %s (hay in %s a head, sugar of the grass in %s):\n",
                 p->v->day->run->animal[i].group->id, units_name(p->v->units, AMOUNT_MASS),
                 units_name(p->v->units, AMOUNT_SUGAR));
        buf_addf(p->page.b, "  %-10s  %-5s  %-11s  %-14s  %4s  %5s\n", "", "", "on grass", "", "hay", "sugar");
        for (size_t k = 1; k < p->v->days; k++) {
            day.day = &p->v->day[k];
            ahead_row(p, &day, &day.day->run->animal[i]);
        }
    }
    if (p->v->days > 1) {
        text_wrap(&p->page, "  ", "Look again each morning: a forecast is surer of tomorrow than of next week.");
    }
}

/* Every caution that any group needs, once; the first three stand at the end. */
static void cautions(const struct sheet *p)
{
    const char *said[ADVICE_CAUTIONS * 2], *caution[ADVICE_CAUTIONS];
    size_t n_said = 0;
    for (size_t i = 0; i < p->v->day->run->animals; i++) {
        const struct run_animal *a = &p->v->day->run->animal[i];
        size_t n = advice_cautions(&a->advice, &a->input, caution, ADVICE_CAUTIONS);
        for (size_t k = CAUTIONS_FIRST; k < n; k++) {
            size_t j = 0;
            while (j < n_said && said[j] != caution[k]) {
                j++;
            }
            if (j == n_said && n_said < sizeof said / sizeof said[0]) {
                said[n_said++] = caution[k];
                text_wrap(&p->page, n_said == 1 ? "\nMind: " : "      ", caution[k]);
            }
        }
    }
}

static void drivers(const struct sheet *p, size_t index)
{
    char line[LIMIT_TEXT], sugar[UNITS_TEXT];
    for (size_t k = 0; p->v->day->driver && k < DRIVERS; k++) {
        const struct driver *d = &p->v->day->driver[index * DRIVERS + k];
        if (fabs(d->effect) >= DRIVER_LEAST) {
            snprintf(line, sizeof line, "%s, %s%s %s than usual weather would give.", d->phrase,
                     units_text(p->v->units, AMOUNT_SUGAR, fabs(d->effect), 0, sugar),
                     p->v->units == SHOW_US ? " of dry matter" : "", d->effect < 0.0 ? "less" : "more");
            text_wrap(&p->page, "  Last days: ", line);
        }
    }
}

/* What makes the figure less than it seems. */
static void paddock_doubts(const struct sheet *p, const struct run_paddock *k)
{
    const struct advice_limits *l = &p->v->day->run->params->limits;
    double surplus = sward_short_surplus(&k->sward);
    char line[LIMIT_TEXT], sugar[UNITS_TEXT];
    if (sward_green_kg_ha(&k->sward) < l->low_green_kg_ha) {
        text_wrap(&p->page, "  Doubt: ", "so little is green that its sugar figure means little.");
    }
    if (k->sward.days_since_kill < l->killing_frost_days) {
        snprintf(line, sizeof line, "grass killed by the hard frost may still hold up to %s.",
                 units_text(p->v->units, AMOUNT_SUGAR, k->level * k->sward.killed_nsc, 0, sugar));
        text_wrap(&p->page, "  Doubt: ", line);
    }
    if (surplus >= SURPLUS_LEAST) {
        snprintf(line, sizeof line, "the short stubble of a rested sward may hold %.0f %% more than that.",
                 100.0 * surplus);
        text_wrap(&p->page, "  Doubt: ", line);
    }
}

static void paddock(const struct sheet *p, size_t index)
{
    const struct run_paddock *k = &p->v->day->run->paddock[index];
    const struct sward_result *r = &k->expected;
    enum units u = p->v->units;
    char line[LIMIT_TEXT + 160], sugar[5][UNITS_TEXT], growth[UNITS_TEXT], green[UNITS_TEXT];
    double low, high;
    run_band(r->nsc_mean, k->ln_sd, &low, &high);
    buf_addf(p->page.b, "\n%s: sugar and starch of the grass, %s\n", k->kept->id, units_of_dry_matter(u));
    const double level[] = {run_dawn_nsc(k, r), r->nsc_max, r->nsc_mean, low, high};
    for (size_t i = 0; i < sizeof level / sizeof level[0]; i++) {
        units_number(u, AMOUNT_SUGAR, level[i], 0, sugar[i]);
    }
    snprintf(line, sizeof line, "%s at dawn, %s at the highest, %s over the day (8 in 10: %s to %s).", sugar[0],
             sugar[1], sugar[2], sugar[3], sugar[4]);
    text_wrap(&p->page, "  Estimate: ", line);
    snprintf(line, sizeof line, "growing %s of dry matter %s and day; %s green; soil water %.0f %%%s.",
             units_text(u, AMOUNT_MASS_OF_LAND, r->growth, 0, growth), units_land(u),
             units_text(u, AMOUNT_MASS_OF_LAND, sward_green_kg_ha(&k->sward), 0, green), 100.0 * r->water,
             p->v->day->air_frost      ? "; frost"
             : p->v->day->ground_frost ? "; ground frost is likely"
                                       : "");
    text_wrap(&p->page, "  Grass: ", line);
    if (k->kept->tuned.tests > 0) {
        text_wrap(&p->page, "  Tuned: ", tune_level_text(&k->kept->tuned, line, sizeof line));
    }
    paddock_doubts(p, k);
    drivers(p, index);
}

static void closing(const struct sheet *p)
{
    buf_add_char(p->page.b, '\n');
    text_wrap(&p->page, "",
              "The estimate comes from weather, not from a test of your grass; its direction is surer than its level.");
    text_closing(&p->page);
    for (size_t i = 0; i < p->v->credits; i++) {
        text_wrap(&p->page, i ? "         " : "Weather: ", p->v->credit[i]);
    }
}

void today_text(const struct today_view *v, bool colour, int width, struct buf *b)
{
    const struct sheet p = {v, {b, width, colour}};
    heading(&p);
    actions(&p, true);
    actions(&p, false);
    ahead(&p);
    for (size_t i = 0; i < v->day->run->animals; i++) {
        group_reasons(&p, &v->day->run->animal[i]);
    }
    for (size_t i = 0; i < v->day->run->paddocks; i++) {
        paddock(&p, i);
    }
    cautions(&p);
    closing(&p);
}

void today_changes_text(const struct today_view *v, const char *changes, bool colour, int width, struct buf *b)
{
    const struct sheet p = {v, {b, width, colour}};
    buf_add(b, changes);
    buf_add_char(b, '\n');
    heading(&p);
    actions(&p, true);
    actions(&p, false);
    buf_add_char(b, '\n');
    text_wrap(&p.page, "", "\"sugarlea today\" says why.");
    closing(&p);
}
