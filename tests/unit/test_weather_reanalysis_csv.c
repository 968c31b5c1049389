/* The global reanalysis as CSV with its header block. The block is worded as the service
 * words it (public domain, recorded 2022); days and values are invented. Expected units
 * follow from their definitions (1 kWh = 3.6 MJ) and FAO-56 Eq. 47 for wind.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define TOP "-BEGIN HEADER-\r\nNASA/POWER Source Native Resolution Daily Data \r\n"
#define DATES "Dates (month/day/year): 02/28/2024 through 03/01/2024 in LST\r\n"
#define PLACE                                                                                                          \
    "Location: latitude  53.5   longitude -6.25 \r\n"                                                                  \
    "elevation from MERRA-2: Average for 0.5 x 0.625 degree lat/lon region = 85.03 meters\r\n"                         \
    "The value for missing source data that cannot be computed or is outside of the sources availability range: "      \
    "-999 \r\nparameter(s): \r\n"
#define TEMPERATURES                                                                                                   \
    "T2M_MIN     MERRA-2 Temperature at 2 Meters Minimum (C) \r\n"                                                     \
    "T2M_MAX     MERRA-2 Temperature at 2 Meters Maximum (C) \r\n"
#define REST                                                                                                           \
    "PRECTOTCORR       MERRA-2 Precipitation Corrected (mm/day) \r\n"                                                  \
    "WS10M             MERRA-2 Wind Speed at 10 Meters (m/s) \r\n"
#define MJ "ALLSKY_SFC_SW_DWN     CERES SYN1deg All Sky Surface Shortwave Downward Irradiance (MJ/m^2/day) \r\n"
#define KWH "ALLSKY_SFC_SW_DWN     CERES SYN1deg All Sky Surface Shortwave Downward Irradiance (kW-hr/m^2/day) \r\n"
#define NAMES "-END HEADER-\r\nYEAR,DOY,T2M,T2M_MIN,T2M_MAX,PRECTOTCORR,WS10M,ALLSKY_SFC_SW_DWN\r\n"
#define ROWS "2024,59,3.1,-1.5,9.25,0.4,4,10\r\n2024,60,3.1,0,10,-999,4,-999\r\n2024,61,4,2,12,3.0,4,5\r\n"

static const char daily[] = TOP DATES PLACE TEMPERATURES REST MJ NAMES ROWS;

static void days_of_the_year_are_read(void **state)
{
    (void)state;
    layout_day_is(daily, "2024-02-28", WEATHER_TMIN, -1.5);
    layout_day_is(daily, "2024-02-29", WEATHER_TMAX, 10);
    layout_day_is(daily, "2024-03-01", WEATHER_RAIN, 3);
    layout_day_is(daily, "2024-02-29", WEATHER_RAIN, NAN);
    layout_day_is(daily, "2024-02-28", WEATHER_WIND, 4 * 0.748);
    layout_day_is(daily, "2024-02-28", WEATHER_RAD, 10);
    layout_day_is(daily, "2024-02-29", WEATHER_RAD, NAN);
}

static void place_and_note_come_from_the_block(void **state)
{
    struct weather_text t;
    (void)state;
    weather_text_read(&t, daily);
    assert_int_equal(t.code, ERR_OK);
    assert_string_equal(t.set.layout, "reanalysis-csv");
    assert_string_equal(t.set.ignored, "T2M");
    assert_string_equal(t.set.note, "");
    assert_true(t.set.site[0].place.latitude == 53.5 && t.set.site[0].place.longitude == -6.25);
    assert_true(t.set.site[0].place.elevation_m == 85.03);
    weather_text_release(&t);
}

/* A line without the dates in UTC keeps silent near Greenwich and speaks far from it. */
static void days_of_utc_far_away_are_noted(void **state)
{
    static const struct {
        const char *text, *note;
    } cases[] = {
        {TOP "Dates (month/day/year): 02/28/2024 through 02/28/2024 in UTC\r\n" PLACE TEMPERATURES
             "-END HEADER-\r\nYEAR,DOY,T2M_MIN,T2M_MAX\r\n2024,59,1,2\r\n",
         ""},
        {TOP "Dates (month/day/year): 02/28/2024 through 02/28/2024 in UTC\r\n"
             "Location: Latitude  -27.5   Longitude 153 \r\n" TEMPERATURES
             "-END HEADER-\r\nYEAR,DOY,T2M_MIN,T2M_MAX\r\n2024,59,1,2\r\n",
         "days of UTC"},
    };
    (void)state;
    for (size_t i = 0; i < 2; i++) {
        struct weather_text t;
        weather_text_read(&t, cases[i].text);
        assert_int_equal(t.code, ERR_OK);
        assert_true(cases[i].note[0] ? strstr(t.set.note, cases[i].note) != NULL : !t.set.note[0]);
        weather_text_release(&t);
    }
}

static void versions_differ_in_dates_case_and_line_ends(void **state)
{
    (void)state;
    layout_day_is(TOP "Location: Latitude  53.5   Longitude -6.25 \r\nElevation from MERRA-2: Average = 85 meters\r\n"
                      "Parameter(s): \r\n" TEMPERATURES "-END HEADER-\r\nYEAR,MO,DY,T2M_MIN,T2M_MAX\n2024,2,29,1,2\n",
                  "2024-02-29", WEATHER_TMAX, 2);
    layout_day_is(TOP DATES PLACE TEMPERATURES REST KWH NAMES ROWS, "2024-02-28", WEATHER_RAD, 36);
    layout_day_is(TOP "WS2M   MERRA-2 Wind Speed at 2 Meters (m/s) \r\n" TEMPERATURES REST
                      "-END HEADER-\r\nYEAR,DOY,T2M_MIN,T2M_MAX,WS10M,WS2M\n2024,60,1,2,8,5\n",
                  "2024-02-29", WEATHER_WIND, 5);
}

static void other_products_are_refused(void **state)
{
    (void)state;
    layout_refused(TOP
                   "-END HEADER-\r\nPARAMETER,JAN,FEB,MAR,APR,MAY,JUN,JUL,AUG,SEP,OCT,NOV,DEC,ANN\nT2M,1,2,3,4,5,6,7,8,"
                   "9,10,11,12,6\n",
                   4, "JAN", "daily values of one point");
    layout_refused(TOP "-END HEADER-\r\nPARAMETER,YEAR,JAN,FEB,MAR,APR,MAY,JUN,JUL,AUG,SEP,OCT,NOV,DEC,ANN\n", 4, "JAN",
                   "monthly");
    layout_refused(TOP "-END HEADER-\r\nYEAR,MO,DY,HR,T2M\r\n2024,2,28,0,1\r\n", 4, "HR", "hourly");
    layout_refused(TOP "-END HEADER-\r\nLAT,LON,YEAR,MO,DY,T2M_MIN,T2M_MAX\r\n50,5,2024,2,28,0,1\r\n", 4, "LAT",
                   "region");
}

static void what_is_wrong_is_told_with_its_place(void **state)
{
    (void)state;
    layout_refused(TOP TEMPERATURES "YEAR,DOY,T2M_MIN,T2M_MAX\r\n", 1, "", "not closed");
    layout_refused(TOP TEMPERATURES "-END HEADER-\r\n", 5, "", "nothing below");
    layout_refused(TOP "T2M_MIN   Temperature (Re) \r\n-END HEADER-\r\nYEAR,DOY,T2M_MIN\r\n", 3, "T2M_MIN",
                   "the unit \"Re\" is not known");
    layout_refused(TOP TEMPERATURES "-END HEADER-\r\nYEAR,DOY,T2M_MIN,T2M_MAX,ALLSKY_SFC_SW_DWN\r\n2024,1,1,2,3\r\n", 6,
                   "ALLSKY_SFC_SW_DWN", "does not say its unit");
    layout_refused(TOP TEMPERATURES "-END HEADER-\r\nYEAR,DOY,T2M_MIN\r\n2024,1,1\r\n", 6, "",
                   "no column of daily maximum");
    layout_refused(TOP TEMPERATURES "-END HEADER-\r\nYEAR,DOY,T2M_MIN,T2M_MAX\r\n2023,366,1,2\r\n", 7, "YEAR", "leap");
    layout_refused(TOP TEMPERATURES "-END HEADER-\r\nYEAR,DOY,T2M_MIN,T2M_MAX\r\n2023,5,1,x\r\n", 7, "T2M_MAX",
                   "not a number");
    layout_refused(TOP TEMPERATURES "-END HEADER-\r\nYEAR,DOY,T2M_MIN,T2M_MAX\r\n2023,5,1,2\r\n2023,5,1,2\r\n", 8,
                   "YEAR", "stands twice");
    layout_refused(TOP TEMPERATURES "-END HEADER-\r\nYEAR,DOY,T2M_MIN,T2M_MAX\r\n", 7, "", "no rows of data");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_of_the_year_are_read),      cmocka_unit_test(place_and_note_come_from_the_block),
        cmocka_unit_test(days_of_utc_far_away_are_noted), cmocka_unit_test(versions_differ_in_dates_case_and_line_ends),
        cmocka_unit_test(other_products_are_refused),     cmocka_unit_test(what_is_wrong_is_told_with_its_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
