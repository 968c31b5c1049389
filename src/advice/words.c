/* The fixed words of the advice. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/advice.h"

#include <assert.h>

const char *turnout_name(enum turnout t)
{
    assert(t <= TURNOUT_NONE);
    static const char *const names[] = {
        [TURNOUT_FREE] = "free", [TURNOUT_TIMED] = "timed", [TURNOUT_BRIEF] = "brief", [TURNOUT_NONE] = "none"};
    return names[t];
}

const char *advice_reason_id(enum advice_reason r)
{
    assert(r < REASON_COUNT);
    static const char *const ids[REASON_COUNT] = {
        [REASON_FOOT_SIGNS] = "foot-signs",   [REASON_ACUTE] = "acute",
        [REASON_RESTED] = "rested",           [REASON_WAY_BACK] = "way-back",
        [REASON_UNKNOWN] = "unknown",         [REASON_HAY_OVER] = "hay-over",
        [REASON_HAY_UNKNOWN] = "hay-unknown", [REASON_STOP_OVER] = "stop-over",
        [REASON_DAY_CEILING] = "day-ceiling", [REASON_KILLING_FROST] = "killing-frost",
        [REASON_WITHIN_STOP] = "within-stop", [REASON_MUZZLE] = "muzzle",
        [REASON_GRASS_OVER] = "grass-over",   [REASON_FIBRE] = "fibre",
        [REASON_MAX_HOURS] = "max-hours",     [REASON_GRASS_UNDER] = "grass-under",
        [REASON_BUCKET] = "bucket",           [REASON_FIBRE_UNKNOWN] = "fibre-unknown",
        [REASON_OUR_CAPS] = "our-caps"};
    return ids[r];
}
