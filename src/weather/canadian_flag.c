/* The flags of the Canadian weather service. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/canadian_flag.h"

#include <math.h>
#include <string.h>

/* What was gathered over several days (A, F), is known to have fallen in an unknown amount
 * (C) or perhaps not (L), or is only known to be above or below zero (N, Y), is no value of
 * the day. */
bool canadian_flag(const char *text, size_t n, double *x)
{
    bool letter = n == 1 && (unsigned char)text[0] < 0x80;
    if (letter && strchr("ACFLMNY", text[0])) {
        *x = NAN;
        return true;
    }
    if (letter && text[0] == 'T') { /* a trace */
        *x = isnan(*x) ? 0 : *x;
        return true;
    }
    /* estimated, several times, incomplete; daggers for preliminary and partners' data */
    return letter ? strchr("EBS^", text[0]) != NULL : (unsigned char)text[0] >= 0x80;
}
