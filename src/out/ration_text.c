/* A day's feed for people: the parts, the sums, what is over and what to do.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/ration.h"
#include "out/signs.h"

#include <math.h>
#include <stdio.h>

#define LEAST_KG 0.005 /* what would be shown as nothing is left out of a sentence */

void ration_account(const struct today_view *v, const struct run_animal *a, struct account *out)
{
    account_make(&a->advice, &a->input, &a->grass, a->group, run_hay_of(v->holding, a->group), v->day->run->params,
                 out);
}

static void cell(struct buf *b, int width, int decimals, double x)
{
    if (isfinite(x)) {
        buf_addf(b, "%*.*f", width, decimals, x);
    } else {
        buf_addf(b, "%*s", width, "-");
    }
}

static const struct column {
    enum account_content content;
    bool amount; /* g or MJ, else % */
    int width, decimals;
    const char *head, *unit; /* NULL: of the amount */
} columns[] = {
    {CONTENT_NSC, false, 7, 1, "NSC", "%"},       {CONTENT_NSC, true, 7, 0, "NSC", "g"},
    {CONTENT_STARCH, true, 8, 0, "starch", "g"},  {CONTENT_NDF, false, 7, 1, "NDF", "%"},
    {CONTENT_ENERGY, true, 8, 1, "energy", NULL},
};
enum { COLUMNS = sizeof columns / sizeof columns[0] };

/* Energy has a unit of its own, the others do not change. */
static bool is_energy(const struct column *c)
{
    return c->content == CONTENT_ENERGY;
}

static void table_head(enum units u, struct buf *b)
{
    buf_addf(b, "  %-20s%8s%8s", "", "as fed", "dry");
    for (int i = 0; i < COLUMNS; i++) {
        buf_addf(b, "%*s", columns[i].width, columns[i].head);
    }
    buf_addf(b, "\n  %-20s%8s%8s", "a head and day", units_name(u, AMOUNT_MASS), units_name(u, AMOUNT_MASS));
    for (int i = 0; i < COLUMNS; i++) {
        buf_addf(b, "%*s", columns[i].width, is_energy(&columns[i]) ? units_name(u, AMOUNT_ENERGY) : columns[i].unit);
    }
    buf_add_char(b, '\n');
}

static void content_cell(const struct column *c, enum units u, double x, struct buf *b)
{
    cell(b, c->width, c->decimals, is_energy(c) ? units_value(u, AMOUNT_ENERGY, x) : x);
}

static void table_row(const struct account_part *p, enum units u, struct buf *b)
{
    buf_addf(b, "  %-20.20s", p->id);
    cell(b, 8, 2, units_value(u, AMOUNT_MASS, p->fed_kg));
    cell(b, 8, 2, units_value(u, AMOUNT_MASS, p->dm_kg));
    for (int i = 0; i < COLUMNS; i++) {
        const struct column *c = &columns[i];
        content_cell(c, u, c->amount ? account_amount(p, c->content) : p->content[c->content], b);
    }
    buf_add(b, p->left_out              ? "  left out"
               : p->from == FROM_TABLE  ? "  *"
               : p->from == FROM_ESC    ? "  +"
               : p->from == FROM_NOBODY ? "  ?"
                                        : "");
    buf_add_char(b, '\n');
}

static void table(const struct account *a, enum units u, struct buf *b)
{
    table_head(u, b);
    for (size_t i = 0; i < a->parts; i++) {
        if (a->part[i].dm_kg > 0.0 || a->part[i].left_out) {
            table_row(&a->part[i], u, b);
        }
    }
    buf_addf(b, "  %-20s%8s", "in all", "");
    cell(b, 8, 2, units_value(u, AMOUNT_MASS, a->dm_kg));
    for (int i = 0; i < COLUMNS; i++) {
        const struct column *c = &columns[i];
        content_cell(c, u, c->amount ? a->amount[c->content] : a->content[c->content], b);
    }
    buf_add_char(b, '\n');
    if (a->by_table) {
        buf_add(b, "  * a table's average, not analysed\n");
    }
    if (a->part[1].from == FROM_ESC && a->esc) {
        buf_add(b, "  + and more: ESC + starch leaves out most fructan\n");
    }
    if (a->unknown) {
        buf_add(b, "  ? its sugar is known to nobody: counted as if it stood at the limit\n");
    }
}

/* A rule of buckets says nothing where there are none. */
static bool is_idle(const struct account *a, int r)
{
    bool of_buckets = r == VERDICT_STARCH || r == VERDICT_STARCH_DAY || r == VERDICT_BUCKET_NSC || r == VERDICT_GRAIN ||
                      r == VERDICT_CONCENTRATE;
    return of_buckets && a->verdict[r].value == 0.0;
}

/* What is broken, first and by itself; what is well, in one breath. */
static void verdicts(const struct page *page, const struct account *a, enum units u)
{
    static const struct {
        enum account_state state;
        const char *lead;
    } order[] = {{STATE_OVER, "  OVER: "}, {STATE_UNDER, "  UNDER: "}, {STATE_UNSURE, "  Not sure: "}};
    char text[640], within[1024] = "";
    size_t at = 0;
    for (size_t k = 0; k < sizeof order / sizeof order[0]; k++) {
        for (int r = 0; r < VERDICTS; r++) {
            if (a->verdict[r].state == order[k].state) {
                text_wrap(page, order[k].lead, account_verdict_text(a, (enum account_rule)r, u, text, sizeof text));
            }
        }
    }
    for (int r = 0; r < VERDICTS && at < sizeof within; r++) {
        if (a->verdict[r].state == STATE_WITHIN && !is_idle(a, r)) {
            at += (size_t)snprintf(within + at, sizeof within - at, "%s%s", at ? "; " : "",
                                   account_verdict_text(a, (enum account_rule)r, u, text, sizeof text));
        }
    }
    if (at) {
        text_wrap(page, "  Within: ", within);
    }
}

static void weight(const struct page *page, const struct account *a, enum units u)
{
    const struct animal_group *g = a->group;
    char line[320], kg[UNITS_TEXT], girth[UNITS_TEXT], length[UNITS_TEXT], least[UNITS_TEXT], most[UNITS_TEXT];
    if (g->weight_error_pct > 0.0) {
        double share = g->weight_error_pct / 100.0;
        snprintf(line, sizeof line, "%s by tape (girth %s, length %s): %s to %s.",
                 units_text(u, AMOUNT_MASS, a->weight_kg, 0, kg),
                 units_text(u, AMOUNT_LENGTH, g->girth_cm, UNITS_SHORT, girth),
                 units_text(u, AMOUNT_LENGTH, g->length_cm, UNITS_SHORT, length),
                 units_number(u, AMOUNT_MASS, a->weight_kg * (1.0 - share), 0, least),
                 units_text(u, AMOUNT_MASS, a->weight_kg * (1.0 + share), 0, most));
        text_wrap(page, "  Weight: ", line);
    }
}

static void group(const struct page *page, const struct today_view *v, const struct run_animal *r, bool arithmetic)
{
    struct account a;
    const char *note[ACCOUNT_NOTES];
    char text[1024], hay[sizeof text + LIMIT_NAME + 16], kg[TODAY_WEIGHT];
    ration_account(v, r, &a);
    buf_addf(page->b, "\n%s: %d x %s, %s, %s", r->group->id, r->group->count, r->group->class_id,
             today_weight(v, r->group, kg), turnout_name(r->advice.turnout));
    if (r->advice.hours > 0.0 && r->advice.hours < 24.0) {
        buf_addf(page->b, ", %g h on grass%s", r->advice.hours, r->advice.muzzle ? " with a muzzle" : "");
    }
    buf_add_char(page->b, '\n');
    weight(page, &a, v->units);
    table(&a, v->units, page->b);
    const char *apart = hay_lot_apart(a.lot);
    snprintf(hay, sizeof hay, "%s%s%s%s", apart[0] ? "lot " : "", apart, apart[0] ? ", " : "",
             account_hay_text(&a, text, sizeof text));
    text_wrap(page, "  Hay: ", hay);
    verdicts(page, &a, v->units);
    if (account_soak_text(&a, text, sizeof text)[0]) {
        text_wrap(page, "  Soaking: ", text);
    }
    if (arithmetic) {
        ration_arithmetic(page, &a);
    }
    size_t n = account_notes(&a, false, note, ACCOUNT_NOTES);
    for (size_t i = 0; i < n; i++) {
        text_wrap(page, i ? "        " : "  Mind: ", note[i]);
    }
}

/* What soaking takes: the same for every hay that has a credit. */
static void soak_loss(const struct page *page, const struct today_view *v)
{
    char text[512];
    for (size_t i = 0; i < v->day->run->animals; i++) {
        struct account a;
        ration_account(v, &v->day->run->animal[i], &a);
        if (a.credit) {
            text_wrap(page, "\nSoaking: ", account_soak_loss_text(a.credit, text, sizeof text));
            return;
        }
    }
}

/* What holds for several groups, once. */
static void general_notes(const struct page *page, const struct today_view *v)
{
    const char *said[ACCOUNT_NOTES], *note[ACCOUNT_NOTES];
    size_t n_said = 0;
    for (size_t i = 0; i < v->day->run->animals; i++) {
        struct account a;
        ration_account(v, &v->day->run->animal[i], &a);
        size_t n = account_notes(&a, true, note, ACCOUNT_NOTES);
        for (size_t k = 0; k < n; k++) {
            size_t j = 0;
            while (j < n_said && said[j] != note[k]) {
                j++;
            }
            if (j == n_said && n_said < ACCOUNT_NOTES) {
                said[n_said++] = note[k];
                text_wrap(page, n_said == 1 ? "\nMind: " : "      ", note[k]);
            }
        }
    }
}

void ration_text(const struct today_view *v, bool arithmetic, bool colour, int width, struct buf *b)
{
    const struct page page = {b, width, colour};
    char day[64], line[LIMIT_TEXT + 96];
    snprintf(line, sizeof line, "What the feed of %s adds up to%s%s", date_format_long(v->day->date, day, sizeof day),
             v->holding->name[0] ? "  " : "", v->holding->name);
    text_bold(&page, line);
    buf_add_char(b, '\n');
    signs_alarms(&page, v);
    text_wrap(
        &page, "",
        "Grass by this morning's advice, hay to fill the day, buckets and treats as given. NSC is sugars, fructan "
        "and starch (WSC + starch), in the dry matter; NDF is fibre; energy is digestible, by cattle tables: a "
        "ranking only.");
    for (size_t i = 0; i < v->warnings; i++) {
        text_wrap(&page, "Note: ", v->warning[i]);
    }
    for (size_t i = 0; i < v->day->run->animals; i++) {
        group(&page, v, &v->day->run->animal[i], arithmetic);
    }
    soak_loss(&page, v);
    general_notes(&page, v);
    buf_add_char(b, '\n');
    text_closing(&page);
    for (size_t i = 0; i < v->credits; i++) {
        text_wrap(&page, i ? "         " : "Weather: ", v->credit[i]);
    }
}

/* "grass 0.18, hay 4.10, beet-pulp-plain 0.18". */
static void name_parts(const struct account *a, enum units u, char *text, size_t size)
{
    size_t at = 0;
    char kg[UNITS_TEXT];
    text[0] = '\0';
    for (size_t i = 0; i < a->parts && at < size; i++) {
        const struct account_part *p = &a->part[i];
        if (p->dm_kg >= LEAST_KG) {
            int n = snprintf(text + at, size - at, "%s%s %s", at ? ", " : "", p->kind == PART_HAY ? "hay" : p->id,
                             units_number(u, AMOUNT_MASS, p->dm_kg, 2, kg));
            at += n > 0 ? (size_t)n : 0;
        }
    }
}

void ration_lines(const struct account *a, enum units u, const struct today_to *to)
{
    char parts[256], text[640], fibre[16] = "not known", kg[UNITS_TEXT];
    const struct ration *r = &a->advice->ration;
    if (!isfinite(r->nsc_pct)) {
        return;
    }
    name_parts(a, u, parts, sizeof parts);
    if (isfinite(r->ndf_pct)) {
        snprintf(fibre, sizeof fibre, "%.0f %%", r->ndf_pct);
    }
    snprintf(text, sizeof text,
             "Ration: %s of dry matter (%s): sugar and starch %.1f %% (limit %.3g %%), %.1f g a kg of body weight; "
             "starch %.1f %%; fibre (NDF) %s; forage %.2f %% of body weight (least %.3g).",
             units_text(u, AMOUNT_MASS, a->dm_kg, 2, kg), parts, r->nsc_pct, a->verdict[VERDICT_NSC].limit,
             r->nsc_g_kg_bw, a->content[CONTENT_STARCH], fibre, r->forage_pct_bw, a->verdict[VERDICT_FORAGE].limit);
    to->say(to, "", text);
    for (int k = 0; k < VERDICTS; k++) {
        enum account_state s = a->verdict[k].state;
        bool told = k == VERDICT_NSC || k == VERDICT_NDF; /* by the reasons above */
        if (!told && (s == STATE_OVER || s == STATE_UNDER)) {
            to->say(to, s == STATE_OVER ? "OVER" : "UNDER",
                    account_verdict_text(a, (enum account_rule)k, u, text, sizeof text));
        }
    }
    if (account_soak_text(a, text, sizeof text)[0]) {
        to->say(to, "Soaking", text);
    }
}
