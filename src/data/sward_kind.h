/* Parameters of one type of sward (cool-season grass, warm-season grass, legume),
 * the grasses that use them, and soils. Every number comes from
 * models/swards.json with its source. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SWARD_KIND_H
#define SUGARLEA_SWARD_KIND_H

#include "base/limits.h"

#include <stdbool.h>
#include <stddef.h>

#define CURVE_KNOTS 8

struct curve { /* piecewise linear, end values beyond */
    size_t n;
    double x[CURVE_KNOTS], y[CURVE_KNOTS];
};

enum sward_type { SWARD_COOL_SEASON, SWARD_WARM_SEASON, SWARD_LEGUME, SWARD_TYPES };

/* One type. Units as in models/METHOD.md. */
struct sward_kind {
    enum sward_type type;
    /* source: canopy photosynthesis */
    double pm20;            /* mg CO2/m2/s, leaf light-saturated rate at 20 C */
    double source_spring;   /* factor of pm20 in spring */
    double alpha;           /* mg CO2/J PAR */
    double extinction;      /* k */
    double transmission;    /* m */
    struct curve photo;     /* f(Tair) */
    double sugar_max;       /* cmax, g/g */
    double sugar_exponent;
    /* sink: growth */
    double growth_max;      /* g DM/m2/d, roots included */
    double half_sugar;      /* K; a grass may replace it */
    double sugar_min;       /* c0, g/g */
    struct curve growth;    /* f(0.35 Tair + 0.65 Ts) */
    double growth_yield;    /* Yg */
    double root_share;      /* r */
    double respiration;     /* rm, 1/d at 15 C */
    double q10;
    /* season */
    double phase_winter, phase_spring, phase_summer;
    double st_spring, st_peak, st_heading, st_end; /* C d */
    double autumn_start, autumn_end;               /* day of the northern year */
    double stem_share;
    /* canopy and turnover */
    double leaf_area;       /* m2/g */
    double stem_area_share; /* share of leaf_area that stem has */
    double leaf_death, stem_death; /* 1/(C d) */
    double leaf_life, stem_life;   /* C d */
    double litter_decay;    /* 1/(C d) */
    double leaf_floor;      /* g/m2 */
    double soil_lag, air_share;    /* 0.22; 0.35 */
    double sink_adaptation_d;      /* 15 d */
    /* warm-season extras; NaN where they do not apply */
    double kill_tmin;       /* C: a night this cold browns the sward */
    double green_up_soil;   /* C */
};

struct grass { /* a name the keeper knows */
    char id[LIMIT_NAME];
    enum sward_type type;
    double half_sugar;     /* K */
    double growth_factor;  /* of growth_max; 1, or 0.8 for species of poor, seldom grazed swards */
    double spread_factor;  /* of the ln-SD; 1.25 unknown species, C4, legumes */
    double esc_fructan;    /* share of fructan that counts as ESC: 0.1 long-chain, 0.3 short-chain */
    double starch_share;   /* of NSC; NaN: by temperature (warm-season) */
    double phyllochron;    /* C d a leaf */
};

struct soil {
    char id[LIMIT_NAME];
    double capacity_mm; /* available water */
};

#endif
