/* One animal on one day, made ready for the search: the grass at the judged level,
 * the feeds summed, the limits in force. Inside src/advice only.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ADVICE_CASE_H
#define SUGARLEA_ADVICE_CASE_H

#include "advice/advice.h"
#include "animal/ration.h"

/* Rounding alone must not refuse hay that stands exactly at its own limit. */
#define ADVICE_ROUNDING 1e-9

struct advice_case {
    const struct advice_tables *tables;
    const struct advice_grass *day;
    const struct advice_animal *animal;
    const struct animal_class *rules;
    const struct advice_limits *limits;
    struct session_grass grass; /* at the judged level */
    double weight_kg;
    double day_kg; /* what a head eats in 24 h, DM */
    int dawn;      /* slot */
    /* feeds; dm_kg of hay is 0 here */
    struct ration_item hay, fed_forage, bucket;
    bool hay_known, feds_known; /* their NSC */
    bool feds_weighed;
    bool complete; /* all that has to be known is */
    /* limits in force, % of ration DM */
    double caution, stop;
    double judged_hay_pct; /* NSC of the hay as hours are judged by it: bad hay must not open the grass */
    bool hay_over;
    double ceiling_g_kg; /* NaN: none */
    double fibre_floor;  /* % NDF; NaN: none, or not to be judged */
    bool fibre_unknown, hay_low_fibre, bucket_low_fibre, bucket_dropped;
    double base_nsc_pct; /* of the day without any grass, as it is judged */
};

void advice_case_make(const struct advice_tables *t, const struct advice_grass *grass,
                      const struct advice_animal *animal, const struct advice_limits *limits, struct advice_case *c);

/* Hay and feed alone are over the caution limit in force: no grass is to blame. */
bool advice_case_base_over(const struct advice_case *c);

/* The bucket is left out from here on; hay takes its place. */
void advice_case_drop_bucket(struct advice_case *c);

/* Grass that a head takes in a session of so many slots, kg DM: capped by what the sward can give. */
double advice_case_grass(const struct advice_case *c, int length, double factor);

/* Hay that fills the day, and never less than the forage floor, kg DM. */
double advice_case_hay(const struct advice_case *c, double grass_kg);

/* g of the hay's NSC that are given and not judged; what is eaten counts against a ceiling all the same. */
double advice_case_unjudged_g(const struct advice_case *c, double grass_kg);

/* The day's ration with so much grass of such NSC (g/kg): as it is judged, and as it is given. */
struct ration_sum advice_case_ration(const struct advice_case *c, double grass_kg, double grass_nsc);
struct ration_sum advice_case_given(const struct advice_case *c, double grass_kg, double grass_nsc);

#endif
