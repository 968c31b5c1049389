/* One list of columns serves the three forms. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/season.h"

#include "base/json_scan.h"
#include "out/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    COLUMNS = 14,
    CLOSING_WIDTH = 100, /* columns, as wide as the table */
    PADDOCK_WIDTH = 12,
    PADDOCK_WIDEST = 32
};

static const struct {
    const char *name;
    int decimals;
    int width; /* in the text; 0 left out there */
    const char *head;
    enum amount amount; /* of what stands in the text */
} column[COLUMNS] = {
    {"nsc_dawn", 1, 5, "dawn", AMOUNT_SUGAR},
    {"nsc_peak", 1, 5, "peak", AMOUNT_SUGAR},
    {"nsc_mean", 1, 5, "mean", AMOUNT_SUGAR},
    {"nsc_low80", 1, 5, "low", AMOUNT_SUGAR},
    {"nsc_high80", 1, 5, "high", AMOUNT_SUGAR},
    {"growth_kg_dm_ha_d", 1, 7, "growth", AMOUNT_MASS_OF_LAND},
    {"green_kg_dm_ha", 0, 6, "green", AMOUNT_MASS_OF_LAND},
    {"lai", 2, 0, "", AMOUNTS},
    {"soil_water", 3, 0, "", AMOUNTS},
    {"tmin_c", 1, 6, "Tmin", AMOUNT_TEMPERATURE},
    {"tmax_c", 1, 6, "Tmax", AMOUNT_TEMPERATURE},
    {"rad_mj_m2", 2, 0, "", AMOUNTS},
    {"et0_mm", 2, 0, "", AMOUNTS},
    {"ground_frost", 0, 0, "", AMOUNTS},
};

static void values_of(const struct season_row *row, double x[COLUMNS])
{
    const struct run_paddock *p = &row->run->paddock[row->paddock];
    const struct sward_result *d = &p->day;
    double low, high;
    run_band(d->nsc_mean, p->ln_sd, &low, &high);
    const double all[COLUMNS] = {run_dawn_nsc(p, d),
                                 d->nsc_max,
                                 d->nsc_mean,
                                 low,
                                 high,
                                 d->growth,
                                 row->green_kg_ha,
                                 d->lai,
                                 d->water,
                                 row->weather->tmin,
                                 row->weather->tmax,
                                 row->weather->rad,
                                 row->weather->et0,
                                 row->ground_frost};
    for (int i = 0; i < COLUMNS; i++) {
        x[i] = all[i];
    }
}

static void begin_csv(bool by_site, const struct run *r, struct buf *b)
{
    buf_add(b, by_site ? "site," : "");
    buf_add(b, r->paddocks > 1 ? "paddock,date,origin" : "date,origin");
    for (int i = 0; i < COLUMNS; i++) {
        buf_addf(b, ",%s", column[i].name);
    }
    for (size_t i = 0; i < r->animals; i++) {
        buf_addf(b, ",turnout:%s,hours:%s", r->animal[i].group->id, r->animal[i].group->id);
    }
    for (size_t i = 0; i < r->animals; i++) { /* behind all: a new column moves no other */
        buf_addf(b, ",muzzle:%s", r->animal[i].group->id);
    }
    buf_add_char(b, '\n');
}

/* The column of paddocks, where there are several: ids may be long. */
static void add_paddock(const struct run *r, const char *text, struct buf *b)
{
    size_t width = PADDOCK_WIDTH - 1;
    for (size_t i = 0; i < r->paddocks; i++) {
        const char *id = r->paddock[i].kept->id;
        size_t n = json_scan_letters(id, strlen(id));
        width = n > width ? n : width;
    }
    if (r->paddocks > 1) {
        buf_add_column(b, text, width < PADDOCK_WIDEST ? width : PADDOCK_WIDEST);
        buf_add_char(b, ' ');
    }
}

void season_begin(enum season_form form, enum units units, bool by_site, const struct run *r, struct buf *b)
{
    if (form == SEASON_CSV) {
        begin_csv(by_site, r, b);
    } else if (form == SEASON_JSON) {
        buf_add(b, "{\"schema\":1,\"days\":[");
    } else {
        buf_addf(b,
                 "Sugar and starch of the grass, %s (8 paddocks in 10 lie between low and high); growth and green\n"
                 "mass, %s of dry matter %s; %s. Turnout as advised by what each morning knew.\n\n",
                 units_of_dry_matter(units), units_name(units, AMOUNT_MASS_OF_LAND), units_land(units),
                 units_name(units, AMOUNT_TEMPERATURE));
        add_paddock(r, "paddock", b);
        buf_addf(b, "%-10s", "date");
        for (int i = 0; i < COLUMNS; i++) {
            if (column[i].width) {
                buf_addf(b, " %*s", column[i].width, column[i].head);
            }
        }
        buf_add(b, "  turnout\n");
    }
}

/* The groups of the row's paddock have a turnout there, the others nothing. */
static bool stands_here(const struct season_row *row, size_t animal)
{
    return row->run->animal[animal].group->paddock == row->paddock;
}

static void add_csv(const struct season_row *row, const double x[COLUMNS], struct buf *b)
{
    char date[DATE_TEXT];
    if (row->site) {
        buf_add_bytes(b, row->site->text, row->site->length);
        buf_add_char(b, ',');
    }
    if (row->run->paddocks > 1) {
        buf_add_csv_field(b, row->run->paddock[row->paddock].kept->id);
        buf_add_char(b, ',');
    }
    buf_add(b, date_format(row->date, date));
    buf_add_char(b, ',');
    buf_add(b, row->origin);
    for (int i = 0; i < COLUMNS; i++) {
        buf_add_cell(b, x[i], column[i].decimals);
    }
    for (size_t i = 0; i < row->run->animals; i++) {
        const struct advice *a = &row->run->animal[i].advice;
        if (stands_here(row, i)) {
            buf_add_char(b, ',');
            buf_add(b, turnout_name(a->turnout));
            buf_add_cell(b, a->hours, 2);
        } else {
            buf_add(b, ",,");
        }
    }
    for (size_t i = 0; i < row->run->animals; i++) {
        bool on = row->run->animal[i].advice.muzzle;
        buf_add(b, !stands_here(row, i) ? "," : on ? ",1" : ",0");
    }
    buf_add_char(b, '\n');
}

static void add_json(const struct season_row *row, const double x[COLUMNS], bool first, struct buf *b)
{
    char date[DATE_TEXT];
    buf_add(b, first ? "{" : ",\n{");
    if (row->run->paddocks > 1) {
        buf_add(b, "\"paddock\":");
        buf_add_json_string(b, row->run->paddock[row->paddock].kept->id);
        buf_add_char(b, ',');
    }
    buf_addf(b, "\"date\":\"%s\",\"origin\":\"%s\"", date_format(row->date, date), row->origin);
    for (int i = 0; i < COLUMNS; i++) {
        buf_addf(b, ",\"%s\":", column[i].name);
        if (isfinite(x[i])) {
            buf_add_number(b, x[i], column[i].decimals);
        } else {
            buf_add(b, "null");
        }
    }
    for (size_t i = 0; i < row->run->animals; i++) {
        const struct run_animal *a = &row->run->animal[i];
        if (stands_here(row, i)) {
            buf_addf(b, ",\"turnout:%s\":\"%s\",\"hours:%s\":", a->group->id, turnout_name(a->advice.turnout),
                     a->group->id);
            buf_add_number(b, a->advice.hours, 2);
            buf_addf(b, ",\"muzzle:%s\":%d", a->group->id, a->advice.muzzle);
        }
    }
    buf_add_char(b, '}');
}

static void add_text(const struct season_row *row, const double x[COLUMNS], struct buf *b)
{
    char date[DATE_TEXT];
    add_paddock(row->run, row->run->paddock[row->paddock].kept->id, b);
    buf_add(b, date_format(row->date, date));
    for (int i = 0; i < COLUMNS; i++) {
        if (column[i].width) {
            char text[UNITS_TEXT];
            int decimals = column[i].amount == AMOUNT_TEMPERATURE;
            buf_addf(b, " %*s", column[i].width, units_number(row->units, column[i].amount, x[i], decimals, text));
        }
    }
    for (size_t i = 0; i < row->run->animals; i++) {
        const struct run_animal *a = &row->run->animal[i];
        if (stands_here(row, i)) {
            buf_addf(b, "  %s %s", a->group->id, turnout_name(a->advice.turnout));
            if (a->advice.turnout == TURNOUT_TIMED || a->advice.turnout == TURNOUT_BRIEF) {
                buf_add_char(b, ' ');
                buf_add_number(b, a->advice.hours, 1);
                buf_add(b, a->advice.muzzle ? " h with muzzle" : " h");
            }
        }
    }
    buf_add_char(b, '\n');
}

void season_add(enum season_form form, const struct season_row *row, bool first, struct buf *b)
{
    double x[COLUMNS];
    values_of(row, x);
    if (form == SEASON_CSV) {
        add_csv(row, x, b);
    } else if (form == SEASON_JSON) {
        add_json(row, x, first, b);
    } else {
        add_text(row, x, b);
    }
}

void season_end(enum season_form form, struct buf *b)
{
    if (form == SEASON_JSON) {
        buf_add(b, "]}\n");
    } else if (form == SEASON_TEXT) {
        buf_add_char(b, '\n');
        text_closing(&(struct page){b, CLOSING_WIDTH, false});
    }
}
