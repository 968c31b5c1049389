/* The season of one paddock as columns, for pictures. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_SERIES_H
#define SUGARLEA_OUT_SERIES_H

#include "out/palette.h"
#include "out/plot.h"
#include "out/season.h"

struct series_day { /* as season_row has it; NSC in g/kg DM, by the record */
    double nsc_mean, nsc_low, nsc_high;
    double nsc_hour[24]; /* end of each solar hour */
    double growth;       /* kg DM/ha/d */
    double tmin, tmax, rain;
    double water; /* share of what the soil can hold, 0..1 */
    bool air_frost, ground_frost;
};

struct series_turnout { /* what the morning would have advised; hours are solar */
    enum turnout turnout;
    bool muzzle;
    double hours, from_h, to_h;
};

struct series_group {
    const struct animal_group *is;
};

struct series {
    const struct site *site;
    const char *place;   /* name of the holding, or the weather file; "" neither */
    const char *paddock; /* its id */
    bool named;          /* there is a holding file: ids are the keeper's */
    size_t index;        /* of the paddock in its holding */
    date_t first;
    size_t n, room; /* days, and how many there is memory for */
    size_t animals; /* groups of the paddock */
    struct series_group *group;
    struct series_day *day;
    struct series_turnout *turnout; /* of group a on day i: [a * room + i] */
};

/* Room for so many days of holding h's paddock; h must outlive the series. False: no memory. */
bool series_init(struct series *s, const struct holding *h, size_t paddock, const char *place, date_t first,
                 size_t room, struct arena *a);

/* Takes the row when it is the paddock's; days come in order. */
void series_add(struct series *s, const struct season_row *row);

static inline const struct series_turnout *series_turnout(const struct series *s, size_t animal, size_t day)
{
    return &s->turnout[animal * s->room + day];
}

size_t series_muzzled(const struct series *s, size_t animal); /* days with hours that need a muzzle */

/* The pictures. Each makes a whole plot, or text for a terminal. */
enum {
    PICTURE_HOURS_MOST = 62,
    PICTURE_HOURS_USUAL = 31
}; /* days that the hours picture has room for, and shows unasked */

void picture_days(const struct series *s, struct plot *p);  /* sugar, turnout, growth, weather day by day */
void picture_years(const struct series *s, struct plot *p); /* a row a year */
void picture_hours(const struct series *s, struct plot *p); /* hour by day; n <= PICTURE_HOURS_MOST */

/* The same in plain letters, at most 80 columns. */
void picture_days_text(const struct series *s, struct buf *b);
void picture_years_text(const struct series *s, struct buf *b);
void picture_hours_text(const struct series *s, struct buf *b);

/* ---- shared by them ---- */

/* "Place, paddock ID: 1 April 2025 to 22 April 2025"; a long place is cut. */
void picture_about(const struct series *s, struct buf *b);
void picture_title(const struct series *s, const char *title, struct plot *p); /* with picture_about */

/* Hours are those of the sun: the zone or the longitude is not known. */
bool picture_is_solar(const struct series *s);
struct picture_clock {
    double ahead;           /* h that the clock is ahead of the sun; 0 when solar */
    double sunrise, sunset; /* solar h */
};
struct picture_clock picture_clock_at(const struct series *s, size_t i);

/* The clock hours, 0..24, that a group was allowed on day i; all when free. A session that
 * goes on after midnight has a part 1: the day's own early hours, by which it was judged.
 * False: none (part 1: none beyond part 0). */
bool picture_allowed(const struct series *s, size_t group, size_t i, int part, double *from, double *to);
bool picture_allows(const struct series *s, size_t group, size_t i, double hour); /* within one of them */

/* Where a date stands: its year (in the south from July on, named by the first half) and
 * its day in a frame in which 29 February always has its place. */
enum { PICTURE_FRAME = 366 };
struct picture_place {
    int year, at; /* at 0..365 */
};
struct picture_place picture_place_of(const struct series *s, date_t d);
int picture_years_of(const struct series *s); /* how many years the series touches */

/* A scale that just holds the hours shown: the day's course is small beside the year's. */
struct palette_scale picture_scale(const struct series *s);
extern const char picture_closing[]; /* what every caption ends with */
extern const char picture_nsc[];     /* what NSC is, in a sentence */

/* Adds a sentence on how far 8 in 10 paddocks lie from the central values shown. */
void picture_doubt(const struct series *s, struct plot *p);

/* The group that the least grazing is advised for, over all days; s->animals when there is none. */
size_t picture_tightest(const struct series *s);

/* Adds the turnout of `strips` groups from `first` on, `step` days taken together: block
 * $turnout (strip 1.., day from, day to, level 0 free .. 3 none, colour), strips, arrays
 * strip_name and strip_count; arrays level_name, level_colour. */
void picture_strips(const struct series *s, size_t first, size_t strips, size_t step, struct plot *p);

/* "does (goat-dry)", or the class alone without a holding. */
const char *picture_group_id(const struct series *s, size_t group); /* the id, or the class */
void picture_group_name(const struct series *s, size_t animal, struct buf *b);

/* Adds the block $key of the NSC classes (0.., g/kg from, colour), key_count of them. */
void picture_key(const struct palette_scale *scale, struct plot *p);

#endif
