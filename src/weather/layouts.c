/* The layouts, in the order in which they are asked.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/layout.h"

const struct layout weather_layouts[] = {
    {"not-text", true, refuse_bytes_is, refuse_bytes},
    {"reanalysis-json", false, reanalysis_json_is, reanalysis_json_read},
    {"forecast-json", false, forecast_json_is, forecast_json_read},
    {"forecast-json-many", false, forecast_many_is, forecast_many_read},
    {"norwegian-forecast", false, norwegian_json_is, norwegian_json_read},
    {"us-grid-forecast", false, us_grid_json_is, us_grid_json_read},
    {"summaries-json", false, summaries_json_is, summaries_json_read},
    {"other-json", true, refuse_json_is, refuse_json},
    {"austrian-daily", false, austrian_is, austrian_read},
    {"canadian-daily", false, canadian_is, canadian_read},
    {"canadian-element", false, canadian_element_is, canadian_element_read},
    {"patched-point-csv", false, patched_point_is, patched_point_read},
    {"australian-station", false, australian_is, australian_read},
    {"swiss-daily", false, swiss_is, swiss_read},
    {"six-columns", false, six_columns_is, six_columns_read},
    {"summaries-csv", false, summaries_csv_is, summaries_csv_read},
    {"ghcn-by-year", false, ghcn_by_year_is, ghcn_by_year_read},
    {"ghcn-dly", false, ghcn_dly_is, ghcn_dly_read},
    {"reanalysis-csv", false, reanalysis_csv_is, reanalysis_csv_read},
    {"irish-daily", false, irish_daily_is, irish_daily_read},
    {"dutch-rain", false, dutch_rain_is, dutch_rain_read},
    {"dutch-daily", false, dutch_daily_is, dutch_daily_read},
    {"german-daily", false, german_daily_is, german_daily_read},
    {"other-text", true, refuse_text_is, refuse_text},
    {"blank-table", false, blank_table_is, blank_table_read},
    {"tidy-csv", false, tidy_csv_is, tidy_csv_read},
    {"csv", false, csv_is, csv_read},
};
const size_t weather_layout_count = sizeof weather_layouts / sizeof weather_layouts[0];
