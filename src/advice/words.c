/* The fixed words of the advice. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/advice.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

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

const char *advice_esc_text(double esc_pct, double hay_nsc_pct, char *text, size_t size)
{
    char counts[64] = "nobody knows the rest, and it counts as at the limit or above";
    assert(size > 0);
    text[0] = '\0';
    if (isnan(esc_pct)) {
        return text;
    }
    if (hay_nsc_pct > esc_pct) {
        snprintf(counts, sizeof counts, "the table's %.3g %% counts", hay_nsc_pct);
    } else if (!isnan(hay_nsc_pct)) {
        snprintf(counts, sizeof counts, "the hay holds more");
    }
    snprintf(text, size,
             "The laboratory's %.3g %% is ESC + starch, which leaves out most fructan: %s. Ask for WSC + starch.",
             esc_pct, counts);
    return text;
}

const char *advice_teeth_text(const struct advice_animal *animal)
{
    if (history_suits_feed(animal->history, animal->hay, animal->hay_soaked)) {
        return "";
    }
    return animal->hay->is_straw
               ? "Straw is nothing for poor teeth, soaked or not: get a soft hay for it, and give no less until it is "
                 "there."
               : "This hay is too coarse for poor teeth when dry: soak it before it is fed, or get a softer one, and "
                 "give no less.";
}
