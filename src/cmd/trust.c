/* Ages and doubts of the weather, in words. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/trust.h"

#include "cmd/amiss.h"
#include "cmd/morning.h"
#include "cmd/tuned.h"
#include "data/holding_read.h"
#include "out/signs.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define LATITUDE_CHECKED 57.2 /* Aberdeen, the northernmost of the growth trials */

enum {
    DOUBTS_SAID = 3, /* one by one; more are counted */
    WARNINGS_FIRST = 16
};

static const char *plural(size_t n)
{
    return n == 1 ? "" : "s";
}

static bool make_room(struct context *c, struct today_view *v)
{
    size_t room = v->warning_room ? 2 * v->warning_room : WARNINGS_FIRST;
    const char **grown = arena_alloc(&c->arena, room, sizeof *grown);
    if (!grown) {
        return false;
    }
    if (v->warnings) {
        memcpy(grown, v->warning, v->warnings * sizeof *grown);
    }
    v->warning = grown;
    v->warning_room = room;
    return true;
}

void trust_warn(struct context *c, struct today_view *v, const char *format, ...)
{
    char text[TODAY_WARNING_TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    if (v->warnings == v->warning_room && !make_room(c, v)) {
        return;
    }
    const char *kept = arena_strdup(&c->arena, text);
    v->warning[v->warnings] = kept;
    v->warnings += kept != NULL;
}

/* What stands in for the days that nothing was recorded on. */
static void name_stand_ins(struct context *c, date_t date, struct today_view *v)
{
    enum { FORECAST, FILLED, LIKENESS, STAND_INS };
    static const char *const by[STAND_INS] = {"the forecast", "values between record and forecast",
                                              "likeness to the days before"};
    int days[STAND_INS] = {0};
    char last[DATE_TEXT], text[LIMIT_TEXT] = "";
    size_t n = 0;
    for (date_t d = v->recorded_to + 1; d < date; d++) {
        size_t i = (size_t)(d - c->weather.day0);
        uint8_t origin = i < c->weather.n ? c->weather.origin[i] : (uint8_t)ORIGIN_ASSUMED;
        days[origin == ORIGIN_FORECAST ? FORECAST : origin == ORIGIN_ASSUMED ? LIKENESS : FILLED]++;
    }
    for (int k = 0; k < STAND_INS; k++) {
        n += days[k] ? (size_t)snprintf(text + n, sizeof text - n, "%s%s (%d)", n ? ", " : "", by[k], days[k]) : 0;
    }
    trust_warn(c, v, "%sthe weather was recorded to %s; for the %d day%s since stands: %s.",
               v->provisional ? "Provisional: " : "", date_format(v->recorded_to, last), v->age_days,
               v->age_days == 1 ? "" : "s", text);
}

/* Rain and radiation may lag behind the temperatures, and are estimated then. */
static void name_late(struct context *c, date_t date, struct today_view *v)
{
    static const struct {
        enum weather_var var;
        const char *name, *stand_in;
    } row[] = {{WEATHER_RAIN, "rain", "count by what is usual or forecast"},
               {WEATHER_RAD, "radiation", "are estimated from the temperatures"}};
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        char last[DATE_TEXT];
        date_t to = c->recorded_to[row[k].var];
        if (to != DATE_NONE && to < v->recorded_to && date - 1 - to >= c->params.limits.stale_notice_days) {
            trust_warn(c, v, "%s was recorded to %s only; the days since %s.", row[k].name, date_format(to, last),
                       row[k].stand_in);
        }
    }
    for (int k = 0; k < WEATHER_VARS; k++) {
        v->variable_to[k] = c->recorded_to[k] < date ? c->recorded_to[k] : date - 1;
    }
}

enum err_code trust_age(struct context *c, const struct options *o, date_t date, struct today_view *v, struct err *e)
{
    const struct advice_limits *l = &c->params.limits;
    char first[DATE_TEXT], last[DATE_TEXT];
    date_t day0 = c->weather.day0;
    if (c->report.recorded_to == DATE_NONE) {
        return err_set(
            e, ERR_NOINPUT,
            "the weather is forecast only, and the grass remembers months: add recorded weather of the place");
    }
    if (date < day0 + MORNING_DAYS_BEFORE) {
        return err_set(e, ERR_NOINPUT, "the weather begins on %s; an advice needs at least %d days before its morning",
                       date_format(day0, first), MORNING_DAYS_BEFORE);
    }
    if (c->report.doubtful_rad_days > c->params.quality.impossible_sun * (double)c->weather.n) {
        err_set(e, ERR_CONFIG,
                "on %zu of %zu days more sun was recorded than reaches this latitude (%g): south of the equator it is "
                "negative, north positive",
                c->report.doubtful_rad_days, c->weather.n, c->holding.site.latitude);
        return err_at(e, c->holding.path[0] ? c->holding.path : NULL, 0, 0,
                      c->holding.path[0] ? "site.latitude" : "--latitude");
    }
    v->recorded_to = c->report.recorded_to < date ? c->report.recorded_to : date - 1;
    v->forecast_to = c->report.forecast_to;
    v->age_days = date - 1 - v->recorded_to > 0 ? date - 1 - v->recorded_to : 0;
    v->provisional = v->age_days > l->stale_provisional_days;
    if (v->age_days > l->stale_refuse_days && !o->allow_stale) {
        return err_set(e, ERR_NOINPUT,
                       "the weather ends on %s, %d days before the morning asked for: no advice is given on weather "
                       "older than %g days; bring the file up to date, or say --allow-stale",
                       date_format(v->recorded_to, last), v->age_days + 1, l->stale_refuse_days);
    }
    if (v->age_days >= l->stale_notice_days) {
        name_stand_ins(c, date, v);
    }
    name_late(c, date, v);
    return ERR_OK;
}

/* What a call without a holding file left open. */
static void name_defaults(struct context *c, const struct options *o, struct today_view *v)
{
    const struct paddock *p = &c->holding.paddock[0];
    char text[LIMIT_TEXT] = "", kg[UNITS_TEXT];
    size_t n = 0;
    if (c->place_from_file) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", the place that the weather file names");
    }
    if (!o->grass) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", grass %s", p->grass[0]->id);
    }
    if (!o->soil) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", soil %s", p->soil->id);
    }
    if (!o->nitrogen) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", nitrogen %s", p->nitrogen_id);
    }
    if (isnan(o->cover)) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", kept at %s of dry matter %s",
                              units_text(v->units, AMOUNT_MASS_OF_LAND, p->kept.cover_kg_ha, 0, kg),
                              units_land(v->units));
    }
    if (isnan(o->weight) && c->holding.animals) {
        snprintf(text + n, sizeof text - n, ", %s an animal",
                 units_text(v->units, AMOUNT_MASS, c->holding.animal[0].weight_kg, 0, kg));
    }
    if (text[0]) {
        trust_warn(c, v, "assumed, as you did not say: %s.", text + 2);
    }
}

/* Could the hours be others if the doubt is right? */
static bool weighs(const struct doubt *d, const struct quality_limits *l)
{
    bool apart = d->kind == DOUBT_STEP || d->kind == DOUBT_UNUSUAL;
    bool warmth = d->var == WEATHER_TMIN || d->var == WEATHER_TMAX;
    return !apart || !warmth || !(fabs(d->value - d->other) < l->doubt_say_c);
}

/* The doubts of the last days one by one, older ones by their number. */
static void name_quality(struct context *c, date_t date, struct today_view *v)
{
    const struct quality *q = &c->quality;
    char text[LIMIT_TEXT];
    size_t said = 0;
    for (size_t i = q->n; i > 0 && said < DOUBTS_SAID; i--) { /* one that spans the whole record stands first */
        const struct doubt *d = &q->doubt[i - 1];
        if (date - d->last <= c->params.quality.doubt_days && weighs(d, &c->params.quality)) {
            trust_warn(c, v, "%s", quality_text(d, v->units, text, sizeof text));
            said++;
        }
    }
    if (said && q->total > said) {
        size_t more = q->total - said;
        trust_warn(c, v, "%zu other doubt%s about the weather: \"sugarlea weather\" lists %s.", more, plural(more),
                   more == 1 ? "it" : "them");
    }
}

static void add_credit(struct today_view *v, const char *credit)
{
    for (size_t i = 0; i < v->credits; i++) {
        if (strcmp(v->credit[i], credit) == 0) {
            return;
        }
    }
    if (v->credits < TODAY_CREDITS) {
        v->credit[v->credits++] = credit;
    }
}

static void name_sources(struct context *c, struct today_view *v)
{
    for (size_t i = 0; i < c->sources.n; i++) {
        const struct source_read *s = &c->sources.source[i];
        char text[LIMIT_TEXT];
        if (s->trouble[0]) {
            trust_warn(c, v, "%s", s->trouble);
        }
        if (s->note[0]) {
            trust_warn(c, v, "%s: %s", s->name, s->note);
        }
        if (s->credit[0]) {
            add_credit(v, s->credit);
        }
        if (sources_place_doubt(s, &c->holding.site, &c->params.limits, v->units, text, sizeof text)) {
            trust_warn(c, v, "%s: %s.", s->name, text);
        }
    }
}

const struct diary_entry *trust_insulin(const struct context *c, size_t group)
{
    const struct diary_entry *d = diary_latest(c->diary.entry, c->known, DIARY_INSULIN, group);
    return d && c->until - d->date <= c->params.limits.insulin_days ? d : NULL;
}

static const char numbers_move[] = ", if this lot is the one that was tested: lots are numbered as they stand, and an "
                                   "\"id\" in its entry under \"stock\" names it for good";

/* What no holding file takes must not be told to be written into one. */
static bool is_slip(struct context *c, struct today_view *v, const struct hay_lot *lot, const struct diary_entry *test)
{
    double least = c->params.limits.hay_nsc_least_pct;
    char date[DATE_TEXT];
    if (test->value >= least && test->value <= HOLDING_HAY_NSC_HIGH) {
        return false;
    }
    trust_warn(
        c, v,
        "line %zu of diary.csv: hay-test %.4g %% of %s (%s) looks like a slip and is passed over: hay holds %g to "
        "%g %% sugar and starch of dry matter; mend the line.",
        test->line, test->value, lot->id, date_format(test->date, date), least, HOLDING_HAY_NSC_HIGH);
    return true;
}

/* Tests that the advice does not reckon with by itself must not lie forgotten. */
static void name_tests(struct context *c, struct today_view *v)
{
    char date[DATE_TEXT];
    for (size_t i = 0; i < c->holding.lots; i++) {
        const struct hay_lot *lot = &c->holding.lot[i];
        const struct diary_entry *d = diary_latest(c->diary.entry, c->known, DIARY_HAY_TEST, i);
        if (d && !is_slip(c, v, lot, d) && !(fabs(d->value - lot->nsc_pct) < c->params.limits.hay_test_same_pct)) {
            trust_warn(c, v,
                       "the diary has a hay test of %s: %s %.1f %% sugar and starch. The advice still reckons with %s: "
                       "write nsc_percent %.1f into the holding file%s.",
                       date_format(d->date, date), lot->id, d->value,
                       isnan(lot->nsc_pct) ? "a table's average" : "another figure", d->value,
                       lot->numbered ? numbers_move : "");
        }
    }
    for (size_t i = 0; i < c->holding.animals; i++) {
        const struct diary_entry *d = trust_insulin(c, i);
        if (d) {
            trust_warn(c, v, "insulin of %s on %s: %g. The advice does not judge it: ask your vet before any grass.",
                       c->holding.animal[i].id, date_format(d->date, date), d->value);
        }
    }
}

static void name_straw(struct context *c, struct today_view *v)
{
    for (size_t i = 0; i < c->holding.animals; i++) {
        if (run_hay_of(&c->holding, &c->holding.animal[i])->feed->is_straw) {
            trust_warn(c, v,
                       "there is no hay in the holding file but straw. Straw fills and hardly feeds: buy hay, and ask "
                       "your vet before anything lives on straw.");
            return;
        }
    }
}

enum err_code trust_diary(struct context *c, struct today_view *v, struct err *e)
{
    char text[TODAY_WARNING_TEXT];
    enum err_code code = amiss_say(c, v, e);
    name_straw(c, v);
    name_tests(c, v);
    for (size_t i = 0; signs_resting(v, i, text, sizeof text); i++) {
        trust_warn(c, v, "%s", text);
    }
    return code;
}

void trust_doubts(struct context *c, const struct options *o, date_t date, struct today_view *v)
{
    const struct weather_report *r = &c->report;
    size_t days = (size_t)(date - c->weather.day0);
    v->filled_days = r->filled_days;
    if ((double)days < c->params.limits.min_days) {
        trust_warn(c, v,
                   "only %zu days of weather come before this morning (%g are wanted): the estimate is less sure.",
                   days, c->params.limits.min_days);
    }
    if (r->filled_days || r->missing_days) {
        trust_warn(c, v, "%zu day%s filled in across short gaps, %zu by the usual weather of %s season.",
                   r->filled_days, r->filled_days == 1 ? " was" : "s were", r->missing_days,
                   r->missing_days == 1 ? "its" : "their");
    }
    if (r->rain_days) {
        char rain[UNITS_TEXT], sd[UNITS_TEXT];
        trust_warn(c, v, "the rain of %zu day%s of the last year is an estimate: %s, give or take %s.", r->rain_days,
                   plural(r->rain_days), units_text(v->units, AMOUNT_RAIN, r->rain_mm, 0, rain),
                   units_number(v->units, AMOUNT_RAIN, r->rain_sd_mm, 0, sd));
    }
    if (r->estimated_rad_days) {
        trust_warn(c, v, "on %zu day%s the sun's radiation was estimated from the temperatures.", r->estimated_rad_days,
                   plural(r->estimated_rad_days));
    }
    name_quality(c, date, v);
    name_sources(c, v);
    tuned_doubts(c, v);
    if (fabs(c->holding.site.latitude) > LATITUDE_CHECKED) {
        trust_warn(c, v,
                   "the growth of the grass has been checked against measurements up to %.0f degrees of latitude only.",
                   LATITUDE_CHECKED);
    }
    if (c->holding.animals == 0) {
        trust_warn(c, v, "no animal was named: only the grass is shown. Add --animal CLASS.");
    }
    if (!c->holding.path[0]) {
        name_defaults(c, o, v);
    }
}

const char *trust_credit_line(struct context *c)
{
    struct today_view v = {0};
    struct buf b;
    for (size_t i = 0; i < c->sources.n; i++) {
        if (c->sources.source[i].credit[0]) {
            add_credit(&v, c->sources.source[i].credit);
        }
    }
    buf_init(&b);
    for (size_t i = 0; i < v.credits; i++) {
        buf_addf(&b, "%s%s", i ? "; " : "Weather: ", v.credit[i]);
    }
    const char *line = arena_strdup(&c->arena, b.text);
    buf_release(&b);
    return line ? line : "";
}

void trust_credit_text(struct context *c, const struct page *page)
{
    const char *line = trust_credit_line(c);
    if (line[0]) {
        text_wrap(page, "", line);
    }
}
