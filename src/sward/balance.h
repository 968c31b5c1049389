/* The hour's flows of sugar of one part of the sward.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_BALANCE_H
#define SUGARLEA_BALANCE_H

#include "sward/sward.h"

#include <math.h>

#define G_KG 1000.0

struct balance_factors { /* of the day */
    double lai;          /* of the morning */
    double sink;         /* fPh fA fWG fN */
    double source;       /* fQ fWP fF: of pm20 */
    double wet;          /* fWP fF: of alpha */
    double soil_t;       /* Ts, C */
    bool dormant;        /* snow cover, or browned off: no light, no growth */
};

struct balance {       /* what the hours need and the sugar does not change */
    double supply[24]; /* A at no sugar, g/m2/h */
    double upkeep[24]; /* R of a gram of structure well fed, 1/h */
    double growth[24]; /* G at endless sugar, g/m2/h */
    double sugar_max_inverse, sugar_exponent, ramp_inverse;
    double sugar_min, half_sugar, yield_inverse, sugar_floor;
};

struct balance_flows { /* of one hour, g/m2 */
    double supply, upkeep, growth;
};

void balance_prepare(struct balance *b, const struct sward_kind *k, const struct sward_own *own,
                     const struct balance_factors *f, const struct sward_day *d);

/* Its pieces: all but supply, growth and half_sugar; what growth is at endless sugar without limits of
 * the day, 0 to 1, hour by hour, and by what it is multiplied, g/m2/h. */
void balance_common(struct balance *b, const struct sward_kind *k, const struct sward_day *d);
void balance_growth_curve(const struct sward_kind *k, double soil_t, const struct sward_day *d, double curve[24]);
double balance_growth_scale(const struct sward_kind *k, double growth_max, const struct balance_factors *f);

/* The flows of hour h from the state at its start: sugar and structure, g/m2, and
 * content, the first as a share of both. The sugar changes by supply - upkeep -
 * growth * yield_inverse. In the header because it is the inner loop of the program. */
static inline struct balance_flows balance_hour(const struct balance *b, int h, double sugar, double structure,
                                                double content)
{
    double above = content - b->sugar_min;
    struct balance_flows f = {0.0, 0.0, 0.0};
    above = above > 0.0 ? above : 0.0;
    if (b->supply[h] > 0.0 && content > 0.0) {
        double fill = exp(b->sugar_exponent * log(content * b->sugar_max_inverse));
        f.supply = b->supply[h] * (fill < 1.0 ? 1.0 - fill : 0.0);
    } else {
        f.supply = b->supply[h];
    }
    double ramp = above * b->ramp_inverse;
    f.upkeep = b->upkeep[h] * structure * (ramp < 1.0 ? ramp : 1.0);
    f.growth = b->growth[h] * above / (above + b->half_sugar);
    double need = f.upkeep + f.growth * b->yield_inverse, most = sugar + f.supply - b->sugar_floor * structure;
    if (need > most) { /* both are held back alike rather than empty the pool */
        double share = most > 0.0 ? most / need : 0.0;
        f.upkeep *= share;
        f.growth *= share;
    }
    return f;
}

struct balance_sums {              /* one part's day */
    double sugar;                  /* g/m2; in: morning; out: evening */
    double supply, upkeep, growth; /* sums, g/m2 */
    double nsc;                    /* mean of the hours, g/kg */
};

struct balance_day {
    struct balance_sums sums;
    double structure;   /* g/m2; in: morning; out: evening, new structure counted */
    double content[24]; /* NSC at the end of each hour, g/g */
    double green[24];   /* structure and sugar then, g/m2 */
};

void balance_run(const struct balance *b, struct balance_day *day);

/* Both, to the last bit as one after the other and in little more than half the time: an hour waits for the
 * end of the one before, and while one part waits the processor works on the other. */
void balance_run_two(const struct balance *b, struct balance_day *day, const struct balance *other,
                     struct balance_day *other_day);

#endif
