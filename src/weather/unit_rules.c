/* What speaks against a reading of numbers without units. All bounds are our judgement
 * unless a source stands beside them; where they come from:
 *
 * - How the archive writes numbers: orders in US units have whole degrees F, rain in
 *   hundredths of an inch and mean wind in hundredths of mph; its own numbers are whole
 *   tenths (both as its files show); metric ones have one decimal (from memory).
 * - Whole numbers and the grid of degrees F speak with half of the points only: somebody
 *   may have rounded, and some stations of the United States read tenths of C.
 * - The range of a day: no station whose half or more days are within 2 C is known to
 *   us; below 4 C is rare and of the sea; above 28 C is no place's median.
 * - Maxima move by 1.5 to 4 C from day to day in middle latitudes, and by about 1 C in the wet
 *   tropics (from memory).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/unit_sense.h"

#include <stdint.h>

#define METRIC (1u << UNITS_METRIC)
#define US (1u << UNITS_US)
#define TENTHS (1u << UNITS_TENTHS)
#define ANY (METRIC | US | TENTHS)
#define NEVER SIZE_MAX
#define SLIP 0.005 /* share of values that may be slips of the hand */

const struct unit_rule unit_rules[] = {
    {T_IMPOSSIBLE, T_VALUES, SLIP, 1, 1, ANY, "some temperatures would be beyond what was ever measured"},
    {T_BROKEN, T_VALUES, SLIP, 1, 1, TENTHS, "its temperatures are not whole numbers"},
    {T_BROKEN, T_VALUES, SLIP, 1, 10, US, "its temperatures are not whole numbers"},
    {T_WHOLE, T_VALUES, 1, 6, NEVER, METRIC, "its temperatures are whole numbers"},
    {T_OFF_GRID, T_GRID_VALUES, 0.6, 12, NEVER, METRIC | TENTHS, "its temperatures are not those of whole degrees F"},
    {T_EVEN, T_PAIRS, 0.5, 4, 20, ANY, "nights would be as warm as their days"},
    {T_NARROW, T_PAIRS, 0.5, 30, NEVER, ANY, "days would be little warmer than nights"},
    {T_WIDE, T_PAIRS, 0.5, 4, 10, ANY, "days would be impossibly warmer than nights"},
    {T_STILL, T_STEPS, 0.5, 30, NEVER, ANY, "days would be as warm as the day before"},
    {T_TOO_WARM, T_SUN_DAYS, 0.5, 4, 10, ANY, "it would be too warm for the season and latitude"},
    {T_TOO_COLD, T_SUMMER_DAYS, 0.5, 4, 10, ANY, "it would be too cold for the season and latitude"},
    {R_IMPOSSIBLE, R_DAYS, SLIP, 1, 1, ANY, "there would be more rain than was ever measured"},
    {R_HUGE, R_DAYS, SLIP, 1, 10, ANY, "there would be too much rain in a day"},
    {R_BROKEN, R_WET, SLIP, 1, 1, TENTHS, "its rain is not in whole numbers"},
    {R_WHOLE, R_WET, 1, 4, 10, METRIC, "its rain is in whole numbers"},
    {R_WHOLE, R_WET, 1, 2, 5, US, "its rain is in whole numbers"},
    {R_HUNDREDTH, R_WET, SLIP, 1, 3, METRIC, "its rain has two decimals"},
    {R_NO_HUNDREDTH, R_WET, 1, 2, 5, US, "its rain has no second decimal"},
    {R_UNUSUAL, R_SITES, 0.5, 1, NEVER, ANY, "the rain of a year would be unusual"},
    {R_UNHEARD, R_SITES, 0.5, 1, 1, ANY, "the rain of a year would be unheard of"},
    {W_IMPOSSIBLE, W_DAYS, SLIP, 1, 10, ANY, "there would be a mean wind beyond hurricanes"},
    {W_STORM, W_DAYS, 0.5, 4, 10, ANY, "there would always be a storm"},
    {W_BROKEN, W_DAYS, SLIP, 1, 1, TENTHS, "its wind is not in whole numbers"},
    {W_WHOLE, W_DAYS, 1, 4, 10, METRIC | US, "its wind is in whole numbers"},
    {W_HUNDREDTH, W_DAYS, SLIP, 1, 3, METRIC, "its wind has two decimals"},
    {W_NO_HUNDREDTH, W_DAYS, 1, 2, 5, US, "its wind has no second decimal"},
};
const size_t unit_rule_count = sizeof unit_rules / sizeof unit_rules[0];
