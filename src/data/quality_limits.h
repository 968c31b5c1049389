/* The limits by which recorded weather is doubted: models/weather-limits.json.
 * "Spreads" are robust standard deviations, from the quantiles 0.1 and 0.9 of the
 * record itself at that time of the year. Steps and rain are doubted less readily by a
 * record of few years, which knows little. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_QUALITY_LIMITS_H
#define SUGARLEA_QUALITY_LIMITS_H

struct quality_limits {
    double least_days;       /* 300: recorded days of a variable below which there are no statistics */
    double season_days;      /* 15: days to each side that make a time of the year */
    double range_spreads;    /* 6: further from the season's middle is unusual */
    double step_spreads;     /* 3.4: further from what the days beside it lead one to expect is a step */
    double slip_gain;        /* 9: squared spreads that the right reading must gain over the one written */
    double sign_gain;        /* 4: the same for a minus sign */
    double slip_fit;         /* 5: squared spreads, two temperatures, within which a reading fits */
    double chance_runs;      /* 0.3: equal values are doubted when so few such runs are expected in the record */
    double frozen_days;      /* 4: shortest run that is doubted */
    double shift_score;      /* 9: log-likelihood that one day earlier must gain over a stretch */
    double clear_sky_excess; /* 1.15: radiation over clear-sky radiation (FAO-56 Eq. 37) that is doubted */
    double rain_chance;      /* 0.0083: a rain that so few days with the same sun and humidity exceed is doubted */
    double impossible_sun;   /* 0.05: a latitude that more sun reaches on more of the days than could is refused */
    double doubt_days;       /* 14: doubts about the last so many days are said one by one beside an advice */
    double doubt_say_c;      /* 1.5: a temperature doubted by less moves no hours, and is not said beside an advice */
    double wind_mean_m_s;    /* 6: a higher mean at 2 m was measured higher up */
};

#endif
