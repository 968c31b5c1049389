/* Daily station files of the Irish, Dutch and German weather services. Preambles and
 * row of names are laid out as the services lay them out; rows of the Irish and Dutch
 * files are the first days of Dublin Airport 1942 (Met Eireann, CC BY 4.0) and De Bilt
 * 1980 (KNMI); German rows are invented. Expected: 1 knot = 1852 m/h, FAO-56 Eq. 47.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void the_site_is(const char *text, const char *layout, const char *name, double latitude, double longitude,
                        double elevation)
{
    struct weather_text t;
    weather_text_read(&t, text);
    assert_int_equal(t.code, ERR_OK);
    assert_string_equal(t.set.layout, layout);
    assert_string_equal(t.set.site[0].name, name);
    const struct site *place = &t.set.site[0].place;
    assert_true(place->latitude == latitude || (isnan(latitude) && isnan(place->latitude)));
    assert_true(place->longitude == longitude || (isnan(longitude) && isnan(place->longitude)));
    assert_true(place->elevation_m == elevation || (isnan(elevation) && isnan(place->elevation_m)));
    weather_text_release(&t);
}

#define IRISH_TOP                                                                                                      \
    "Station Name: DUBLIN AIRPORT\nStation Height: 71 M \nLatitude:53.428  ,Longitude: -6.241\n\n\n"                   \
    "date:   -  00 to 00 utc\nrain:   -  Precipitation Amount (mm)\nmaxtp:  -  Maximum Air Temperature (C)\t  \n"      \
    "mintp:  -  Minimum  Air Temperature (C)\ngmin:   -  09utc Grass Minimum Temperature (C)\n"
#define IRISH_UNITS                                                                                                    \
    "wdsp:   -  Mean Wind Speed (knot)\nhm:     -  Highest ten minute mean wind speed (knot)\n"                        \
    "g_rad:  -  Global Radiation (j/cm sq.)\nind:    -  Indicator (i)\n\n"
#define IRISH_ROWS                                                                                                     \
    "date,ind,maxtp,ind,mintp,igmin,gmin,ind,rain,cbl,wdsp,ind,hm,sun,g_rad\n"                                         \
    "01-jan-1942,0,9.7,0,6.8,0,4.7,2,0.0,1020.3,17.2,1, ,0.0, \n"                                                      \
    "02-jan-1942,0,9.9,0,7.9,0,6.7,0,0.1,1016.2,15.2,1, ,0.0,250\n"
static const char irish[] = IRISH_TOP IRISH_UNITS IRISH_ROWS;

static void an_irish_file_is_read(void **state)
{
    (void)state;
    the_site_is(irish, "irish-daily", "DUBLIN AIRPORT", 53.428, -6.241, 71);
    layout_day_is(irish, "1942-01-01", WEATHER_TMIN, 6.8);
    layout_day_is(irish, "1942-01-02", WEATHER_TMAX, 9.9);
    layout_day_is(irish, "1942-01-02", WEATHER_RAIN, 0.1);
    layout_day_is(irish, "1942-01-01", WEATHER_WIND, 17.2 * 1852 / 3600 * 0.748);
    layout_day_is(irish, "1942-01-01", WEATHER_RAD, NAN);
    layout_day_is(irish, "1942-01-02", WEATHER_RAD, 2.5);
}

static void older_and_resaved_irish_files_are_read(void **state)
{
    (void)state;
    layout_day_is("Station Name: Dublin_Airport\nwdsp: -\t  Mean Wind Speed (m/s)\n"
                  "date,imax,maxtp,imin,mintp,irain,rain,wdsp\n01-jan-1986 00:00:00,0,6.7,1,-0.5,0,12.2,2\n",
                  "1986-01-01", WEATHER_WIND, 2 * 0.748);
    layout_day_is(
        "date,maxtp,mintp,gmin,rain,wdsp,g_rad\r\n31-Dec-99,9.7,6.8,4.7,0,10, \r\n01-Jan-00,9,7,7,0.1,10,99\r\n",
        "2000-01-01", WEATHER_RAD, 0.99);
    layout_day_is("date;maxtp;mintp;rain;wdsp\r\n31-Dec-99;9,7;6,8;0;10\r\n01-Jan-00;9;7;0,1;36\r\n", "2000-01-01",
                  WEATHER_WIND, 36.0 * 1852 / 3600 * 0.748);
    layout_day_is("Station Name: X\ndate,ind,rain\n01-jan-1942,0,0.3\n", "1942-01-01", WEATHER_RAIN, 0.3);
    the_site_is("date,maxtp,mintp\n01-jan-1942,9,1\n", "irish-daily", "", NAN, NAN, NAN);
    the_site_is("Station Name: farm\ndate,tmax,tmin,rain\n1942-01-01,9,1,2\n", "csv", "", NAN, NAN, NAN);
}

static void irish_files_go_wrong(void **state)
{
    (void)state;
    layout_refused("date,maxtp,mintp,rain\n01-Jan-42,9.7,6.8,0\n02-Jan-42,9.9,7.9,0.1\n", 2, "date",
                   "never pass from 99");
    layout_refused("Station Name: X\ndate,ind,rain,ind,temp,ind,wetb\n01-jan-2003 01:00,0,0,0,5,0,4\n", 2, "temp",
                   "hourly");
    layout_refused("Station Name: X\nyear,month,meant,maxtp,mintp,rain\n1942,1,5,9,1,60\n", 2, "", "monthly");
    layout_refused("Station Name: X\nwdsp: - Wind (furlong)\ndate,maxtp,mintp,wdsp\n01-jan-1942,9,1,2\n", 2, "wdsp",
                   "the unit \"furlong\" is not known");
    layout_refused("date,ind,maxtp,ind,mintp\n01-jan-1942,0,9,0\n", 2, "", "4 fields where 5 are named");
    layout_refused("date,maxtp,mintp\n01-jan-1942,9,1\n01-jan-1942,9,1\n", 3, "date", "stands twice");
    layout_refused("date,maxtp,mintp\n01-jan-1942,1,9\n", 2, "", "above the maximum");
    layout_refused("date,maxtp,rain\n01-jan-1942,1,9\n", 1, "", "no column of daily minimum");
}

#define DUTCH_NAMES "# STN,YYYYMMDD,DDVEC,   FG,   TN,  TNH,   TX,   SQ,    Q,   RH,  RHX,   UG\n\n"
static const char dutch[] =
    "BRON: KONINKLIJK NEDERLANDS METEOROLOGISCH INSTITUUT (KNMI)\n\n"
    "RH        = Etmaalsom van de neerslag (in 0.1 mm) (-1 voor <0.05 mm) / Daily precipitation amount\n\n" DUTCH_NAMES
    "  260,19800101,  275,   26,   -8,   23,   23,   23,  253,   58,   13,   93\n"
    "  260,19800102,  314,   15,   -1,   24,   29,   27,  255,   -1,    6,   95\n"
    "  260,19800104,  182,     ,  -04,    2,     ,    0,     ,     ,   20,   97";

static void a_dutch_file_is_read(void **state)
{
    (void)state;
    the_site_is(dutch, "dutch-daily", "260", NAN, NAN, NAN);
    layout_day_is(dutch, "1980-01-01", WEATHER_TMIN, -0.8);
    layout_day_is(dutch, "1980-01-02", WEATHER_TMIN, -0.1);
    layout_day_is(dutch, "1980-01-02", WEATHER_RAIN, 0);
    layout_day_is(dutch, "1980-01-01", WEATHER_RAIN, 5.8);
    layout_day_is(dutch, "1980-01-01", WEATHER_RH, 93);
    layout_day_is(dutch, "1980-01-01", WEATHER_RAD, 2.53);
    layout_day_is(dutch, "1980-01-01", WEATHER_WIND, 2.6 * 0.748);
    layout_day_is(dutch, "1980-01-03", WEATHER_TMIN, NAN);
    layout_day_is(dutch, "1980-01-04", WEATHER_TMAX, NAN);
    layout_day_is(dutch, "1980-01-04", WEATHER_RAIN, NAN);
    layout_day_is("STN;YYYYMMDD;TN;TX\n260;19800101;-8;23\n", "1980-01-01", WEATHER_TMAX, 2.3);
}

/* The list of stations is from memory of the service's files. */
static void a_list_of_stations_names_them(void **state)
{
    static const char text[] = "# STN      LON(east)   LAT(north)     ALT(m)  NAME\n"
                               "# 235:         4.781       52.928       1.20  DE KOOY\n"
                               "# 260         5.180       52.100       1.90  De Bilt  \n#\n"
                               "# STN,YYYYMMDD,   TN,   TX\n235,19800101, 10, 20\n260,19800101, -8, 23\n";
    struct weather_text t;
    (void)state;
    the_site_is(text, "dutch-daily", "DE KOOY", 52.928, 4.781, 1.2);
    weather_text_read(&t, text);
    assert_int_equal(t.set.n, 2);
    assert_string_equal(t.set.site[1].name, "De Bilt");
    assert_true(t.set.site[1].place.elevation_m == 1.9);
    weather_text_release(&t);
}

static void dutch_rain_belongs_to_the_day_before(void **state)
{
    static const char text[] = "DEZE GEGEVENS\r\nSTN      = stationsnummer/stationnumber\r\n\r\n"
                               "STN,YYYYMMDD,   RD,   SX,\r\n336,19270701,   12,     ,\r\n336,19270702,    6,  998,\r\n"
                               "336,19270703,     ,     ,\r\n";
    struct weather_text t;
    (void)state;
    layout_day_is(text, "1927-06-30", WEATHER_RAIN, 1.2);
    layout_day_is(text, "1927-07-01", WEATHER_RAIN, 0.6);
    layout_day_is(text, "1927-07-02", WEATHER_RAIN, NAN);
    weather_text_read(&t, text);
    assert_string_equal(t.set.layout, "dutch-rain");
    assert_string_equal(t.set.site[0].name, "336");
    assert_non_null(strstr(t.set.note, "08 UTC"));
    assert_null(t.set.site[0].days.col[WEATHER_TMIN]);
    weather_text_release(&t);
}

static void dutch_files_go_wrong(void **state)
{
    (void)state;
    layout_refused("# STN,YYYYMMDD,   HH,   DD,    T\n 260,20200101,    1,  200,   50\n", 1, "HH", "hourly");
    layout_refused("# STN,YYYYMMDD,   TN,   TX\n 260,20200101,   x1,  200\n", 2, "TN", "not a number");
    layout_refused("# STN,YYYYMMDD,   TN,   TX,  RH\n 260,20200101,   1,  20, -2\n", 2, "RH", "not possible");
    layout_refused("# STN,YYYYMMDD,   TN,   TX\n 260,20200101,   1,  2000\n", 2, "TX", "-90 to 60 C");
    layout_refused("# STN,YYYYMMDD,   TN,   TX\n 260,20200132,   1,  20\n", 2, "YYYYMMDD", "not in the calendar");
    layout_refused("# STN,YYYYMMDD,   TN\n 260,20200131,   1\n", 1, "", "no column of daily maximum");
    layout_refused("STN,YYYYMMDD,   RD,   SX,\n336,19270701,   12\n", 2, "", "3 fields where 5 are named");
}

#define GERMAN                                                                                                         \
    "STATIONS_ID;MESS_DATUM;QN_3;  FX;  FM;QN_4; RSK;RSKF; SDK;SHK_TAG;  NM; VPM;  PM; TMK; UPM; TXK; TNK; "           \
    "TGK;eor\r\n"
static const char german[] =
    GERMAN "       9999;20200101;   10;-999;   5.0;    3;   4.7;   6;-999;-999;-999;-999;-999;    7.0;   84.00;    8.8;"
           "    5.2;-999;eor\r\n"
           "       9999;20220102;   10;-999;-999;    3;-999;   6;-999;-999;-999;-999;-999;    6.8;-999;    9.1;"
           "   -4.5;-999;eor\r\n";

static void a_german_file_is_read(void **state)
{
    (void)state;
    the_site_is(german, "german-daily", "9999", NAN, NAN, NAN);
    layout_day_is(german, "2020-01-01", WEATHER_TMIN, 5.2);
    layout_day_is(german, "2020-01-01", WEATHER_TMAX, 8.8);
    layout_day_is(german, "2020-01-01", WEATHER_RAIN, 4.7);
    layout_day_is(german, "2020-01-01", WEATHER_RH, 84);
    layout_day_is(german, "2020-01-01", WEATHER_WIND, 5 * 0.748);
    layout_day_is(german, "2022-01-02", WEATHER_TMIN, -4.5);
    layout_day_is(german, "2022-01-02", WEATHER_RAIN, NAN);
    layout_day_is(german, "2021-06-01", WEATHER_TMIN, NAN);
    layout_day_is("STATIONS_ID;MESS_DATUM;QN_592;ATMO_STRAHL;FD_STRAHL;FG_STRAHL;SD_STRAHL;eor\n"
                  "9;20200101;3;-999;-999;250.0;-999;eor\n",
                  "2020-01-01", WEATHER_RAD, 2.5);
    layout_day_is("STATIONS_ID,MESS_DATUM,TNK,TXK\n9,20200101,-1,2\n", "2020-01-01", WEATHER_TMIN, -1);
}

static void german_files_go_wrong(void **state)
{
    (void)state;
    layout_refused("STATIONS_ID;MESS_DATUM;QN_9;TT_TU;RF_TU;eor\n   44;2020010100;    3;   1.1;  97.0;eor\n", 2,
                   "MESS_DATUM", "hourly");
    layout_refused("STATIONS_ID;MESS_DATUM;  QN;PP_10;TT_10;eor\n   44;202001010000;    3;-999;   1.1;eor\n", 2,
                   "MESS_DATUM", "10-minute");
    layout_refused("STATIONS_ID;MESS_DATUM_BEGINN;MESS_DATUM_ENDE;QN_4;MO_TT;eor\n44;20200101;20200131;3;1;eor\n", 1,
                   "", "monthly");
    layout_refused("STATIONS_ID;MESS_DATUM;TXK;TNK;eor\n 44;20200101;  1.0; 3.0;eor\n", 2, "", "above the maximum");
    layout_refused("STATIONS_ID;MESS_DATUM;TXK;TNK;eor\n 44;20200101;  x; 3.0;eor\n", 2, "TXK", "not a number");
    layout_refused("STATIONS_ID;MESS_DATUM;TXK;TNK;eor\n", 2, "", "no rows of data");
}

/* Named by the keeper, a file of another kind is told so. */
static void a_layout_named_for_another_file_is_refused(void **state)
{
    static const char *const layouts[] = {"irish-daily", "dutch-daily", "dutch-rain", "german-daily", "reanalysis-csv"};
    static const char text[] = "date,tmin,tmax\n2024-02-28,1,2\n";
    (void)state;
    for (size_t i = 0; i < sizeof layouts / sizeof layouts[0]; i++) {
        struct weather_text t;
        struct weather_hints hints = weather_no_hints;
        hints.layout = layouts[i];
        arena_init(&t.arena);
        err_clear(&t.err);
        t.code = weather_read_bytes(text, sizeof text - 1, "w.csv", &hints, &t.arena, &t.set, &t.err);
        assert_int_equal(t.code, ERR_DATA);
        assert_non_null(strstr(t.err.what, "there is no "));
        assert_int_equal(t.err.line, 1);
        weather_text_release(&t);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_irish_file_is_read),         cmocka_unit_test(older_and_resaved_irish_files_are_read),
        cmocka_unit_test(irish_files_go_wrong),          cmocka_unit_test(a_dutch_file_is_read),
        cmocka_unit_test(a_list_of_stations_names_them), cmocka_unit_test(dutch_rain_belongs_to_the_day_before),
        cmocka_unit_test(dutch_files_go_wrong),          cmocka_unit_test(a_german_file_is_read),
        cmocka_unit_test(german_files_go_wrong),         cmocka_unit_test(a_layout_named_for_another_file_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
