/* Reads a place. First all signs of degrees, minutes and seconds that maps print are made
 * one letter each, then the line is parted in two, then each half is read.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "setup/coordinates.h"

#include "base/num.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST = 128, PARTS = 3 };

static const char example[] = "52.19, -2.71 or 52 11 24 N, 2 42 36 W";

/* Longest first where one begins another. O is east in German and west in French. */
static const struct {
    const char *from;
    char to;
} signs[] = {{"\xc2\xb0", 'd'},
             {"\xc2\xba", 'd'},
             {"\xe2\x80\xb2", 'm'},
             {"\xe2\x80\x99", 'm'},
             {"\xe2\x80\x98", 'm'},
             {"''", 's'},
             {"'", 'm'},
             {"\xe2\x80\xb3", 's'},
             {"\xe2\x80\x9d", 's'},
             {"\xe2\x80\x9c", 's'},
             {"\"", 's'},
             {"\xe2\x88\x92", '-'},
             {"\xe2\x80\x93", '-'},
             {"\xc2\xa0", ' '},
             {"\t", ' '},
             {":", ' '},
             {"/", ';'},
             {"(", ' '},
             {")", ' '},
             {"n", 'N'},
             {"s", 'S'},
             {"e", 'E'},
             {"w", 'W'}};

static bool normalise(const char *text, char out[LONGEST])
{
    size_t n = 0;
    while (*text) {
        size_t i = 0, count = sizeof signs / sizeof signs[0];
        while (i < count && strncmp(text, signs[i].from, strlen(signs[i].from)) != 0) {
            i++;
        }
        if (n + 1 >= LONGEST) {
            return false;
        }
        out[n++] = i < count ? signs[i].to : *text;
        text += i < count ? strlen(signs[i].from) : 1;
    }
    out[n] = 0;
    return true;
}

static size_t count(const char *text, char c)
{
    size_t n = 0;
    for (; *text; text++) {
        n += *text == c;
    }
    return n;
}

/* Where the second half begins; NULL when that is not clear. */
static char *part(char *text)
{
    char *first = strpbrk(text, "NSEW"), *blank;
    if (first && strpbrk(first + 1, "NSEW")) {
        bool in_front = strspn(text, " ") == (size_t)(first - text);
        return in_front ? strpbrk(first + 1, "NSEW") : first + 1;
    }
    if (count(text, ';') == 1) {
        return strchr(text, ';');
    }
    char *comma = strchr(text, ',');
    size_t commas = count(text, ',');
    if (commas == 1 && (strchr(" +-", comma[1]) || strpbrk(text, ".dms"))) {
        return comma;
    }
    if (commas == 3) { /* 52,19, -2,71 */
        return strchr(comma + 1, ',');
    }
    blank = strchr(text, ' ');
    return blank && !strchr(blank + strspn(blank, " "), ' ') && (commas == 0 || commas == 2) ? blank : NULL;
}

struct half {
    double degrees;
    char letter; /* 0 none */
    int parts;   /* numbers read so far */
    bool minus;
    bool ended; /* by decimals or a letter behind: no number may follow */
};

static bool add_part(const char *number, size_t n, int index, double *degrees)
{
    static const double unit[PARTS] = {1, 60, 3600};
    char copy[LONGEST];
    double x;
    memcpy(copy, number, n);
    copy[n] = 0;
    char *comma = strchr(copy, ',');
    if (comma) {
        *comma = '.';
    }
    if (index >= PARTS || !num_parse(copy, n, '.', &x) || (index > 0 && x >= 60)) {
        return false;
    }
    *degrees += x / unit[index];
    return true;
}

static bool add_sign(char sign, struct half *h)
{
    if (strchr("+-", sign)) {
        h->minus = h->minus || sign == '-';
        return h->parts == 0;
    }
    if (strchr("NSEW", sign)) {
        bool first = !h->letter;
        h->letter = sign;
        h->ended = h->ended || h->parts > 0;
        return first;
    }
    return strchr(" dms", sign) != NULL;
}

/* Degrees, or degrees and minutes, or all three; only the last may have decimals. */
static bool read_half(const char *text, struct half *h)
{
    bool good = true;
    *h = (struct half){0};
    while (*text && good) {
        size_t n = strspn(text, "0123456789.,");
        if (n == 0) {
            good = add_sign(*text++, h);
            continue;
        }
        while (n > 1 && strchr(".,", text[n - 1])) {
            n--;
        }
        good = !h->ended && add_part(text, n, h->parts++, &h->degrees);
        h->ended = memchr(text, '.', n) || memchr(text, ',', n);
        text += n + strspn(text + n, ".,");
    }
    bool south_or_west = h->letter == 'S' || h->letter == 'W';
    h->degrees = h->minus || south_or_west ? -h->degrees : h->degrees;
    return good && h->parts > 0 && !(h->minus && h->letter);
}

static bool is_north(const struct half *h)
{
    return h->letter == 'N' || h->letter == 'S';
}

static bool is_east(const struct half *h)
{
    return h->letter == 'E' || h->letter == 'W';
}

static enum err_code check(double latitude, double longitude, struct err *e)
{
    if (fabs(latitude) > 90) {
        return err_set(e, ERR_USAGE, "the latitude comes first and is 90 at most, and this one is %g%s", latitude,
                       fabs(longitude) <= 90 ? ": did you type the longitude first?" : "");
    }
    if (fabs(longitude) > 180) {
        return err_set(e, ERR_USAGE, "the longitude is 180 at most, and this one is %g", longitude);
    }
    return ERR_OK;
}

enum err_code coordinates_read(const char *text, double *latitude, double *longitude, struct err *e)
{
    char line[LONGEST], first[LONGEST];
    struct half a, b;
    char *second = normalise(text, line) ? part(line) : NULL;
    if (!second) {
        return err_set(e, ERR_USAGE,
                       "\"%.60s\" is not clear: type latitude and longitude with decimal points, as in %s", text,
                       example);
    }
    snprintf(first, sizeof first, "%.*s", (int)(second - line), line);
    second += strspn(second, ";, ");
    if (!read_half(first, &a) || !read_half(second, &b)) {
        return err_set(e, ERR_USAGE, "\"%.60s\" is no place: type it as in %s (minutes and seconds are below 60)", text,
                       example);
    }
    if ((is_east(&a) && is_east(&b)) || (is_north(&a) && is_north(&b))) {
        return err_set(e, ERR_USAGE, "\"%.60s\" names one direction twice: a place needs N or S, and E or W", text);
    }
    bool swapped = is_east(&a) || is_north(&b);
    double north = swapped ? b.degrees : a.degrees, east = swapped ? a.degrees : b.degrees;
    enum err_code code = check(north, east, e);
    if (code == ERR_OK) {
        *latitude = north;
        *longitude = east;
    }
    return code;
}
