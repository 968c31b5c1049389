/* Dates as whole days since 1970-01-01, proleptic Gregorian.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_DATE_H
#define SUGARLEA_DATE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef int32_t date_t;
#define DATE_NONE INT32_MIN
#define DATE_TIME_TEXT 32
#define DATE_TEXT 11 /* room for "2025-05-04" */

struct date_parts {
    int year, month, day;
};

bool date_valid(int year, int month, int day);  /* years 1700 to 2200 */
date_t date_make(int year, int month, int day); /* DATE_NONE when not valid */
struct date_parts date_split(date_t d);
int date_day_of_year(date_t d); /* 1..366 */
int date_parts_day_of_year(const struct date_parts *p);
bool date_is_leap(int year);
int date_days_in_month(int year, int month);
int date_weekday(date_t d); /* 0 Monday .. 6 Sunday */

/* "2025-05-04" that fills text[0..n); DATE_NONE when it is not a real date. */
date_t date_parse_iso(const char *text, size_t n);

/* "January", and "Jan", of 1 to 12. */
const char *date_month_name(int month);
const char *date_month_short(int month);

/* Writes "2025-05-04"; text has DATE_TEXT bytes. Returns text. */
char *date_format(date_t d, char *text);

/* Writes "Sunday 4 May 2025". Returns text. */
char *date_format_long(date_t d, char *text, size_t size);

/* Writes "Sun 4 May". Returns text. */
char *date_format_short(date_t d, char *text, size_t size);

/* Writes "2025-05-04T06:12Z" of seconds since 1970-01-01 UTC; text has DATE_TIME_TEXT
 * bytes. Returns text. */
char *date_format_time(int64_t s, char *text);

#endif
