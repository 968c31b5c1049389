/* The record at a glance. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_WEATHER_STRIP_H
#define SUGARLEA_OUT_WEATHER_STRIP_H

#include "out/weather.h"

extern const char *const weather_strip_legend;

/* A head of months and a line for each year, under 64 columns. */
void weather_strip(const struct weather_view *v, struct buf *b);

#endif
