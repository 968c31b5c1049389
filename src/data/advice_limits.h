/* The numbers of the advice that belong to no animal class: models/limits.json.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ADVICE_LIMITS_H
#define SUGARLEA_ADVICE_LIMITS_H

struct advice_limits {
    /* spread of the sugar estimate, ln-SD */
    double spread_paddock;         /* 0.36, one untested paddock */
    double spread_tested;          /* 0.25, after one laboratory test */
    double spread_assumed_weather; /* 0.10, added as root sum of squares */
    double spread_late_day;        /* 2: variance of a day assumed before the morning, in that of the morning's own */
    double spread_estimated;       /* 0.25, the same, when all weather before the day is day-of-year means */
    double spread_short_record;    /* factor when under min_days of weather */
    double min_days;               /* 300 days of weather before the first advice */
    /* turnout search */
    double step_h;              /* session lengths tried, h; to the nearest 5 minutes */
    double window_step_min;     /* start times tried and shown, minutes; to the nearest 5 */
    double brief_h;             /* up to this a session is brief */
    double window_first_h;      /* 5: animals are turned out and brought in between these solar hours */
    double window_last_h;       /* 21 */
    double window_tie_pct;      /* 0.05 % of ration DM: windows this near the best are as good, nearest dawn wins */
    double muzzle_max_h;        /* 12: a muzzle comes off for part of every day */
    double at_risk_probability; /* 0.7: an animal judged at this level_probability or more counts as at risk */
    double better_hay_nsc_pct;  /* 8: the hay of "what would a better hay change" */
    /* hard rules */
    double equid_nsc_day_g_kg; /* 5 g NSC/kg body weight and day, equids: never */
    double killing_frost_days; /* no all-clear for so many days after a frost as hard as swards.json says */
    double usual_hay_nsc_pct;  /* 12.8: hay over the caution limit raises it so far, and no further */
    double thaw_c;             /* 3: air at which white grass has thawed */
    /* intake */
    double intake_exponent;                            /* 0.5 */
    double muzzle_pony, muzzle_horse, muzzle_limit_kg; /* 0.21, 0.70, 350 */
    double grass_ndf_pct;                              /* young grass, NASEM 2021 */
    double grass_starch_pct;                           /* fallback share of DM when the sward does not say */
    double bale_dm_pct;                                /* 86 % */
    double hay_nsc_least_pct;                          /* 3: no hay has been found with less */
    double fed_most_times; /* 2: feed over so many times what the class eats at most is a slip */
    /* buckets of goats and sheep */
    double grain_meal_kg;    /* 0.45: more grain at once is a large meal, kg as fed */
    double grain_starch_pct; /* 20: a feed of so much starch counts as grain, % of DM */
    /* body weight by tape */
    double tape_error_pct; /* 10, either way */
    double tape_horse_kg;  /* 350: lighter equids are weighed as ponies and donkeys */
    /* weather */
    double stale_notice_days, stale_provisional_days, stale_refuse_days; /* 1, 3, 7 */
    double gap_fill_days;                                                /* 5 */
    double gap_recent_days;                                              /* 60 */
    double estimated_half_days; /* 4: the last so many days make up half of that */
    double k_rs_days;           /* 200: days with radiation by which its estimate from temperatures is fitted */
    double weather_far_km;      /* 50: farther weather is said to be so */
    double weather_high_m;      /* 150: so much higher or lower is said */
    /* the diary */
    double way_back_followed_days; /* 400: past mornings advised again, to know the days off grass */
    double insulin_days;           /* 60: so long a reading is said beside the advice */
    double lost_signs_days;        /* 30: so long foot signs under an unknown id head the advice */
    double hay_test_same_pct;      /* 0.05: a hay test so near to the holding file's figure says the same */
    /* the round over many holdings */
    double round_ahead_days; /* 7: mornings ahead that a forecast is looked through for */
    double round_hay_days;   /* 7: hay that ends within so many days is a call today */
    /* grass */
    double low_green_kg_ha; /* 200: the sugar of so little grass means little */
    /* how old an entry of the diary may be before the sheet reminds of a new one */
    double remind_hay_test_days;   /* 365: a new harvest is another hay */
    double remind_grass_test_days; /* 180: spring and autumn */
    double remind_weight_days;     /* 30: weight, and body condition */
    double remind_height_days;     /* 30: of the sward */
    /* a holding that does not say */
    double default_cover_kg_ha;                                          /* held cover, total herbage */
    double default_stubble_cm;                                           /* left by a cut */
    double nitrogen_none, nitrogen_low, nitrogen_normal, nitrogen_heavy; /* fN: factor of growth */
};

#endif
