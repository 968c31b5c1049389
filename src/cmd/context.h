/* What a command works on: parameters, holding, weather, and the days laid out for
 * the run. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CONTEXT_H
#define SUGARLEA_CONTEXT_H

#include "base/arena.h"
#include "cmd/options.h"
#include "data/diary.h"
#include "season/run.h"
#include "weather/quality.h"
#include "weather/sources.h"

struct context {
    struct arena arena;
    struct params params;
    struct holding holding;
    struct tuning_file tuning; /* n 0: there is none */
    struct diary diary;        /* beside the holding; n 0: there is none */
    size_t known;              /* of its entries, from the first: what the morning knew; all without a morning */
    struct sources sources;
    struct weather_days weather;      /* as merged; complete after context_load */
    date_t recorded_to[WEATHER_VARS]; /* of each variable, before anything was filled in; DATE_NONE never */
    struct quality quality;           /* doubts about the record; found for a morning only */
    struct weather_report report;
    bool morning;          /* set by the command: only what `until` knew counts */
    date_t until;          /* that morning; DATE_NONE becomes today's date when the holding's zone is known */
    size_t mornings;       /* set by the command: how many it wants where --days does not say; 0: one */
    bool untuned;          /* set by the command: tuning.json is not looked at */
    bool place_optional;   /* set by the command: it can do without a latitude */
    bool weather_optional; /* set by the command: without any named, nothing is read and weather.n is 0 */
    bool weather_unwanted; /* set by the command: it asks for none */
    bool doubts_unwanted;  /* set by the command: `quality` is not looked for */
    bool drivers_unwanted; /* set by the command: what drove the sugar is not looked for */
    unsigned threads;      /* set by the command: of an ensemble; 0: one a core */
    bool place_from_file;  /* the place is what the weather file says */
};

void context_init(struct context *c);
void context_release(struct context *c);

/* The models folder: $SUGARLEA_MODELS, else models/ beside the program, else as installed.
 * Parameters that the command put there itself are left as they are. */
enum err_code context_params(struct context *c, struct err *e);

/* Whether the options, the environment or the folder name a holding file. */
bool context_has_holding(const struct options *o);

/* Parameters and a holding file alone, for what needs no weather. ERR_USAGE without one. */
enum err_code context_holding(struct context *c, const struct options *o, struct err *e);

/* Parameters, holding (by option, environment, or ./holding.json, else from options
 * alone) and its weather as merged. */
enum err_code context_read(struct context *c, const struct options *o, struct err *e);

/* The same with the diary, what tests say of the paddocks, and the weather of that morning,
 * checked and complete. */
enum err_code context_load(struct context *c, const struct options *o, struct err *e);

/* The same in two steps, for what goes on when the weather fails: all but the weather, then
 * the weather. */
enum err_code context_beside(struct context *c, const struct options *o, struct err *e);
enum err_code context_weather(struct context *c, const struct options *o, struct err *e);

/* The diary alone, of a holding that is there already: as the morning knows it, where the command set one. */
enum err_code context_diary(struct context *c, struct err *e);

/* Of one of many places, in two steps. First a context of its own (to be released) with a copy of
 * the site's days: parameters and holding are those of `of`, which must outlive it; the place is as
 * the site says it, else as the holding does. ERR_USAGE when no latitude is known, ERR_NOMEM. Then
 * its weather, complete; the two may be called in different threads. */
enum err_code context_of_site(const struct context *of, const struct weather_site *site, struct context *c,
                              struct err *e);
enum err_code context_complete(struct context *c, struct err *e);

/* A run of the holding that follows the diary as far as it is known: its paddocks, and the
 * animals where the command advises on a real holding (follow). False: no memory. */
bool context_run(struct context *c, bool follow, struct run *r);

/* Day i of the weather as the run needs it. Recorded values may reach one day past the table. */
void context_day(const struct context *c, size_t i, struct run_day *d);

/* The same for run_evening alone, which looks at nothing but what was recorded. */
void context_evening(const struct context *c, size_t i, struct run_day *d);

/* Day i + ahead as the morning of day i assumes it, who had no forecast (i at least 3); ahead 0: context_day. */
void context_day_ahead(const struct context *c, size_t i, size_t ahead, struct run_day *d);

#endif
