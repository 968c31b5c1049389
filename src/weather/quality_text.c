/* Doubts in plain words. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quality.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const ids[DOUBT_KINDS] = {
    [DOUBT_MISSING] = "missing",
    [DOUBT_CROSSED] = "swapped",
    [DOUBT_IMPOSSIBLE] = "impossible",
    [DOUBT_UNUSUAL] = "unusual",
    [DOUBT_STEP] = "step",
    [DOUBT_TENTHS] = "tenths",
    [DOUBT_FAHRENHEIT] = "fahrenheit",
    [DOUBT_SIGN] = "sign",
    [DOUBT_FROZEN] = "frozen",
    [DOUBT_DOUBLED] = "doubled",
    [DOUBT_SHIFTED] = "shifted",
    [DOUBT_ABOVE_AIR] = "above-air",
    [DOUBT_DARK] = "dark",
    [DOUBT_ABOVE_CLEAR] = "above-clear",
    [DOUBT_RAIN] = "rain",
    [DOUBT_WIND_HEIGHT] = "wind-height",
};

const char *quality_id(enum doubt_kind kind)
{
    return ids[kind];
}

static const struct spoken {
    const char *word, *unit; /* unit NULL: that of the amount */
    enum amount amount;      /* AMOUNTS: the same everywhere */
    enum amount apart;       /* of a difference */
} spoken[WEATHER_VARS + 1] = {
    [WEATHER_TMIN] = {"minimum", NULL, AMOUNT_TEMPERATURE, AMOUNT_DEGREES},
    [WEATHER_TMAX] = {"maximum", NULL, AMOUNT_TEMPERATURE, AMOUNT_DEGREES},
    [WEATHER_RAIN] = {"rain", NULL, AMOUNT_RAIN, AMOUNT_RAIN},
    [WEATHER_RAD] = {"radiation", "MJ/m2", AMOUNTS, AMOUNTS},
    [WEATHER_RH] = {"humidity", "%", AMOUNTS, AMOUNTS},
    [WEATHER_WIND] = {"wind", NULL, AMOUNT_SPEED, AMOUNT_SPEED},
    [WEATHER_TDEW] = {"dew point", NULL, AMOUNT_TEMPERATURE, AMOUNT_DEGREES},
    [WEATHER_ET0] = {"reference evaporation", NULL, AMOUNT_RAIN, AMOUNT_RAIN},
    [WEATHER_VARS] = {"weather at all", "", AMOUNTS, AMOUNTS},
};

static void put_date(date_t date, char *text, size_t size)
{
    struct date_parts p = date_split(date);
    snprintf(text, size, "%d %s %d", p.day, date_month_name(p.month), p.year);
}

struct words {
    const struct doubt *d;
    char *text;
    size_t size;
    const char *word;
    char is[UNITS_TEXT], other[UNITS_TEXT], apart[UNITS_TEXT]; /* value, other, and how far they differ */
};

static char *put(const struct spoken *s, enum units u, enum amount a, double x, char *text)
{
    if (a == AMOUNTS) {
        snprintf(text, UNITS_TEXT, "%.1f %s", x, s->unit);
        return text;
    }
    return units_text(u, a, x, 1, text);
}

static void say_missing(const struct words *w)
{
    int days = w->d->last - w->d->date + 1;
    snprintf(w->text, w->size, "no %s (%d day%s)", w->word, days, days > 1 ? "s" : "");
}

static void say_crossed(const struct words *w)
{
    snprintf(w->text, w->size, "the minimum of %s is above the maximum of %s; both are taken as missing", w->is,
             w->other);
}

static void say_impossible(const struct words *w)
{
    snprintf(w->text, w->size, "the %s of %s was never measured anywhere; correct it", w->word, w->is);
}

static void say_unusual(const struct words *w)
{
    snprintf(w->text, w->size,
             "the %s of %s is far from all that this record has at this time of the year (about %s); look at it",
             w->word, w->is, w->other);
}

static void say_step(const struct words *w)
{
    double off = w->d->value - w->d->other;
    snprintf(w->text, w->size, "the %s of %s is %s %s what the days beside it lead one to expect; look at it", w->word,
             w->is, w->apart, off < 0 ? "below" : "above");
}

static void say_tenths(const struct words *w)
{
    bool much = fabs(w->d->value) > fabs(w->d->other);
    snprintf(w->text, w->size, "the %s of %s would fit as %s; look whether its decimal point is lost%s", w->word, w->is,
             w->other, much ? "" : " or put in twice");
}

static void say_fahrenheit(const struct words *w)
{
    snprintf(w->text, w->size, "the %s of %.1f would fit as Fahrenheit (%s); look at the unit", w->word, w->d->value,
             w->other);
}

static void say_sign(const struct words *w)
{
    snprintf(w->text, w->size, "the %s of %s would fit as %s; look whether a minus sign is %s", w->word, w->is,
             w->other, w->d->other < 0 ? "lost" : "too many");
}

static void say_frozen(const struct words *w)
{
    snprintf(w->text, w->size, "the %s stands at %s for %.0f days; look whether the instrument had stopped", w->word,
             w->is, w->d->other);
}

static void say_doubled(const struct words *w)
{
    snprintf(w->text, w->size, "every value is that of the day before; look whether the day was written twice");
}

static void say_shifted(const struct words *w)
{
    snprintf(w->text, w->size,
             "%s would fit the rest of the weather better one day %s; look whether they were written down %s",
             w->d->var == WEATHER_RAIN ? "the amounts of rain" : "maximum and rain",
             w->d->value > 0 ? "earlier" : "later", w->d->value > 0 ? "on the day of reading" : "a day too early");
}

static void say_above_air(const struct words *w)
{
    snprintf(w->text, w->size, "radiation of %.1f MJ/m2 is more than reaches the top of the air (%.1f); it is not used",
             w->d->value, w->d->other);
}

static void say_dark(const struct words *w)
{
    snprintf(w->text, w->size, "radiation of %.1f MJ/m2 by day is not believed, and not used", fabs(w->d->value));
}

static void say_above_clear(const struct words *w)
{
    snprintf(w->text, w->size, "radiation of %.1f MJ/m2 is well above that of a clear sky (%.1f); look at it",
             w->d->value, w->d->other);
}

static void say_rain(const struct words *w)
{
    snprintf(w->text, w->size,
             "rain of %s is more than this record lets one expect of such a day (%s); "
             "look at it",
             w->is, w->other);
}

static void say_wind_height(const struct words *w)
{
    snprintf(w->text, w->size,
             "the mean wind of %s is high for 2 m above the ground; was it measured at 10 m? "
             "Then it is %s: say so in the column's name",
             w->is, w->other);
}

static void (*const say[DOUBT_KINDS])(const struct words *) = {
    [DOUBT_MISSING] = say_missing,
    [DOUBT_CROSSED] = say_crossed,
    [DOUBT_IMPOSSIBLE] = say_impossible,
    [DOUBT_UNUSUAL] = say_unusual,
    [DOUBT_STEP] = say_step,
    [DOUBT_TENTHS] = say_tenths,
    [DOUBT_FAHRENHEIT] = say_fahrenheit,
    [DOUBT_SIGN] = say_sign,
    [DOUBT_FROZEN] = say_frozen,
    [DOUBT_DOUBLED] = say_doubled,
    [DOUBT_SHIFTED] = say_shifted,
    [DOUBT_ABOVE_AIR] = say_above_air,
    [DOUBT_DARK] = say_dark,
    [DOUBT_ABOVE_CLEAR] = say_above_clear,
    [DOUBT_RAIN] = say_rain,
    [DOUBT_WIND_HEIGHT] = say_wind_height,
};

char *quality_text(const struct doubt *d, enum units u, char *text, size_t size)
{
    char first[32], last[32];
    put_date(d->date, first, sizeof first);
    put_date(d->last, last, sizeof last);
    int n = snprintf(text, size, "%s%s%s: ", first, d->last > d->date ? " to " : "", d->last > d->date ? last : "");
    size_t used = n > 0 && (size_t)n < size ? (size_t)n : 0;
    const struct spoken *var = &spoken[d->var];
    struct words w = {.d = d, .text = text + used, .size = size - used, .word = var->word};
    /* a lost point or sign shows in the figures of the file alone, which are metric or were taken for it */
    u = d->kind == DOUBT_TENTHS || d->kind == DOUBT_SIGN ? SHOW_METRIC : u;
    put(var, u, var->amount, d->value, w.is);
    put(var, u, var->amount, d->other, w.other);
    put(var, u, var->apart, fabs(d->value - d->other), w.apart);
    say[d->kind](&w);
    used = strlen(text);
    if (used + 1 < size) {
        text[used] = '.';
        text[used + 1] = '\0';
    }
    return text;
}
