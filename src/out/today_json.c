/* today --json (schema 1), --csv, and the advice log. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/json.h"
#include "out/ration.h"
#include "out/signs.h"

#include <math.h>
#include <stdio.h>

#define DRIVER_SAID 0.5 /* g/kg: a smaller effect is no reason */

int today_minutes(const struct today_view *v, double solar_h)
{
    return (int)lround((solar_h + v->day->clock_offset) * 6.0) * 10;
}

static char *write_clock(int minutes, char *text)
{
    minutes = (minutes % 1440 + 1440) % 1440;
    snprintf(text, 6, "%02d:%02d", minutes / 60 % 24, minutes % 60);
    return text;
}

char *today_clock(const struct today_view *v, double solar_h, char *text)
{
    return write_clock(today_minutes(v, solar_h), text);
}

char *today_clock_end(const struct today_view *v, const struct advice *a, char *text)
{
    return write_clock(today_minutes(v, a->from_h) + (int)lround(a->hours * 60.0), text);
}

double today_nsc_at(const struct today_view *v, const double nsc[24], int hour)
{
    double solar = fmod(hour - v->day->clock_offset + 48.0, 24.0), share = solar - floor(solar);
    int i = ((int)solar + 23) % 24; /* nsc[i] belongs to solar hour i + 1 */
    return nsc[i] + share * (nsc[(i + 1) % 24] - nsc[i]);
}

static void nsc_object(const struct today_view *v, const struct run_paddock *p, struct buf *b)
{
    const struct sward_result *r = &p->expected;
    double low, high;
    run_band(r->nsc_mean, p->ln_sd, &low, &high);
    buf_add(b, "\"nsc_g_per_kg\":{");
    json_key_number(b, "dawn", run_dawn_nsc(p, r), 1);
    buf_add_char(b, ',');
    json_key_number(b, "peak", r->nsc_max, 1);
    buf_add_char(b, ',');
    json_key_number(b, "mean", r->nsc_mean, 1);
    buf_add_char(b, ',');
    json_key_number(b, "low80", low, 1);
    buf_add_char(b, ',');
    json_key_number(b, "high80", high, 1);
    buf_add(b, ",\"hourly\":[");
    for (int h = 1; h <= 24; h++) {
        buf_add(b, h > 1 ? "," : "");
        buf_add_number(b, today_nsc_at(v, r->nsc_hour, h), 1);
    }
    buf_add(b, "]}");
}

static void paddock_reasons(const struct today_view *v, size_t index, struct buf *b)
{
    buf_add(b, "\"reasons\":[");
    for (size_t k = 0; v->day->driver && k < DRIVERS; k++) {
        const struct driver *d = &v->day->driver[index * DRIVERS + k];
        char text[LIMIT_TEXT];
        if (fabs(d->effect) < DRIVER_SAID) {
            break; /* they come largest first */
        }
        snprintf(text, sizeof text, "%s: %.0f g/kg %s sugar than usual weather would give", d->phrase, fabs(d->effect),
                 d->effect < 0.0 ? "less" : "more");
        buf_add(b, k ? ",{" : "{");
        json_key_string(b, "id", d->id);
        buf_add_char(b, ',');
        json_key_number(b, "effect_g_per_kg", d->effect, 1);
        buf_add_char(b, ',');
        json_key_string(b, "text", text);
        buf_add_char(b, '}');
    }
    buf_add_char(b, ']');
}

/* What grass tests put on the figures of the paddock; null when there are none. */
static void tuning_object(const struct tuning *t, struct buf *b)
{
    if (t->tests == 0) {
        buf_add(b, "\"tuning\":null");
        return;
    }
    buf_add(b, "\"tuning\":{");
    json_key_number(b, "factor", exp(t->theta), 4);
    buf_add_char(b, ',');
    json_key_number(b, "tests", t->tests, 0);
    buf_add_char(b, ',');
    json_key_date(b, "last_test", t->date);
    buf_add_char(b, '}');
}

static void paddock_object(const struct today_view *v, size_t index, struct buf *b)
{
    const struct run_paddock *p = &v->day->run->paddock[index];
    const struct sward_result *r = &p->expected;
    const struct {
        const char *key;
        double x;
        int decimals;
    } row[] = {{"wsc_g_per_kg", r->wsc, 1},
               {"fructan_g_per_kg", r->fructan, 1},
               {"starch_g_per_kg", r->starch, 1},
               {"growth_kg_dm_ha_d", r->growth, 1},
               {"green_kg_dm_ha", sward_green_kg_ha(&p->sward), 0},
               {"leaf_area_index", r->lai, 2},
               {"leaf_stage", sward_leaf_stage(&p->sward), 2},
               {"soil_water_fraction", r->water, 3}};
    buf_add_char(b, '{');
    json_key_string(b, "id", p->kept->id);
    buf_add_char(b, ',');
    nsc_object(v, p, b);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        buf_add_char(b, ',');
        json_key_number(b, row[i].key, row[i].x, row[i].decimals);
    }
    buf_add_char(b, ',');
    json_key_bool(b, "air_frost", v->day->air_frost);
    buf_add_char(b, ',');
    json_key_bool(b, "ground_frost", v->day->ground_frost);
    buf_add_char(b, ',');
    tuning_object(&p->kept->tuned, b);
    buf_add_char(b, ',');
    paddock_reasons(v, index, b);
    buf_add_char(b, '}');
}

static void reasons_and_cautions(const struct run_animal *a, struct buf *b)
{
    const char *caution[ADVICE_CAUTIONS];
    char text[512];
    size_t n = advice_cautions(&a->advice, &a->input, caution, ADVICE_CAUTIONS);
    bool first = true;
    buf_add(b, "\"reasons\":[");
    for (int r = 0; r < REASON_COUNT; r++) {
        if (!advice_has(&a->advice, (enum advice_reason)r)) {
            continue;
        }
        buf_add(b, first ? "{" : ",{");
        json_key_string(b, "id", advice_reason_id((enum advice_reason)r));
        buf_add_char(b, ',');
        json_key_string(b, "text", advice_reason_text((enum advice_reason)r, &a->advice, &a->input, text, sizeof text));
        buf_add_char(b, '}');
        first = false;
    }
    buf_add(b, "],\"cautions\":[");
    for (size_t i = 0; i < n; i++) {
        buf_add(b, i ? "," : "");
        buf_add_json_string(b, caution[i]);
    }
    buf_add_char(b, ']');
}

static void animal_object(const struct today_view *v, const struct run_animal *a, struct buf *b)
{
    const struct advice *x = &a->advice;
    struct account ration;
    char from[6], to[6];
    bool window = x->turnout == TURNOUT_TIMED || x->turnout == TURNOUT_BRIEF;
    buf_add_char(b, '{');
    json_key_string(b, "id", a->group->id);
    buf_add_char(b, ',');
    json_key_string(b, "class", a->group->class_id);
    buf_add_char(b, ',');
    json_key_string(b, "paddock", v->holding->paddock[a->group->paddock].id);
    buf_add_char(b, ',');
    json_key_string(b, "turnout", turnout_name(x->turnout));
    buf_add_char(b, ',');
    json_key_number(b, "hours", x->hours, 2);
    if (window) {
        buf_addf(b, ",\"window\":{\"from\":\"%s\",\"to\":\"%s\"}", today_clock(v, x->from_h, from),
                 today_clock_end(v, x, to));
    } else {
        buf_add(b, ",\"window\":null");
    }
    buf_add_char(b, ',');
    json_key_bool(b, "muzzle", x->muzzle);
    const struct {
        const char *key;
        double x;
    } row[] = {{"hay_kg_per_head", x->hay_kg},
               {"ration_nsc_percent", x->ration.nsc_pct},
               {"limit_percent", x->limit_pct},
               {"nsc_g_per_kg_bodyweight", x->ration.nsc_g_kg_bw}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        buf_add_char(b, ',');
        json_key_number(b, row[i].key, row[i].x, 2);
    }
    buf_add_char(b, ',');
    signs_json(v, a, b);
    buf_add_char(b, ',');
    reasons_and_cautions(a, b);
    ration_account(v, a, &ration);
    buf_add(b, ",\"ration\":{");
    ration_members(&ration, b);
    buf_add(b, "}}");
}

static void weather_object(const struct today_view *v, struct buf *b)
{
    buf_add(b, "\"weather\":{");
    json_key_date(b, "recorded_to", v->recorded_to);
    buf_add_char(b, ',');
    json_key_date(b, "forecast_to", v->forecast_to);
    buf_addf(b, ",\"age_days\":%d,", v->age_days);
    json_key_bool(b, "provisional", v->provisional);
    buf_addf(b, ",\"filled_days\":%zu,\"origins\":[", v->filled_days);
    for (size_t i = 0; i < v->n_origins; i++) {
        buf_add(b, i ? "," : "");
        buf_add_json_string(b, v->origins[i]);
    }
    buf_add(b, "],");
    json_key_texts(b, "credits", v->credit, v->credits);
    buf_add(b, ",\"variables\":{");
    for (int k = 0; k < WEATHER_VARS; k++) {
        buf_add(b, k ? "," : "");
        json_key_date(b, weather_var_name((enum weather_var)k), v->variable_to[k]);
    }
    buf_add(b, "}}");
}

static void paddocks_and_animals(const struct today_view *v, struct buf *b)
{
    buf_add(b, "\"paddocks\":[");
    for (size_t i = 0; i < v->day->run->paddocks; i++) {
        buf_add(b, i ? "," : "");
        paddock_object(v, i, b);
    }
    buf_add(b, "],\"animals\":[");
    for (size_t i = 0; i < v->day->run->animals; i++) {
        buf_add(b, i ? "," : "");
        animal_object(v, &v->day->run->animal[i], b);
    }
    buf_add_char(b, ']');
}

/* Every morning asked for, the first among them. */
static void days_array(const struct today_view *v, struct buf *b)
{
    struct today_view day = *v;
    buf_add(b, ",\"days\":[");
    for (size_t k = 0; k < v->days; k++) {
        day.day = &v->day[k];
        buf_add(b, k ? ",{" : "{");
        json_key_date(b, "date", day.day->date);
        buf_add_char(b, ',');
        paddocks_and_animals(&day, b);
        buf_add_char(b, '}');
    }
    buf_add_char(b, ']');
}

void today_json(const struct today_view *v, struct buf *b)
{
    buf_add(b, "{\"schema\":1,\"program\":\"sugarlea\",");
    json_key_string(b, "version", SUGARLEA_VERSION);
    buf_add_char(b, ',');
    json_key_date(b, "date", v->day->date);
    buf_add_char(b, ',');
    json_key_string(b, "holding", v->holding->name);
    buf_add_char(b, ',');
    weather_object(v, b);
    buf_add(b, v->solar ? ",\"clock\":\"solar\"," : ",\"clock\":\"local\",");
    paddocks_and_animals(v, b);
    if (v->days_asked) {
        days_array(v, b);
    }
    buf_add_char(b, ',');
    json_key_texts(b, "warnings", v->warning, v->warnings);
    buf_add_char(b, ',');
    json_key_texts(b, "alarms", v->alarm, v->alarms);
    buf_add_char(b, ',');
    json_cautions(b);
    buf_add(b, "}\n");
}
