/* The sward: one carbon balance that gives growth and sugar together.
 *
 * What the canopy fixes becomes sugar; respiration, growth and losses take it
 * away; growth is the sward's new structure. See models/METHOD.md for every
 * equation and its source. The step is pure: same state and weather, same result.
 *
 * A day is: sward_day_make, sward_step, then the evening's management (one of
 * cut, graze_*, or nothing: rested).
 *
 * Masses are g DM/m2 of the type's own share of the ground; results per whole area.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SWARD_H
#define SUGARLEA_SWARD_H

#include "data/sward_kind.h"

#include <stdbool.h>

#define SWARD_LONG_AGO 100000 /* days, when something has not happened */

struct sward_part {                 /* one type of a mixture */
    double leaf, stem, sugar, dead; /* Sl, Ss, C, D: g/m2 */
    double leaf_age, stem_age;      /* C d */
    double slow_lai;                /* leaf area the sink has adapted to */
    double frost;                   /* fF */
    double lai;                     /* as used by the last step */
    double wsc3[3];                 /* daily mean WSC of the last days, g/kg; newest first */
    bool reproductive;              /* flag up */
    bool killed;                    /* warm-season, waiting for green-up */
};

struct sward_own { /* what a grass, or one drawn of it, has otherwise than its kind */
    double pm20, growth_max, half_sugar;
};

struct sward {
    size_t parts;
    const struct sward_kind *kind[LIMIT_MIX]; /* of the params that sward_init was given */
    struct sward_own own[LIMIT_MIX];
    double share[LIMIT_MIX];
    double spread_factor; /* largest of the grasses' */
    double esc_fructan[LIMIT_MIX], starch_share[LIMIT_MIX], phyllochron[LIMIT_MIX];
    double capacity_mm, nitrogen;
    struct sward_part part[LIMIT_MIX];
    /* common state */
    double water;  /* w, 0..1 */
    double soil_t; /* Ts */
    double st;     /* temperature sum of the growth year, C d */
    double snow_mm;
    double t7; /* mean temperature of the last 7 days, fewer at the start, C */
    double t_last[7];
    unsigned days_seen;
    double leaf_clock;     /* thermal time since the last cut or grazing, C d */
    int days_since_grazed; /* since animals last took something; SWARD_LONG_AGO */
    int days_since_kill;   /* since a killing frost; SWARD_LONG_AGO */
    double killed_nsc;     /* g/kg, what the tissue killed by that frost may still hold */
};

struct sward_day { /* the weather of one day as the sward sees it; made once, shared by all swards and members */
    double tmin, tmax, rad, rain, et0;
    double day_length_h;
    int season_day;                  /* day of the northern year: doy, or (doy + 182) mod 365 in the south */
    int season_month;                /* 0 first month of the growth year, 1 second, 2 later */
    bool new_year;                   /* first day of the growth year */
    double temperature[24], par[24]; /* C; W/m2; at 0.5 .. 23.5 h solar */
    bool snow_rule;                  /* false in the reference runs */
};

struct sward_place {
    double latitude, longitude; /* degrees; longitude 0 will do when unknown */
    bool snow_rule;             /* let snow lie, and cover the sward (models/METHOD.md) */
};

struct sward_weather { /* one day with what it needs of its neighbours */
    int date;          /* days since 1970-01-01 */
    double tmin, tmax, rad, rain, et0;
    double tmax_before; /* the day's own on the first day */
    double tmin_after;  /* the day's own on the last day */
};

struct sward_result {    /* one day; masses per whole area, before the evening's management */
    double nsc_hour[24]; /* g/kg, end of each solar hour */
    double nsc_min, nsc_max, nsc_mean;
    double wsc, fructan, starch, esc; /* g/kg, of the day's mean */
    double growth;                    /* structure above ground, kg DM/ha/d */
    double lai, water, soil_t, st;
    double spread_factor; /* of the ln-SD: largest of frost, heading, drought, species */
    bool heading, drought, killing_frost;
    /* carbon account of the day, g sugar/m2: assimilated = respired + built + lost + change of sugar */
    double assimilated, respired;
    double built; /* into new structure, its growth respiration included */
    double lost;  /* with dying tissue */
};

/* Start when nothing is known: the state of models/METHOD.md. kinds is params', and outlives the sward;
 * shares are scaled to sum to 1. grasses 1..LIMIT_MIX. */
void sward_init(struct sward *s, const struct sward_kind kinds[SWARD_TYPES], size_t grasses,
                const struct grass *const grass[], const double share[], double capacity_mm, double nitrogen);

void sward_day_make(struct sward_day *d, const struct sward_weather *w, const struct sward_place *place);

/* Other weather of the same date at the same place: what the sun does is as for `same`. Without
 * hours, temperature and par are not filled: enough for sward_doubt. */
void sward_day_again(struct sward_day *d, const struct sward_weather *w, const struct sward_day *same, bool hours);

/* The same from a day length of one's own, h; south: the growth year starts on 1 July. */
void sward_day_force(struct sward_day *d, const struct sward_weather *w, double day_length_h, bool south,
                     bool snow_rule);

/* Morning to evening, without management. */
void sward_step(struct sward *s, const struct sward_day *d, struct sward_result *r);

/* Two swards of as many parts, each under its own day: as sward_step of each, and quicker (balance_run_two). */
void sward_step_two(struct sward *const s[2], const struct sward_day *const d[2], struct sward_result *const r[2]);

/* The spread_factor that sward_step would report, without the rest of its work. */
double sward_doubt(const struct sward *s, const struct sward_day *d);

/* Management, in the evening. Return what was taken, kg DM/ha (sugar and dead included).
 * Taking stem at or after the start of heading lowers the reproductive flag for
 * the rest of the growth year. */

/* Mown: leaf, stem and dead above the stubble of to_cm are taken, sugar with the green. */
double sward_cut(struct sward *s, double to_cm);
/* Continuous grazing to a held cover: 30 % of the excess a day, of everything alike. */
double sward_graze_to_cover(struct sward *s, double cover_kg_ha);
/* Rotation: down to a cover in one go, of everything alike; the leaf clock starts anew. */
double sward_graze_down(struct sward *s, double cover_kg_ha);
/* Stocked: leaf first, then stem, then dead, never below 3 cm; what is not there is unmet (may be NULL). */
double sward_graze_intake(struct sward *s, double intake_kg_ha, double *unmet_kg_ha);

/* Cover measured: all masses go `gain` of the way (0 to 1, in ln) from the modelled total to
 * the measured one, kg DM/ha, by a factor within low..high. Leaf, stem, sugar and dead keep
 * their shares, leaves above the least a sward keeps. Returns the factor. */
double sward_correct_cover(struct sward *s, double measured_kg_ha, double gain, double low, double high);

double sward_total_kg_ha(const struct sward *s);     /* green and dead */
double sward_green_kg_ha(const struct sward *s);     /* leaf, stem and sugar */
double sward_available_kg_ha(const struct sward *s); /* above 3 cm: what sward_graze_intake can give */
/* Ruler height by the summed bulk densities of Jouven et al. 2006, 180 kg DM/ha a cm:
 * not a plate's compressed cm. */
double sward_height_cm(const struct sward *s);
double sward_cover_of_height(const struct sward *s, double height_cm); /* kg DM/ha */

/* New leaves since the last cut or rotation; NaN while grazed continuously (within 7 days). */
double sward_leaf_stage(const struct sward *s);

/* Share by which the stubble of a long-rested sward grazed short may stand above the
 * reported NSC: 0 for a sward kept short or standing tall, up to 0.20. */
double sward_short_surplus(const struct sward *s);

#endif
