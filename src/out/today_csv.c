/* today --csv and the rows of the advice log. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/advice_log.h"

static void row_start(const struct today_view *v, const struct run_animal *a, struct buf *b)
{
    char date[DATE_TEXT];
    buf_add(b, date_format(v->day->date, date));
    buf_add_char(b, ',');
    buf_add_csv_field(b, a->group->id);
    buf_addf(b, ",%s,", turnout_name(a->advice.turnout));
    buf_add_number(b, a->advice.hours, 2);
}

static void window(const struct today_view *v, const struct advice *x, struct buf *b)
{
    char from[6], to[6];
    if (x->turnout == TURNOUT_TIMED || x->turnout == TURNOUT_BRIEF) {
        buf_addf(b, ",%s,%s", today_clock(v, x->from_h, from), today_clock_end(v, x, to));
    } else {
        buf_add(b, ",,");
    }
}

static void rows(const struct today_view *v, struct buf *b)
{
    for (size_t i = 0; i < v->day->run->animals; i++) {
        const struct run_animal *a = &v->day->run->animal[i];
        row_start(v, a, b);
        window(v, &a->advice, b);
        buf_addf(b, ",%d,", a->advice.muzzle);
        buf_add_number(b, a->advice.hay_kg, 2);
        buf_add_cell(b, a->advice.ration.nsc_pct, 2);
        buf_add_cell(b, a->advice.limit_pct, 2);
        buf_add_char(b, ',');
        buf_add_csv_field(b, v->holding->paddock[a->group->paddock].id);
        buf_add_cell(b, v->day->run->paddock[a->group->paddock].expected.nsc_mean, 1);
        buf_add_char(b, '\n');
    }
}

void today_csv(const struct today_view *v, struct buf *b)
{
    struct today_view day = *v;
    buf_add(b, "date,animal,turnout,hours,from,to,muzzle,hay_kg_per_head,ration_nsc_percent,limit_percent,paddock,"
               "nsc_mean\n");
    for (size_t k = 0; k < v->days; k++) {
        day.day = &v->day[k];
        rows(&day, b);
    }
}

const char today_log_header[] =
    "date,animal,turnout,hours,from,to,version,models,weather,muzzle,foot_signs,frost,warning,told,written\n";

void today_log(const struct today_view *v, date_t written, struct buf *b)
{
    char words[LIMIT_TEXT], day[DATE_TEXT];
    enum today_told told = v->on_sheet ? TODAY_ON_SHEET : v->silent ? TODAY_UNSAID : TODAY_SAID;
    for (size_t i = 0; i < v->day->run->animals; i++) {
        const struct run_animal *a = &v->day->run->animal[i];
        row_start(v, a, b);
        window(v, &a->advice, b);
        buf_addf(b, ",%s,%s,", SUGARLEA_VERSION, v->day->run->params->hash);
        for (size_t k = 0; k < v->n_origins; k++) {
            buf_addf(b, "%s%s", k ? "+" : "", v->origins[k]);
        }
        buf_addf(b, ",%d,%s,%s,%s,%s,%s\n", a->advice.muzzle, today_signs_words(a, words, sizeof words),
                 today_frost_words[today_frost(v)], today_age_words[today_age(v)], today_told_words[told],
                 date_format(written, day));
    }
}
