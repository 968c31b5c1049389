/* The morning advice, for people and for machines. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_TODAY_H
#define SUGARLEA_OUT_TODAY_H

#include "base/buf.h"
#include "base/units.h"
#include "data/weather_days.h"
#include "season/drivers.h"

enum { TODAY_CREDITS = 8, TODAY_ALARMS = 68, TODAY_ALARMS_WHOLE = 3 /* told at length */, TODAY_WARNING_TEXT = 768 };

struct today_day { /* one morning */
    date_t date;
    const struct run *run;       /* after run_morning of the date */
    const struct driver *driver; /* DRIVERS a paddock; NULL: none are known (short record, a day ahead) */
    double clock_offset;         /* hours to add to solar time */
    bool assumed;                /* some of its weather is persistence */
    bool air_frost, ground_frost;
    double thaw_h; /* solar hour at which white grass will have thawed; NaN: hardly today */
};

struct today_advised { /* a group on one day, as advice-log.csv has it */
    double hours;      /* first said on that morning; NaN: nothing is logged */
    double later_h;    /* last said on it, where that is something else; NaN: no */
    bool muzzle, later_muzzle;
};
enum { TODAY_ADVISED = RUN_RECENT + 1 };

struct today_view {
    const struct holding *holding;
    size_t days;                        /* this morning and those ahead that were asked for */
    const struct today_day *day;        /* the first of them */
    const struct run_animal *yesterday; /* the groups after last evening: their advice is that of yesterday's morning,
                                         * where `advised` says so (advise_plainly) */
    date_t recorded_to, forecast_to;
    date_t variable_to[WEATHER_VARS]; /* last day on which it was recorded; DATE_NONE never */
    int age_days;
    bool provisional;
    size_t filled_days;
    const char *origins[6];
    size_t n_origins;
    enum units units; /* of text for people */
    bool days_asked;  /* --days was given */
    bool silent;      /* nothing has changed, and nothing of it is shown */
    bool on_sheet;    /* shown on a page, which nobody may look at before the next morning */
    bool solar;       /* no time zone or longitude: times are solar */
    size_t credits;   /* what the licences of the weather want said */
    const char *credit[TODAY_CREDITS];
    date_t advised_to;
    const struct today_advised *advised; /* TODAY_ADVISED days a group, that of advised_to first; NULL: not looked up */
    size_t alarms;                       /* foot signs that reach no animal: before all else */
    const char *alarm[TODAY_ALARMS];
    const bool *others_lost; /* a group: those may be of another one; NULL: there are none */
    size_t warnings;
    const char **warning; /* room for warning_room of them */
    size_t warning_room;
};

/* "05:10" of a solar hour, to ten minutes; text has 6 bytes. Returns text. */
char *today_clock(const struct today_view *v, double solar_h, char *text);

/* The same of the end of a session: as many minutes after its start as it lasts. */
char *today_clock_end(const struct today_view *v, const struct advice *a, char *text);

/* Minutes of the holding's clock of a solar hour, to ten of them, since its date's 0:00 (may lie outside of the day).
 */
int today_minutes(const struct today_view *v, double solar_h);

/* Are they to have hay before they go out? */
bool today_hay_first(const struct run_animal *a);

/* NSC at the end of a clock hour, between the two solar hours it falls among. */
double today_nsc_at(const struct today_view *v, const double nsc[24], int hour);

void today_text(const struct today_view *v, bool colour, int width, struct buf *b);
/* The list to act on, without the reasons. */
void today_short_text(const struct today_view *v, bool colour, int width, struct buf *b);
void today_json(const struct today_view *v, struct buf *b);
void today_csv(const struct today_view *v, struct buf *b);

/* Rows for advice-log.csv beside the holding; written: the day on which they are. */
extern const char today_log_header[];
void today_log(const struct today_view *v, date_t written, struct buf *b);

#endif
