/* Zone offsets through the C library: TZ is set for the one conversion and put
 * back. Not for threads, and called only by out/ and cmd/.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"

#include "base/num.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define SECONDS_PER_DAY 86400

bool clock_zone_known(const char *zone)
{
    static const char *const folders[] = {"/usr/share/zoneinfo", "/usr/lib/zoneinfo", "/usr/share/lib/zoneinfo"};
    char path[256];
    if (!zone[0] || strstr(zone, "..") || zone[0] == '/') {
        return false;
    }
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        snprintf(path, sizeof path, "%s/%s", folders[i], zone);
        if (access(path, R_OK) == 0) {
            return true;
        }
    }
    return false;
}

/* Offset from UTC, s, of the zone ("" = the system's) at an instant. */
static long offset_at(const char *zone, time_t when)
{
    const char *set = getenv("TZ");
    char *old = set ? strdup(set) : NULL;
    struct tm local;
    if (zone[0]) {
        setenv("TZ", zone, 1);
    }
    tzset();
    long offset = localtime_r(&when, &local) ? local.tm_gmtoff : 0;
    if (old) {
        setenv("TZ", old, 1);
    } else if (zone[0]) {
        unsetenv("TZ");
    }
    tzset();
    free(old);
    return offset;
}

time_t clock_now(void)
{
    const char *fixed = getenv("SOURCE_DATE_EPOCH");
    long value;
    if (fixed && num_parse_long(fixed, strlen(fixed), 0, 7000000000L, &value)) {
        return (time_t)value;
    }
    return time(NULL);
}

double clock_ticks(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

date_t clock_today(const char *zone)
{
    time_t when = clock_now();
    when += offset_at(clock_zone_known(zone) ? zone : "", when);
    return (date_t)(when / SECONDS_PER_DAY);
}

int clock_offset_minutes(const char *zone, date_t date)
{
    return (int)(offset_at(zone, (time_t)date * SECONDS_PER_DAY + SECONDS_PER_DAY / 2) / 60);
}

double clock_from_solar(const char *zone, date_t date, double longitude, double equation_min)
{
    return -longitude / 15.0 - equation_min / 60.0 + clock_offset_minutes(zone, date) / 60.0;
}
