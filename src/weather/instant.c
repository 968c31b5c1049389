/* Instants and intervals of ISO 8601. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/instant.h"

#include "base/clock.h"
#include "base/num.h"

#include <string.h>

#define DURATION_MOST 100000 /* of each unit */

/* The whole number of two digits at text, in low..high, or -1. */
static long pair(const char *text, long most)
{
    long value;
    bool digits = text[0] >= '0' && text[0] <= '9';
    return digits && num_parse_long(text, 2, 0, most, &value) ? value : -1;
}

/* "", "Z", "+HH:MM", "+HHMM" or "+HH"; seconds ahead of UTC. */
static bool parse_zone(const char *text, size_t n, int64_t *ahead, bool *zoned)
{
    *ahead = 0;
    *zoned = n > 0;
    if (n == 0 || (n == 1 && text[0] == 'Z')) {
        return true;
    }
    if ((text[0] != '+' && text[0] != '-') || (n != 3 && n != 5 && n != 6) || (n == 6 && text[3] != ':')) {
        return false;
    }
    long hours = pair(text + 1, 23), minutes = n == 3 ? 0 : pair(text + n - 2, 59);
    *ahead = (hours * 60 + minutes) * 60 * (text[0] == '-' ? -1 : 1);
    return hours >= 0 && minutes >= 0;
}

bool instant_parse(const char *text, size_t n, int64_t *s, bool *zoned)
{
    if (n < 16 || (text[10] != 'T' && text[10] != ' ') || text[13] != ':') {
        return false;
    }
    date_t date = date_parse_iso(text, 10);
    long hours = pair(text + 11, 24), minutes = pair(text + 14, 59), seconds = 0;
    size_t used = 16;
    if (n >= 19 && text[16] == ':') {
        seconds = pair(text + 17, 60);
        used = 19;
    }
    int64_t ahead;
    if (date == DATE_NONE || hours < 0 || minutes < 0 || seconds < 0 || (hours == 24 && minutes + seconds > 0) ||
        !parse_zone(text + used, n - used, &ahead, zoned)) {
        return false;
    }
    *s = (int64_t)date * CLOCK_DAY_SECONDS + (hours * 60 + minutes) * 60 + seconds - ahead;
    return true;
}

/* One "6H" of a duration; *text moves behind it. Each unit once, in falling order. */
static bool take_unit(const char **text, bool *clock, size_t *next, int64_t *seconds)
{
    static const struct {
        char sign;
        bool clock;
        int64_t seconds;
    } units[] = {{'W', false, 604800}, {'D', false, 86400}, {'H', true, 3600}, {'M', true, 60}, {'S', true, 1}};
    if (**text == 'T' && !*clock) {
        *clock = true;
        ++*text;
    }
    size_t digits = strspn(*text, "0123456789");
    long value;
    if (!digits || !num_parse_long(*text, digits, 0, DURATION_MOST, &value)) {
        return false;
    }
    for (size_t i = *next; i < sizeof units / sizeof units[0]; i++) {
        if (units[i].sign == (*text)[digits] && units[i].clock == *clock) {
            *next = i + 1;
            *seconds += value * units[i].seconds;
            *text += digits + 1;
            return true;
        }
    }
    return false;
}

bool instant_interval(const char *text, int64_t *from, int64_t *to)
{
    const char *slash = strchr(text, '/');
    bool zoned, clock = false;
    size_t next = 0;
    int64_t seconds = 0;
    if (!slash || !instant_parse(text, (size_t)(slash - text), from, &zoned) || !zoned || slash[1] != 'P') {
        return false;
    }
    const char *at = slash + 2;
    do {
        if (!take_unit(&at, &clock, &next, &seconds)) {
            return false;
        }
    } while (*at);
    *to = *from + seconds;
    return seconds > 0;
}
