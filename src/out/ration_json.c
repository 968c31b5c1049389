/* ration --json, and the "ration" of today --json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/json.h"
#include "out/ration.h"

#include <math.h>
#include <stdio.h>

struct number {
    const char *key;
    double x;
    int decimals;
};

static void numbers(struct buf *b, size_t n, const struct number *row)
{
    for (size_t i = 0; i < n; i++) {
        buf_add(b, i ? "," : "");
        json_key_number(b, row[i].key, row[i].x, row[i].decimals);
    }
}

/* "nsc_percent" of a share, "nsc_g" of an amount; energy in MJ. */
static void contents(struct buf *b, const double content[CONTENTS], const double amount[CONTENTS])
{
    char key[32];
    for (int c = 0; c < CONTENTS; c++) {
        const char *name = account_content_key((enum account_content)c);
        bool energy = c == CONTENT_ENERGY;
        snprintf(key, sizeof key, energy ? "%s_mj_per_kg" : "%s_percent", name);
        buf_add_char(b, ',');
        json_key_number(b, key, content[c], 2);
        snprintf(key, sizeof key, energy ? "%s_mj" : "%s_g", name);
        buf_add_char(b, ',');
        json_key_number(b, key, amount[c], 2);
    }
}

static void part(const struct account_part *p, struct buf *b)
{
    static const char *const kinds[] = {
        [PART_GRASS] = "grass", [PART_HAY] = "hay", [PART_FORAGE] = "forage", [PART_BUCKET] = "bucket"};
    double amount[CONTENTS];
    for (int c = 0; c < CONTENTS; c++) {
        amount[c] = account_amount(p, (enum account_content)c);
    }
    buf_add_char(b, '{');
    json_key_string(b, "feed", p->id);
    buf_add_char(b, ',');
    json_key_string(b, "kind", kinds[p->kind]);
    buf_add_char(b, ',');
    json_key_string(b, "nsc_from", account_from_id(p->from));
    buf_add_char(b, ',');
    numbers(b, 3,
            (const struct number[]){{"as_fed_kg", p->fed_kg, 3}, {"dm_percent", p->dm_pct, 1}, {"dm_kg", p->dm_kg, 3}});
    contents(b, p->content, amount);
    buf_add_char(b, ',');
    json_key_bool(b, "left_out", p->left_out);
    buf_add_char(b, '}');
}

static void verdicts(const struct account *a, struct buf *b)
{
    char text[640];
    bool first = true;
    buf_add(b, "\"verdicts\":[");
    for (int r = 0; r < VERDICTS; r++) {
        const struct account_verdict *v = &a->verdict[r];
        if (v->state == STATE_NONE) {
            continue;
        }
        buf_add(b, first ? "{" : ",{");
        json_key_string(b, "id", account_rule_id((enum account_rule)r));
        buf_add_char(b, ',');
        json_key_string(b, "state", account_state_id(v->state));
        buf_add_char(b, ',');
        numbers(b, 2, (const struct number[]){{"value", v->value, 4}, {"limit", v->limit, 4}});
        buf_add_char(b, ',');
        json_key_string(b, "text", account_verdict_text(a, (enum account_rule)r, SHOW_METRIC, text, sizeof text));
        buf_add_char(b, '}');
        first = false;
    }
    buf_add_char(b, ']');
}

static void limits(const struct account *a, struct buf *b)
{
    const struct account_verdict *v = a->verdict;
    const struct number row[] = {{"nsc_percent", v[VERDICT_NSC].limit, 2},
                                 {"nsc_stop_percent", a->group->rules.nsc_stop_pct, 2},
                                 {"nsc_g_per_kg_bodyweight", v[VERDICT_NSC_DAY].limit, 2},
                                 {"starch_g_per_meal_per_kg", v[VERDICT_STARCH].limit, 2},
                                 {"starch_g_per_day_per_kg", v[VERDICT_STARCH_DAY].limit, 2},
                                 {"bucket_nsc_g_per_meal_per_kg", v[VERDICT_BUCKET_NSC].limit, 2},
                                 {"grain_kg_per_meal", v[VERDICT_GRAIN].limit, 2},
                                 {"concentrate_percent", v[VERDICT_CONCENTRATE].limit, 1},
                                 {"forage_percent_bodyweight", v[VERDICT_FORAGE].limit, 2},
                                 {"dry_matter_percent_bodyweight", v[VERDICT_INTAKE].limit, 2},
                                 {"ndf_percent", v[VERDICT_NDF].limit, 1},
                                 {"adf_percent", v[VERDICT_ADF].limit, 1}};
    buf_add(b, "\"limits\":{");
    numbers(b, sizeof row / sizeof row[0], row);
    buf_add_char(b, '}');
}

static void soak(const struct account *a, struct buf *b)
{
    char text[1024];
    buf_add(b, "\"soaked\":{");
    numbers(b, 4,
            (const struct number[]){{"hours", a->lot->soaked_h, 2},
                                    {"credit_percent_of_wsc", a->credit ? a->credit->wsc_loss_pct : (double)NAN, 1},
                                    {"hay_nsc_percent_about", a->soaked_hay_nsc_pct, 1},
                                    {"nsc_percent_about", a->soaked_nsc_pct, 1}});
    buf_add(b, ",\"is_a_pass\":false,");
    json_key_string(b, "text", account_soak_text(a, text, sizeof text));
    buf_add_char(b, '}');
}

void ration_members(const struct account *a, struct buf *b)
{
    const struct ration *r = &a->advice->ration;
    char text[512];
    const struct number row[] = {{"weight_kg", a->weight_kg, 1},
                                 {"weight_error_percent", a->group->weight_error_pct, 1},
                                 {"dm_kg", r->dm_kg, 3},
                                 {"nsc_g_per_kg_bodyweight", r->nsc_g_kg_bw, 2},
                                 {"starch_g_per_meal_per_kg", r->starch_meal_g_kg, 3},
                                 {"bucket_nsc_g_per_meal_per_kg", r->bucket_nsc_g_kg, 3},
                                 {"forage_percent_bodyweight", r->forage_pct_bw, 3},
                                 {"grass_lacking_dm_kg", r->lacking_dm_kg, 3}};
    numbers(b, sizeof row / sizeof row[0], row);
    buf_add_char(b, ',');
    json_key_date(b, "weighed", a->group->weighed);
    contents(b, a->content, a->amount);
    buf_add_char(b, ',');
    bool esc = a->esc && a->part[1].from == FROM_ESC; /* else the table's WSC + starch counts */
    json_key_string(b, "nsc_is", esc ? "wsc+starch; hay esc+starch" : "wsc+starch");
    buf_add_char(b, ',');
    json_key_bool(b, "analysed", !a->by_table && !a->unknown && !a->esc);
    buf_add_char(b, ',');
    json_key_string(b, "hay", account_hay_text(a, text, sizeof text));
    buf_add_char(b, ',');
    json_key_string(b, "hay_lot", a->lot->id);
    buf_add(b, ",\"parts\":[");
    for (size_t i = 0; i < a->parts; i++) {
        buf_add(b, i ? "," : "");
        part(&a->part[i], b);
    }
    buf_add(b, "],");
    limits(a, b);
    buf_add_char(b, ',');
    verdicts(a, b);
    buf_add_char(b, ',');
    soak(a, b);
}

static void animal(const struct today_view *v, const struct run_animal *r, struct buf *b)
{
    struct account a;
    const char *note[ACCOUNT_NOTES];
    ration_account(v, r, &a);
    buf_add_char(b, '{');
    json_key_string(b, "id", r->group->id);
    buf_add_char(b, ',');
    json_key_string(b, "class", r->group->class_id);
    buf_add_char(b, ',');
    json_key_string(b, "turnout", turnout_name(r->advice.turnout));
    buf_add_char(b, ',');
    json_key_number(b, "hours", r->advice.hours, 2);
    buf_add_char(b, ',');
    ration_members(&a, b);
    buf_add(b, ",\"cautions\":[");
    size_t n = account_notes(&a, false, note, ACCOUNT_NOTES);
    n += account_notes(&a, true, note + n, ACCOUNT_NOTES - n);
    for (size_t i = 0; i < n; i++) {
        buf_add(b, i ? "," : "");
        buf_add_json_string(b, note[i]);
    }
    buf_add(b, "]}");
}

void ration_json(const struct today_view *v, struct buf *b)
{
    buf_add(b, "{\"schema\":1,");
    json_key_date(b, "date", v->day->date);
    buf_add_char(b, ',');
    json_key_string(b, "holding", v->holding->name);
    buf_add(b, ",\"animals\":[");
    for (size_t i = 0; i < v->day->run->animals; i++) {
        buf_add(b, i ? "," : "");
        animal(v, &v->day->run->animal[i], b);
    }
    buf_add(b, "],");
    json_key_texts(b, "credits", v->credit, v->credits);
    buf_add_char(b, ',');
    json_key_texts(b, "warnings", v->warning, v->warnings);
    buf_add_char(b, ',');
    json_key_texts(b, "alarms", v->alarm, v->alarms);
    buf_add_char(b, ',');
    json_cautions(b);
    buf_add(b, "}\n");
}
