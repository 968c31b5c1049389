/* Colours of the pictures: a ramp for sugar, even in lightness, and four greys for the
 * turnout. Light means little sugar or free grazing, dark much sugar or none, so that
 * a photocopy and a colour-blind reader see the same order.
 *
 * Source of the control points: C. Brewer, M. Harrower, The Pennsylvania State
 * University, 2002, colorbrewer.org, schemes YlGnBu and Greys of 9 classes (Apache-style
 * licence). This program includes color specifications and designs developed by Cynthia
 * Brewer (http://colorbrewer.org/).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PALETTE_H
#define SUGARLEA_PALETTE_H

#include "advice/advice.h"

struct palette_lab { /* CIE 1976 L*a*b*, white point D65 */
    double l, a, b;
};

/* An sRGB colour 0xrrggbb (IEC 61966-2-1) in CIELAB, and the nearest sRGB colour of one. */
struct palette_lab palette_lab_of(unsigned rgb);
unsigned palette_rgb_of(struct palette_lab c);

/* The ramp at share 0 (light) .. 1 (dark), 0xrrggbb: its lightness L* falls evenly. */
unsigned palette_ramp(double share);

/* Classes of NSC: class k reaches from from[k] to the next one's, g/kg DM; the first has no
 * lower end and the last no upper one. */
enum { PALETTE_CLASSES = 9 };
struct palette_scale {
    int n;
    double from[PALETTE_CLASSES];
};

/* The same for every picture, so that years and places can be compared. Limits are our
 * judgement: most days of temperate swards lie in the middle classes. */
struct palette_scale palette_scale_common(void);

/* Even steps of 5, 10, 20 ... g/kg that just hold low..high: shows small differences. */
struct palette_scale palette_scale_between(double low, double high);

int palette_class(const struct palette_scale *s, double nsc); /* -1 for NaN */
unsigned palette_class_colour(const struct palette_scale *s, int k);

unsigned palette_turnout(enum turnout t);

#endif
