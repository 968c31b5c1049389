/* Civil dates <-> day numbers by the era method (400-year cycles of 146,097 days).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/date.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#define YEAR_FIRST 1700
#define YEAR_LAST 2200

bool date_is_leap(int year)
{
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

int date_days_in_month(int year, int month)
{
    assert(month >= 1 && month <= 12);
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && date_is_leap(year));
}

bool date_valid(int year, int month, int day)
{
    return year >= YEAR_FIRST && year <= YEAR_LAST && month >= 1 && month <= 12 && day >= 1 &&
           day <= date_days_in_month(year, month);
}

date_t date_make(int year, int month, int day)
{
    if (!date_valid(year, month, day)) {
        return DATE_NONE;
    }
    int y = year - (month <= 2); /* the year that starts in March */
    int era = y / 400, of_era = y - era * 400;
    int of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
    int day_of_era = of_era * 365 + of_era / 4 - of_era / 100 + of_year;
    return era * 146097 + day_of_era - 719468; /* 719468: 0000-03-01 to 1970-01-01 */
}

struct date_parts date_split(date_t d)
{
    assert(d != DATE_NONE);
    int z = d + 719468;
    int era = (z >= 0 ? z : z - 146096) / 146097;
    int day_of_era = z - era * 146097;
    int of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    int of_year = day_of_era - (365 * of_era + of_era / 4 - of_era / 100);
    int m = (5 * of_year + 2) / 153;
    int month = m < 10 ? m + 3 : m - 9;
    return (struct date_parts){of_era + era * 400 + (month <= 2), month, of_year - (153 * m + 2) / 5 + 1};
}

int date_parts_day_of_year(const struct date_parts *p)
{
    static const int before[12] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
    assert(p->month >= 1 && p->month <= 12);
    return before[p->month - 1] + p->day + (p->month > 2 && date_is_leap(p->year));
}

int date_day_of_year(date_t d)
{
    struct date_parts p = date_split(d);
    return date_parts_day_of_year(&p);
}

int date_weekday(date_t d)
{
    int w = (d + 3) % 7; /* 1970-01-01 was a Thursday */
    return w < 0 ? w + 7 : w;
}

static int two_digits(const char *text)
{
    return text[0] >= '0' && text[0] <= '9' && text[1] >= '0' && text[1] <= '9' ? (text[0] - '0') * 10 + (text[1] - '0')
                                                                                : -1;
}

date_t date_parse_iso(const char *text, size_t n)
{
    assert(text != NULL || n == 0);
    if (n != 10 || text[4] != '-' || text[7] != '-') {
        return DATE_NONE;
    }
    int century = two_digits(text), years = two_digits(text + 2);
    if (century < 0 || years < 0) {
        return DATE_NONE;
    }
    return date_make(century * 100 + years, two_digits(text + 5), two_digits(text + 8));
}

static void put_digits(char *text, int n, unsigned value)
{
    for (; n > 0; value /= 10) {
        text[--n] = (char)('0' + value % 10);
    }
}

/* Tables have a date a row: by hand it costs a tenth. */
char *date_format(date_t d, char *text)
{
    struct date_parts p = date_split(d);
    memcpy(text, "0000-00-00", DATE_TEXT);
    put_digits(text, 4, (unsigned)p.year);
    put_digits(text + 5, 2, (unsigned)p.month);
    put_digits(text + 8, 2, (unsigned)p.day);
    return text;
}

static const char *const weekday[7] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
static const char *const month[12] = {"January", "February", "March",     "April",   "May",      "June",
                                      "July",    "August",   "September", "October", "November", "December"};

const char *date_month_name(int m)
{
    assert(m >= 1 && m <= 12);
    return month[m - 1];
}

const char *date_month_short(int m)
{
    assert(m >= 1 && m <= 12);
    static const char *const shortened[12] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                              "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return shortened[m - 1];
}

char *date_format_long(date_t d, char *text, size_t size)
{
    struct date_parts p = date_split(d);
    snprintf(text, size, "%s %d %s %d", weekday[date_weekday(d)], p.day, month[p.month - 1], p.year);
    return text;
}

char *date_format_short(date_t d, char *text, size_t size)
{
    struct date_parts p = date_split(d);
    snprintf(text, size, "%.3s %d %s", weekday[date_weekday(d)], p.day, date_month_short(p.month));
    return text;
}

char *date_format_time(int64_t s, char *text)
{
    char date[DATE_TEXT];
    int64_t day = s / 86400 - (s % 86400 < 0);
    int minute = (int)((s - day * 86400) / 60);
    assert(minute >= 0 && minute < 24 * 60);
    snprintf(text, DATE_TIME_TEXT, "%sT%02d:%02dZ", date_format((date_t)day, date), minute / 60, minute % 60);
    return text;
}
