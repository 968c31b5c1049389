/* CSV as people have it: every shape must give the same weather. All values are
 * invented; expected units follow from their definitions (1 inch = 25.4 mm, 0 C = 32 F,
 * 1 knot = 1852 m/h) and FAO-56 Eq. 47 for wind (0.748 from 10 m).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/weather_text.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* Each text says: 2024-02-28 -1.5/9.25 rain 0.4, 02-29 0/10 no rain read, 03-01 2/12 rain 3. */
static const struct shape {
    const char *name, *text;
} shapes[] = {
    {"tidy", "date,tmin_c,tmax_c,rain_mm,rad_mj_m2,rh_pct,wind_m_s\n2024-02-28,-1.5,9.25,0.4,,,\n"
             "2024-02-29,0,10,,,,\n2024-03-01,2,12,3,,,\n"},
    {"a notebook's words", "date,low,high,rain\n2024-02-28,-1.5,9.25,0.4\n2024-02-29,0,10,\n2024-03-01,2,12,3\n"},
    {"byte-order mark", "\xef\xbb\xbf"
                        "date,tmin,tmax,rain\n2024-02-28,-1.5,9.25,0.4\n2024-02-29,0,10,\n2024-03-01,2,12,3\n"},
    {"CRLF", "date,tmin,tmax,rain\r\n2024-02-28,-1.5,9.25,0.4\r\n2024-02-29,0,10,\r\n2024-03-01,2,12,3\r\n"},
    {"CR alone", "date,tmin,tmax,rain\r2024-02-28,-1.5,9.25,0.4\r2024-02-29,0,10,\r2024-03-01,2,12,3\r"},
    {"no newline at the end", "date,tmin,tmax,rain\n2024-02-28,-1.5,9.25,0.4\n2024-02-29,0,10,\n2024-03-01,2,12,3"},
    {"blank rows",
     "\n\ndate,tmin,tmax,rain\n\n2024-02-28,-1.5,9.25,0.4\n,,,\n2024-02-29,0,10,\n\n2024-03-01,2,12,3\n \n"},
    {"quotes", "\"date\",\"tmin\",\"tmax\",\"rain\"\n\"2024-02-28\",\"-1.5\",\"9.25\",\"0.4\"\n"
               "\"2024-02-29\",\"0\",\"10\",\"\"\n\"2024-03-01\",\"2\",\"12\",\"3\"\n"},
    {"semicolon and decimal comma",
     "date;tmin;tmax;rain\n2024-02-28;-1,5;9,25;0,4\n2024-02-29;0;10;\n2024-03-01;2;12;3\n"},
    {"semicolon and decimal point",
     "date;tmin;tmax;rain\n2024-02-28;-1.5;9.25;0.4\n2024-02-29;0;10;\n2024-03-01;2;12;3\n"},
    {"quoted decimal comma",
     "date,tmin,tmax,rain\n2024-02-28,\"-1,5\",\"9,25\",\"0,4\"\n2024-02-29,0,10,\n2024-03-01,2,12,3\n"},
    {"tab", "date\ttmin\ttmax\train\n2024-02-28\t-1.5\t9.25\t0.4\n2024-02-29\t0\t10\t\n2024-03-01\t2\t12\t3\n"},
    {"padded",
     "date , tmin, tmax , rain\n 2024-02-28 ,  -1.5,  9.25 , 0.4\n2024-02-29, 0, 10,   \n2024-03-01,+2, 12,3 \n"},
    {"other order, other names", "Station;Rain (mm);Max Temp [\xc2\xb0"
                                 "C];Date;Minimum temperature;Remark\n"
                                 "A;0.4;9.25;2024-02-28;-1.5;x\nA;;10;2024-02-29;0;\"x;y\"\nA;3;12;2024-03-01;2;\n"},
    {"preamble", "Weather of the farm\nLatitude, "
                 "52.1\n\nDate,Tmin,Tmax,Rain\n2024-02-28,-1.5,9.25,0.4\n2024-02-29,0,10,\n2024-03-01,2,12,3\n"},
    {"row of units",
     "date,tmin,tmax,rain\n,(oC),(oC),(mm)\n2024-02-28,-1.5,9.25,0.4\n2024-02-29,0,10,\n2024-03-01,2,12,3\n"},
    {"units in a row", "date,tmin,tmax,rain\nymd,degF,degF,inch\n2024-02-28,29.3,48.65,0.015748031496063\n"
                       "2024-02-29,32,50,\n2024-03-01,35.6,53.6,0.118110236220472\n"},
    {"Fahrenheit and inches", "date,tmin_f,TMAX (F),rain_inch\n2024-02-28,29.3,48.65,0.015748031496063\n"
                              "2024-02-29,32,50,\n2024-03-01,35.6,53.6,0.118110236220472\n"},
    {"tenths", "date,tmin (0.1 C),tmax (0.1 C),rain (0.1 "
               "mm)\n2024-02-28,-15,92.5,4\n2024-02-29,0,100,-9999\n2024-03-01,20,120,30\n"},
    {"words for missing",
     "date,tmin,tmax,rain,rh\n2024-02-28,-1.5,9.25,0.4,NA\n2024-02-29,0,10,n/a,-\n2024-03-01,2,12,3,null\n"},
    {"-999",
     "date,tmin,tmax,rain,rh\n2024-02-28,-1.5,9.25,0.4,-999\n2024-02-29,0,10,-999,-999.0\n2024-03-01,2,12,3,9999\n"},
    {"-99.9",
     "date,tmin,tmax,rain,rh\n2024-02-28,-1.5,9.25,0.4,-99.9\n2024-02-29,0,10,-99.9,-99\n2024-03-01,2,12,3,999\n"},
    {"trailing delimiter", "date,tmin,tmax,rain,\n2024-02-28,-1.5,9.25,0.4,\n2024-02-29,0,10,,\n2024-03-01,2,12,3,\n"},
    {"compact dates", "date,tmin,tmax,rain\n20240228,-1.5,9.25,0.4\n20240229,0,10,\n20240301,2,12,3\n"},
    {"slashes, year first", "date,tmin,tmax,rain\n2024/2/28,-1.5,9.25,0.4\n2024/2/29,0,10,\n2024/3/1,2,12,3\n"},
    {"dots", "date,tmin,tmax,rain\n28.02.2024,-1.5,9.25,0.4\n29.02.2024,0,10,\n01.03.2024,2,12,3\n"},
    {"day/month/year", "date,tmin,tmax,rain\n28/02/2024,-1.5,9.25,0.4\n29/02/2024,0,10,\n01/03/2024,2,12,3\n"},
    {"month/day/year", "date,tmin,tmax,rain\n02/28/2024,-1.5,9.25,0.4\n02/29/2024,0,10,\n03/01/2024,2,12,3\n"},
    {"month names", "date,tmin,tmax,rain\n28-Feb-2024,-1.5,9.25,0.4\n29-feb-2024,0,10,\n01-MAR-2024,2,12,3\n"},
    {"midnight behind",
     "time,tmin,tmax,rain\n2024-02-28T00:00,-1.5,9.25,0.4\n2024-02-29 00:00:00,0,10,\n2024-03-01T00:00:00Z,2,12,3\n"},
    {"year, month, day", "year,month,day,tmin,tmax,rain\n2024,2,28,-1.5,9.25,0.4\n2024,02,29,0,10,\n2024,3,1,2,12,3\n"},
    {"year and day of year",
     "YEAR,DOY,T2M_MIN,T2M_MAX,PRECTOTCORR\n2024,59,-1.5,9.25,0.4\n2024,60,0,10,-999\n2024,61,2,12,3\n"},
    {"year and day without month", "year,day,tmin,tmax,rain\n2024,59,-1.5,9.25,0.4\n2024,60,0,10,\n2024,61,2,12,3\n"},
    {"date beside its parts", "date,year,month,day,tmin,tmax,rain\n2024-02-28,9,9,9,-1.5,9.25,0.4\n2024-02-29,,,,0,10,"
                              "\n2024-03-01,x,,,2,12,3\n"},
    {"long numbers", "date,tmin,tmax,rain\n2024-02-28,-1.500000000,9.2500000000000,4e-1\n2024-02-29,0.000000000,1.0e1,"
                     "\n2024-03-01,2.,12.0,3\n"},
};

static void near(double a, double b, const char *name)
{
    if (!(fabs(a - b) < 1e-9)) {
        fail_msg("%s: %.12g, not %.12g", name, a, b);
    }
}

static void every_shape_gives_the_same_weather(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        struct weather_text t;
        weather_text_read(&t, shapes[i].text);
        if (t.code != ERR_OK) {
            fail_msg("%s: line %zu: %s", shapes[i].name, t.err.line, t.err.what);
        }
        assert_int_equal(t.set.n, 1);
        assert_int_equal(t.set.site[0].days.n, 3);
        near(weather_text_at(&t, "2024-02-28", WEATHER_TMIN), -1.5, shapes[i].name);
        near(weather_text_at(&t, "2024-02-28", WEATHER_TMAX), 9.25, shapes[i].name);
        near(weather_text_at(&t, "2024-02-28", WEATHER_RAIN), 0.4, shapes[i].name);
        near(weather_text_at(&t, "2024-02-29", WEATHER_TMIN), 0, shapes[i].name);
        near(weather_text_at(&t, "2024-02-29", WEATHER_TMAX), 10, shapes[i].name);
        assert_true(isnan(weather_text_at(&t, "2024-02-29", WEATHER_RAIN)));
        near(weather_text_at(&t, "2024-03-01", WEATHER_TMIN), 2, shapes[i].name);
        near(weather_text_at(&t, "2024-03-01", WEATHER_TMAX), 12, shapes[i].name);
        near(weather_text_at(&t, "2024-03-01", WEATHER_RAIN), 3, shapes[i].name);
        assert_null(t.set.site[0].days.col[WEATHER_RH]); /* no value at all: the column is absent */
        weather_text_release(&t);
    }
}

/* One value in another unit, read as ours. */
static const struct unit_case {
    const char *column, *text;
    enum weather_var v;
    double value;
} units[] = {
    {"rad_mj_m2", "12.5", WEATHER_RAD, 12.5},
    {"radiation (J/cm2)", "1250", WEATHER_RAD, 12.5},
    {"global radiation [J/cm\xc2\xb2]", "1250", WEATHER_RAD, 12.5},
    {"solar (W/m2)", "100", WEATHER_RAD, 8.64},
    {"srad [kWh/m2/day]", "2.5", WEATHER_RAD, 9},
    {"strahl", "1250", WEATHER_RAD, 12.5},
    {"strahl (MJ/m2)", "12.5", WEATHER_RAD, 12.5},
    {"rel", "80", WEATHER_RH, 80},
    {"ALLSKY_SFC_SW_DWN", "7.25", WEATHER_RAD, 7.25},
    {"rain_mm", "3.5", WEATHER_RAIN, 3.5},
    {"Precip (in)", "1", WEATHER_RAIN, 25.4},
    {"rainfall cm", "1.5", WEATHER_RAIN, 15},
    {"rh_pct", "80", WEATHER_RH, 80},
    {"RH (%)", "104", WEATHER_RH, 100},
    {"wind_m_s", "3", WEATHER_WIND, 3},
    {"WS2M", "3", WEATHER_WIND, 3},
    {"wind_speed_10m (km/h)", "36", WEATHER_WIND, 7.48},
    {"Wind speed (10 m)", "10", WEATHER_WIND, 7.48},
    {"wind_10m_m_s", "10", WEATHER_WIND, 7.48},
    {"wind 2 m [mph]", "10", WEATHER_WIND, 4.4704},
    {"wind (knots)", "3.6", WEATHER_WIND, 1.852},
    {"T2MDEW", "3", WEATHER_TDEW, 3},
    {"dew point [F]", "50", WEATHER_TDEW, 10},
    {"et0_mm", "2.4", WEATHER_ET0, 2.4},
};

static void units_are_read_from_the_name(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        char text[256];
        struct weather_text t;
        snprintf(text, sizeof text, "date,tmin,tmax,%s\n2024-05-01,5,15,%s\n", units[i].column, units[i].text);
        weather_text_read(&t, text);
        if (t.code != ERR_OK) {
            fail_msg("%s: %s", units[i].column, t.err.what);
        }
        near(weather_text_at(&t, "2024-05-01", units[i].v), units[i].value, units[i].column);
        weather_text_release(&t);
    }
}

/* A code for missing that the unit brings into the range of what is possible, early in a file, where plain rows are
 * read quickly, and in its last row. -99 F is -72.8 C; -99 in tenths is a mild frost. */
static void codes_for_missing_are_none_in_any_unit(void **state)
{
    static const struct {
        const char *unit, *cell;
        double celsius; /* NaN: missing */
    } row[] = {
        {"F", "-99", NAN},       {"F", "-99.9", NAN},    {"F", "-99.99", NAN},    {"F", "-999", NAN},
        {"F", "9999", NAN},      {"C", "-99", NAN},      {"C", "-99.9", NAN},     {"0.1 C", "-999", NAN},
        {"0.1 C", "-9999", NAN}, {"0.1 C", "-99", -9.9}, {"F", "-98", -650. / 9}, {"F", "-100", -660. / 9},
        {"C", "-89.2", -89.2},   {"C", "-70.5", -70.5},
    };
    static const enum weather_var vars[] = {WEATHER_TMIN, WEATHER_TMAX, WEATHER_TDEW};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        char text[2000], date[DATE_TEXT];
        struct weather_text t;
        size_t n = (size_t)snprintf(text, sizeof text, "date,tmin (%s),tmax (%s),tdew (%s)\n", row[i].unit, row[i].unit,
                                    row[i].unit);
        for (int day = 0; day < 40; day++) {
            const char *cell = day == 5 || day == 39 ? row[i].cell : "40";
            n += (size_t)snprintf(text + n, sizeof text - n, "%s,%s,%s,%s\n",
                                  date_format(date_make(2024, 1, 1) + day, date), cell, cell, cell);
        }
        weather_text_read(&t, text);
        assert_int_equal(t.code, ERR_OK);
        for (size_t k = 0; k < sizeof vars / sizeof vars[0]; k++) {
            double early = weather_text_at(&t, "2024-01-06", vars[k]),
                   last = weather_text_at(&t, "2024-02-09", vars[k]);
            if (!(isnan(row[i].celsius) ? isnan(early) && isnan(last)
                                        : fabs(early - row[i].celsius) < 1e-9 && early == last)) {
                fail_msg("%s %s: %g and %g", row[i].cell, row[i].unit, early, last);
            }
        }
        weather_text_release(&t);
    }
}

static void what_is_not_used_is_told(void **state)
{
    (void)state;
    struct weather_text t;
    weather_text_read(&t, "date,tmin,tmax,wind_speed_10m_max,tmax_flag,mood\n2024-05-01,5,15,40,E,good\n");
    assert_int_equal(t.code, ERR_OK);
    assert_string_equal(t.set.ignored, "wind_speed_10m_max, tmax_flag, mood");
    assert_null(t.set.site[0].days.col[WEATHER_WIND]); /* the strongest wind is not the mean */
    weather_text_release(&t);
}

static void a_crossed_day_is_left_for_the_doubts(void **state)
{
    struct weather_text t;
    (void)state;
    weather_text_read(&t, "date,tmin,tmax,rain\n2024-05-01,5,15,0\n2024-05-02,16,6,0\n2024-05-03,5,15,0\n");
    assert_int_equal(t.code, ERR_OK);
    assert_true(weather_text_at(&t, "2024-05-02", WEATHER_TMIN) == 16);
    assert_true(weather_text_at(&t, "2024-05-02", WEATHER_TMAX) == 6);
    weather_text_release(&t);
    /* site by site: the second is all wrong, the first is not */
    weather_text_read(&t, "site,date,tmin,tmax\na,2024-05-01,5,15\na,2024-05-02,6,16\na,2024-05-03,16,6\n"
                          "b,2024-05-01,15,5\n");
    assert_int_equal(t.code, ERR_DATA);
    assert_int_equal(t.err.line, 5);
    weather_text_release(&t);
}

static void absent_days_are_missing_days(void **state)
{
    (void)state;
    struct weather_text t;
    weather_text_read(&t, "date,tmin,tmax\n2024-02-27,1,5\n2024-03-02,2,6\n2024-03-03,NA,\n");
    assert_int_equal(t.code, ERR_OK);
    const struct weather_days *w = &t.set.site[0].days;
    assert_int_equal(w->n, 6);
    for (size_t i = 0; i < w->n; i++) {
        bool read = i == 0 || i == 4;
        assert_int_equal(w->origin[i], read ? ORIGIN_RECORDED : ORIGIN_NONE);
        assert_int_equal(isnan(w->col[WEATHER_TMIN][i]), !read);
    }
    weather_text_release(&t);
}

static void sites_are_kept_apart(void **state)
{
    (void)state;
    struct weather_text t;
    weather_text_read(&t, "site,lat,lon,date,tmin,tmax,rain\nbrook,52.1,-2.5,2024-05-01,1,11,0\n"
                          "brook,52.1,-2.5,2024-05-02,2,12,1\n\"top, west\",53,-3,2024-05-03,3,13,\n"
                          "\"top, west\",53,-3,2024-05-05,4,14,\nz,,,2023-12-31,5,15,2\nz,,,2024-01-01,6,16,3\n");
    assert_int_equal(t.code, ERR_OK);
    assert_int_equal(t.set.n, 3);
    assert_string_equal(t.set.site[0].name, "brook");
    assert_string_equal(t.set.site[1].name, "top, west");
    assert_int_equal(t.set.site[1].days.n, 3);
    assert_null(t.set.site[1].days.col[WEATHER_RAIN]);
    assert_true(t.set.site[1].place.latitude == 53 && t.set.site[1].place.longitude == -3);
    assert_true(isnan(t.set.site[2].place.latitude));
    assert_int_equal(t.set.site[2].days.day0, date_make(2023, 12, 31));
    assert_true(t.set.site[2].days.col[WEATHER_TMAX][1] == 16);
    weather_text_release(&t);
}

/* RFC 4180, 2.7: in a quoted field a quote is written twice. Elsewhere it is a letter. */
static void doubled_quotes_of_a_name_are_one(void **state)
{
    (void)state;
    struct weather_text t;
    weather_text_read(&t, "site,date,tmin,tmax\n\"the \"\"old\"\" bank\",2024-05-01,1,11\n"
                          " \" the \"\"old\"\" bank\" ,2024-05-02,2,12\n5\"\"pipe,2024-05-01,3,13\n"
                          "\"\"\"\"\"\",2024-05-01,4,14\n");
    assert_int_equal(t.code, ERR_OK);
    assert_int_equal(t.set.n, 3);
    assert_string_equal(t.set.site[0].name, "the \"old\" bank");
    assert_int_equal(t.set.site[0].days.n, 2);
    assert_string_equal(t.set.site[1].name, "5\"\"pipe");
    assert_string_equal(t.set.site[2].name, "\"\"");
    weather_text_release(&t);
}

static void a_rain_gauge_alone_will_do(void **state)
{
    (void)state;
    struct weather_text t;
    weather_text_read(&t, "date,rain_mm\n2024-05-01,4\n");
    assert_int_equal(t.code, ERR_OK);
    assert_true(weather_text_at(&t, "2024-05-01", WEATHER_RAIN) == 4);
    weather_text_release(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_shape_gives_the_same_weather),
        cmocka_unit_test(units_are_read_from_the_name),
        cmocka_unit_test(what_is_not_used_is_told),
        cmocka_unit_test(a_crossed_day_is_left_for_the_doubts),
        cmocka_unit_test(absent_days_are_missing_days),
        cmocka_unit_test(sites_are_kept_apart),
        cmocka_unit_test(doubled_quotes_of_a_name_are_one),
        cmocka_unit_test(a_rain_gauge_alone_will_do),
        cmocka_unit_test(codes_for_missing_are_none_in_any_unit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
