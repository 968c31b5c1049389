/* The layouts, in the order in which they are asked.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/layout.h"

const struct layout weather_layouts[] = {
    {"not text", refuse_bytes_is, refuse_bytes},
    {"reanalysis point JSON", reanalysis_json_is, reanalysis_json_read},
    {"forecast service JSON", forecast_json_is, forecast_json_read},
    {"other JSON", refuse_json_is, refuse_json},
    {"other text", refuse_text_is, refuse_text},
    {"CSV", csv_is, csv_read},
};
const size_t weather_layout_count = sizeof weather_layouts / sizeof weather_layouts[0];
