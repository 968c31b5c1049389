/* The hours of many swards side by side, a sward a lane: the equations of balance.c and
 * canopy.c in straight loops over the lanes. The lanes of one day share its weather, the
 * curves and upkeep of one kind; the rest is a lane's own.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_LANES_H
#define SUGARLEA_LANES_H

#include <stdbool.h>
#include <stddef.h>

enum { LANES = 32, LANES_STEP = 4 /* the widest register, in doubles */ };

struct lanes_kind { /* of the kind or the day, alike in all lanes */
    double sugar_max_inverse, sugar_exponent, ramp_inverse, sugar_min, yield_inverse, sugar_floor;
    double photo[24], par[24], upkeep[24], growth[24], supply_scale, through, extinction;
    double sink_extinction, sink_full_area; /* canopy_sink_area's */
};

struct lanes_part { /* one part of each sward */
    double share[LANES], half_sugar[LANES];
    double growth_most[LANES]; /* G at endless sugar where the hour's growth and fA are 1, g/m2/h; out: fA in it */
    double pm[LANES], light[LANES], lai[LANES]; /* canopy_supply's */
    double slow_lai[LANES];
    double sugar[LANES], structure[LANES];                /* g/m2; in: morning; out: evening */
    double supplied[LANES], kept_up[LANES], grown[LANES]; /* out: sums, g/m2 */
    double nsc[LANES];                                    /* out: mean, g/kg */
};

struct lanes_ground {          /* at each hour's end, the parts so far together */
    double content[24][LANES]; /* of sugar in green matter, g/g */
    double green[24][LANES];   /* g/m2 */
};

struct lanes_report {
    double nsc_hour[24][LANES], nsc_min[LANES], nsc_max[LANES], nsc_mean[LANES]; /* g/kg */
};

/* n: a multiple of LANES_STEP, at most LANES. Adds to ground; first: to nothing. */
void lanes_hours(const struct lanes_kind *k, struct lanes_part *p, size_t n, bool first, struct lanes_ground *ground);
void lanes_sugar(const struct lanes_ground *ground, size_t n, struct lanes_report *r);

/* The hours of one lane. */
void lanes_pick(const struct lanes_report *r, size_t lane, double nsc_hour[24]);

#endif
