/* The layouts, in the order in which they are asked.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/layout.h"

const struct layout weather_layouts[] = {
    {"not-text", NULL, refuse_bytes_is, refuse_bytes},
    {"reanalysis-json", "global reanalysis (NASA POWER) of one point, daily", reanalysis_json_is, reanalysis_json_read},
    {"forecast-json", "Open-Meteo forecast or archive, days or hours", forecast_json_is, forecast_json_read},
    {"forecast-json-many", "the same for several places", forecast_many_is, forecast_many_read},
    {"norwegian-forecast", "MET Norway location forecast", norwegian_json_is, norwegian_json_read},
    {"us-grid-forecast", "US National Weather Service, forecast on its grid", us_grid_json_is, us_grid_json_read},
    {"summaries-json", "NOAA daily summaries", summaries_json_is, summaries_json_read},
    {"other-json", NULL, refuse_json_is, refuse_json},
    {"austrian-daily", "GeoSphere Austria", austrian_is, austrian_read},
    {"canadian-daily", "Environment Canada, a station", canadian_is, canadian_read},
    {"canadian-element", "the same, one variable by day of the year", canadian_element_is, canadian_element_read},
    {"patched-point-csv", "Queensland's SILO, CSV", patched_point_is, patched_point_read},
    {"australian-station", "Bureau of Meteorology, one variable of a station", australian_is, australian_read},
    {"swiss-daily", "MeteoSwiss", swiss_is, swiss_read},
    {"six-columns", "year month day rain tmax tmin, without names", six_columns_is, six_columns_read},
    {"summaries-csv", "NOAA daily summaries, as ordered or by station", summaries_csv_is, summaries_csv_read},
    {"ghcn-by-year", "GHCN-Daily, a value a line", ghcn_by_year_is, ghcn_by_year_read},
    {"ghcn-dly", "GHCN-Daily, fixed width", ghcn_dly_is, ghcn_dly_read},
    {"reanalysis-csv", "global reanalysis (NASA POWER), CSV", reanalysis_csv_is, reanalysis_csv_read},
    {"irish-daily", "Met Eireann", irish_daily_is, irish_daily_read},
    {"dutch-rain", "KNMI, rain of an observer", dutch_rain_is, dutch_rain_read},
    {"dutch-daily", "KNMI, a station", dutch_daily_is, dutch_daily_read},
    {"german-daily", "DWD, a station", german_daily_is, german_daily_read},
    {"other-text", NULL, refuse_text_is, refuse_text},
    {"blank-table", "any table with blanks between its columns", blank_table_is, blank_table_read},
    {"tidy-csv", "what sugarlea weather --csv writes", tidy_csv_is, tidy_csv_read},
    {"csv", "any table with a row of names", csv_is, csv_read},
};
const size_t weather_layout_count = sizeof weather_layouts / sizeof weather_layouts[0];
