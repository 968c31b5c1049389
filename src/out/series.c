/* Rows of the season into columns. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/series.h"

#include "out/plot_inner.h"
#include "physics/frost.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { PLACE_MOST = 90 }; /* characters: paddock and period must still find room */

const char picture_closing[] = "Planning help, not a diagnosis: your vet and local rules come first.";
const char picture_nsc[] = "NSC is sugar, fructan and starch, g in a kg of the grass's dry matter (10 g/kg is 1 %).";

bool series_init(struct series *s, const struct holding *h, size_t paddock, const char *place, date_t first,
                 size_t room, struct arena *a)
{
    *s = (struct series){.site = &h->site,
                         .named = h->path[0] != 0,
                         .place = place,
                         .paddock = h->paddock[paddock].id,
                         .index = paddock,
                         .first = first,
                         .room = room};
    s->group = arena_alloc(a, h->animals, sizeof *s->group);
    if (!s->group) {
        return false;
    }
    for (size_t i = 0; i < h->animals; i++) {
        if (h->animal[i].paddock == paddock) {
            s->group[s->animals++].is = &h->animal[i];
        }
    }
    s->day = arena_alloc(a, room, sizeof *s->day);
    s->turnout = arena_alloc(a, room * s->animals, sizeof *s->turnout);
    return s->day && s->turnout;
}

static void add_turnouts(struct series *s, const struct run *r)
{
    size_t k = 0;
    for (size_t i = 0; i < r->animals && k < s->animals; i++) {
        const struct run_animal *a = &r->animal[i];
        if (a->group == s->group[k].is) {
            s->turnout[k++ * s->room + s->n] = (struct series_turnout){
                a->advice.turnout, a->advice.muzzle, a->advice.hours, a->advice.from_h, a->advice.to_h};
        }
    }
}

void series_add(struct series *s, const struct season_row *row)
{
    const struct run_paddock *p = &row->run->paddock[row->paddock];
    if (row->paddock != s->index || s->n == s->room) {
        return;
    }
    struct series_day *d = &s->day[s->n];
    *d = (struct series_day){.nsc_mean = p->day.nsc_mean,
                             .growth = p->day.growth,
                             .tmin = row->weather->tmin,
                             .tmax = row->weather->tmax,
                             .rain = row->weather->rain,
                             .water = p->day.water,
                             .air_frost = frost_air(row->weather->tmin),
                             .ground_frost = row->ground_frost};
    run_band(d->nsc_mean, p->ln_sd, &d->nsc_low, &d->nsc_high);
    memcpy(d->nsc_hour, p->day.nsc_hour, sizeof d->nsc_hour);
    add_turnouts(s, row->run);
    s->n++;
}

size_t series_muzzled(const struct series *s, size_t animal)
{
    size_t days = 0;
    for (size_t i = 0; i < s->n; i++) {
        days += series_turnout(s, animal, i)->muzzle;
    }
    return days;
}

static void add_day(struct buf *b, date_t d)
{
    char text[64];
    const char *long_form = date_format_long(d, text, sizeof text), *blank = strchr(long_form, ' ');
    buf_add(b, blank ? blank + 1 : long_form);
}

void picture_about(const struct series *s, struct buf *b)
{
    buf_add_clean(b, s->place, strlen(s->place), PLACE_MOST);
    if (s->named) {
        buf_addf(b, "%spaddock %s", s->place[0] ? ", " : "", s->paddock);
    }
    buf_add(b, s->named || s->place[0] ? ": " : "");
    add_day(b, s->first);
    buf_add(b, " to ");
    add_day(b, s->first + (date_t)s->n - 1);
}

void picture_title(const struct series *s, const char *title, struct plot *p)
{
    struct buf about;
    buf_init(&about);
    picture_about(s, &about);
    plot_title(p, title, about.text);
    buf_release_into(&about, &p->about);
}

bool picture_is_solar(const struct series *s)
{
    return !s->site->timezone[0] || isnan(s->site->longitude);
}

void picture_doubt(const struct series *s, struct plot *p)
{
    char text[160];
    double widest = 1.0;
    for (size_t i = 0; i < s->n; i++) {
        widest = fmax(widest, s->day[i].nsc_high / s->day[i].nsc_mean);
    }
    snprintf(text, sizeof text,
             "Central estimates: 8 paddocks in 10 of this kind lie within %.1f times of them, up or down.", widest);
    plot_caption(p, text);
}

size_t picture_tightest(const struct series *s)
{
    size_t tightest = s->animals;
    double least = 0.0;
    for (size_t a = 0; a < s->animals; a++) {
        double hours = 0.0;
        for (size_t i = 0; i < s->n; i++) {
            hours += series_turnout(s, a, i)->hours;
        }
        if (tightest == s->animals || hours < least) {
            tightest = a;
            least = hours;
        }
    }
    return tightest;
}

void picture_key(const struct palette_scale *scale, struct plot *p)
{
    plot_number(p, "key_count", scale->n);
    plot_block(p, "key");
    for (int k = 0; k < scale->n; k++) {
        plot_row(p, (double[]){k, scale->from[k], palette_class_colour(scale, k)}, 3);
    }
    plot_block_end(p);
}
