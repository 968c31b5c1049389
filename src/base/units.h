/* Units of the United States for text that people read. The program reckons in metric units,
 * and every table and JSON it writes is metric; only here is anything turned into others.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_UNITS_H
#define SUGARLEA_UNITS_H

/* By definition: pound and yard agreement of 1959 (inch, foot, mile, acre of 43,560 square feet),
 * thermochemical calorie. */
#define UNITS_KG_OF_LB 0.45359237
#define UNITS_CM_OF_INCH 2.54
#define UNITS_M_OF_FOOT 0.3048
#define UNITS_KM_OF_MILE 1.609344
#define UNITS_HA_OF_ACRE 0.40468564224
#define UNITS_MS_OF_MPH 0.44704
#define UNITS_MJ_OF_MCAL 4.184

#include <stddef.h>

enum units { SHOW_METRIC, SHOW_US };

enum amount {                      /* metric, United States */
              AMOUNT_MASS,         /* kg, lb */
              AMOUNT_MASS_OF_LAND, /* kg a hectare, lb an acre: named kg and lb */
              AMOUNT_AREA,         /* ha, acres */
              AMOUNT_LENGTH,       /* cm, in */
              AMOUNT_RAIN,         /* mm, in */
              AMOUNT_HEIGHT,       /* m, ft: of the land */
              AMOUNT_DISTANCE,     /* km, mi */
              AMOUNT_SPEED,        /* m/s, mph */
              AMOUNT_TEMPERATURE,  /* C, F */
              AMOUNT_DEGREES,      /* the same, for a difference */
              AMOUNT_ENERGY,       /* MJ, Mcal */
              AMOUNT_SUGAR,        /* g/kg of dry matter, % of it */
              AMOUNTS
};

double units_value(enum units u, enum amount a, double metric);
const char *units_name(enum units u, enum amount a);

/* "a hectare", "an acre". */
const char *units_land(enum units u);

/* "g a kg of dry matter", "% of dry matter". */
const char *units_of_dry_matter(enum units u);

/* "4.6 kg" with so many decimals, "10 lb" with as many as suit a figure of its size; text has
 * UNITS_TEXT bytes. UNITS_SHORT: up to five digits, as somebody wrote them. Returns text. */
enum { UNITS_TEXT = 48, UNITS_SHORT = -1 };
char *units_text(enum units u, enum amount a, double metric, int decimals, char *text);

/* The same without the name of the unit. */
char *units_number(enum units u, enum amount a, double metric, int decimals, char *text);

/* 3.5 -> "3 h 30 min", in both. Returns text. */
const char *units_hours(double hours, char *text, size_t size);

#endif
