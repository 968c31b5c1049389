/* Parameters of one type of sward (cool-season grass, warm-season grass, legume),
 * the grasses that use them, and soils. Every number comes from
 * models/swards.json with its source: what the three types share stands there
 * once, under "common". SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SWARD_KIND_H
#define SUGARLEA_SWARD_KIND_H

#include "base/limits.h"

#include <stdbool.h>
#include <stddef.h>

#define CURVE_KNOTS 8

struct curve { /* piecewise linear, end values beyond; x rises */
    size_t n;
    double x[CURVE_KNOTS], y[CURVE_KNOTS];
};

enum sward_type { SWARD_COOL_SEASON, SWARD_WARM_SEASON, SWARD_LEGUME, SWARD_TYPES };

/* One type. Equations in models/METHOD.md; sugar contents as g/g of green DM. */
struct sward_kind {
    enum sward_type type;
    /* source: canopy photosynthesis */
    double pm20;          /* mg CO2/m2/s, leaf light-saturated rate at 20 C */
    double source_spring; /* factor of pm20 in spring */
    double alpha;         /* mg CO2/J PAR */
    double alpha_dry;     /* share of alpha left where photosynthesis has stopped for drought */
    double extinction;    /* k */
    double transmission;  /* m */
    struct curve photo;   /* f(Tair) */
    double sugar_max;     /* cmax, g/g */
    double sugar_exponent;
    /* sink: growth and upkeep */
    double growth_max;   /* g DM/m2/d, roots included */
    double sugar_min;    /* c0, g/g */
    struct curve growth; /* f(air_share Tair + (1 - air_share) Ts) */
    double air_share;
    double growth_yield; /* Yg */
    double root_share;   /* r */
    double respiration;  /* rm, 1/d at 15 C */
    double q10;
    double respiration_ramp; /* g/g above sugar_min where upkeep is whole */
    double sugar_floor;      /* g sugar/g structure that flows never take */
    double sink_adaptation_d;
    double sink_extinction, sink_full_lai; /* fA = (1 - e^(-0.6 L)) / (1 - e^(-0.6 x 2.5)) */
    double sink_full_area;                 /* the last of that, worked out from the two */
    /* season */
    double phase_winter, phase_spring, phase_summer;
    double st_spring, st_peak, st_heading, st_end; /* C d */
    double st_first_month, st_second_month;        /* weights of the temperature sum */
    double autumn_start, autumn_end;               /* day of the northern year */
    double stem_share;
    /* water, 0..1 of the soil's capacity */
    double dry_growth, dry_growth_span, dry_growth_floor; /* fWG = clip((w - dry) / span, floor, 1) */
    double dry_photo, dry_photo_span, dry_photo_floor;    /* fWP alike */
    double full_cover_lai;                                /* AET = ET0 min(1, L / this) */
    /* cold */
    double soil_lag;                                            /* 1/d */
    double frost_tmin, frost_span, frost_floor, frost_recovery; /* fF; C, C, -, 1/d */
    double killing_frost;                                       /* C, screen minimum; no all-clear for days after */
    double killed_loss;                                         /* 1/d, sugar of killed tissue */
    double snow_cover_mm;                  /* snow water above which the sward is dark and sheltered */
    double snow_et_mm;                     /* mm/d while covered */
    double snow_soil_lag, snow_soil_floor; /* 1/d; C */
    double kill_tmin;                      /* C: a night this cold browns the sward; NaN where it does not */
    double green_up_soil;                  /* C; NaN */
    /* canopy and turnover */
    double leaf_area;              /* m2/g */
    double stem_area_share;        /* share of leaf_area that stem has */
    double leaf_death, stem_death; /* 1/(C d) */
    double death_above;            /* C: no ageing death at or below */
    double leaf_life, stem_life;   /* C d */
    double dead_share;             /* of the dying that stays standing */
    double litter_decay;           /* 1/(C d) */
    double leaf_floor;             /* g/m2 */
    double dying_sugar_lost;       /* share, the rest is moved back; all of it in frost */
    /* management */
    double stubble_cm, stubble_leaf, stubble_stem, stubble_dead; /* cm; g/m2 left at that height */
    double graze_rate;                                           /* 1/d of the excess over a held cover */
    double graze_floor_cm;                                       /* animals leave at least this */
    double height_density;                                       /* kg DM/ha per ruler cm, green and dead */
    /* fractions of the sugar */
    double fructan_most, fructan_half;                      /* share; g/kg; 0: makes none */
    double fructan_cool, fructan_warm, fructan_warm_factor; /* C, C, factor at the warm end */
    double simple_least;                                    /* g/kg of WSC that are never fructan */
    double starch_cool, starch_warm, starch_t_cool,
        starch_t_warm; /* share of NSC by mean temperature; used where the grass gives none */
    /* leaf clock and height */
    double leaf_clock_most;         /* C, daily */
    double short_surplus, short_cm; /* share; cm: stubble of a long-rested sward is richer */
    /* doubt */
    double doubt_factor;  /* of the ln-SD: frost, heading, drought */
    double drought_water; /* w */
    /* the state when nothing is known */
    double start_leaf, start_sugar, start_dead, start_leaf_age, start_slow_lai, start_soil_t, start_water;
};

struct grass { /* a name the keeper knows */
    char id[LIMIT_NAME];
    enum sward_type type;
    double half_sugar;    /* K */
    double growth_factor; /* of growth_max; 1, or 0.8 for species of poor, seldom grazed swards */
    double spread_factor; /* of the ln-SD; 1.25 unknown species, C4, legumes */
    double esc_fructan;   /* share of fructan that counts as ESC: 0.1 long-chain, 0.3 short-chain */
    double starch_share;  /* of NSC; NaN: by temperature (warm-season) */
    double phyllochron;   /* C d a leaf */
};

struct soil {
    char id[LIMIT_NAME];
    double capacity_mm; /* available water */
};

/* The key of a type in models/swards.json: "cool-season", "warm-season", "legume". */
const char *sward_type_name(enum sward_type t);

#endif
