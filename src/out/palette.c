/* The ramp is drawn through the published colours in CIELAB and walked at an even pace
 * of lightness. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/palette.h"

#include "base/num.h"

#include <math.h>

/* CIE 15:2004: the white of D65, and the bend of the lightness curve. */
static const struct {
    double x, y, z;
} white = {0.95047, 1.0, 1.08883};
#define BEND (6.0 / 29.0)

#define LIGHTEST 95.0 /* L* of share 0: still seen on white paper */
#define DARKEST 16.0  /* L* of share 1 */

enum { CONTROLS = 9 };
static const unsigned yl_gn_bu[CONTROLS] = {0xffffd9, 0xedf8b1, 0xc7e9b4, 0x7fcdbb, 0x41b6c4,
                                            0x1d91c0, 0x225ea8, 0x253494, 0x081d58};

/* Greys: the 3rd, 5th, 7th and 9th of nine. */
static const unsigned greys[] = {0xd9d9d9, 0x969696, 0x525252, 0x000000};

static double to_linear(unsigned byte)
{
    double v = byte / 255.0;
    return v <= 0.04045 ? v / 12.92 : pow((v + 0.055) / 1.055, 2.4);
}

static unsigned from_linear(double v)
{
    v = num_clip(v, 0.0, 1.0);
    return (unsigned)lround(255.0 * (v <= 0.0031308 ? 12.92 * v : 1.055 * pow(v, 1.0 / 2.4) - 0.055));
}

static double bent(double t)
{
    return t > BEND * BEND * BEND ? cbrt(t) : t / (3.0 * BEND * BEND) + 4.0 / 29.0;
}

static double unbent(double f)
{
    return f > BEND ? f * f * f : 3.0 * BEND * BEND * (f - 4.0 / 29.0);
}

struct palette_lab palette_lab_of(unsigned rgb)
{
    double r = to_linear(rgb >> 16 & 255u), g = to_linear(rgb >> 8 & 255u), b = to_linear(rgb & 255u);
    double x = bent((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / white.x);
    double y = bent((0.2126729 * r + 0.7151522 * g + 0.0721750 * b) / white.y);
    double z = bent((0.0193339 * r + 0.1191920 * g + 0.9503041 * b) / white.z);
    return (struct palette_lab){116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)};
}

unsigned palette_rgb_of(struct palette_lab c)
{
    double f = (c.l + 16.0) / 116.0;
    double x = white.x * unbent(f + c.a / 500.0), y = white.y * unbent(f), z = white.z * unbent(f - c.b / 200.0);
    return from_linear(3.2404542 * x - 1.5371385 * y - 0.4985314 * z) << 16 |
           from_linear(-0.9692660 * x + 1.8760108 * y + 0.0415560 * z) << 8 |
           from_linear(0.0556434 * x - 0.2040259 * y + 1.0572252 * z);
}

unsigned palette_ramp(double share)
{
    double wanted = LIGHTEST + num_clip(share, 0.0, 1.0) * (DARKEST - LIGHTEST);
    struct palette_lab light = palette_lab_of(yl_gn_bu[0]), dark = light;
    for (int i = 1; i < CONTROLS && dark.l > wanted; i++) {
        light = dark;
        dark = palette_lab_of(yl_gn_bu[i]);
    }
    double way = (light.l - wanted) / (light.l - dark.l);
    return palette_rgb_of(
        (struct palette_lab){wanted, light.a + way * (dark.a - light.a), light.b + way * (dark.b - light.b)});
}

struct palette_scale palette_scale_common(void)
{
    return (struct palette_scale){PALETTE_CLASSES, {0, 75, 100, 125, 150, 175, 200, 250, 300}};
}

struct palette_scale palette_scale_between(double low, double high)
{
    struct palette_scale s = {0};
    double step = 5.0, first = step * floor(low / step);
    while (first + PALETTE_CLASSES * step < high) {
        step *= 2.0;
        first = step * floor(low / step);
    }
    do {
        s.from[s.n] = first + step * s.n;
        s.n++;
    } while (first + step * s.n < high);
    return s;
}

int palette_class(const struct palette_scale *s, double nsc)
{
    int k = s->n - 1;
    while (k > 0 && nsc < s->from[k]) {
        k--;
    }
    return isnan(nsc) ? -1 : k;
}

unsigned palette_class_colour(const struct palette_scale *s, int k)
{
    return palette_ramp(s->n > 1 ? (double)k / (s->n - 1) : 0.5);
}

unsigned palette_turnout(enum turnout t)
{
    return greys[t];
}
