/* Weather services: what each is, how it is asked, and what it wants in return.
 * Facts without a mark were read in the service's documentation or in a real answer.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_SERVICE_H
#define SUGARLEA_WEATHER_SERVICE_H

#include "base/buf.h"
#include "base/date.h"
#include "base/err.h"
#include "data/site.h"

enum service_kind { SERVICE_RECORDED, SERVICE_FORECAST };

struct service {
    const char *name;  /* as a holding names it: lower case and hyphens */
    const char *brief; /* what it gives and needs, for who has to choose */
    enum service_kind kind;
    const char *base; /* scheme and host of the service */
    const char *path; /* template of what is asked: see service_url */
    const char *then; /* template of the second question, whose {grid} the first one answers; NULL: one is enough */
    const char *licence;
    const char *credit;    /* the line that must stand beside what is shown of it */
    const char *limits;    /* for people */
    bool contact;          /* it turns away who does not say whom to write to */
    bool station;          /* it is asked for a station, not a place */
    double place_km;       /* its answer may be for a place so far from the one asked: its grid; 0: it says none */
    double min_age_h;      /* an answer younger than this is never asked for again */
    int late_days;         /* temperature comes so many days late, as a rule; 0 for a forecast */
    int late_rad_days;     /* radiation; -1: it has none */
    unsigned needs;        /* bit v set: an answer without variable v is refused */
    const char *units;     /* weather_hints.units of its answers; NULL: they say it themselves */
    const char *key_field; /* the query field of its key, "" where it takes none */
};

extern const struct service services[];
extern const size_t service_count;

const struct service *service_find(const char *name); /* NULL: not known */

/* ERR_CONFIG for a name that no service has: the nearest one and all names. */
enum err_code service_unknown(const char *name, struct err *e);

/* What is asked for. */
struct service_ask {
    struct site place; /* rounded on the way out: see service_round */
    date_t from, to;   /* both included; a forecast takes no notice of them */
    const char *station;
    const char *grid; /* "OFFICE/X,Y" of a second question; NULL in the first */
};

/* Degrees as they leave the machine: 2 decimals, 1.1 km. No grid of these services is
 * finer than that, so nothing is lost; a holding's yard is not given away. */
double service_round(double degrees);

/* The base address in use: environment SUGARLEA_URL_NAME (upper case, hyphens as _),
 * else `set` (the holding's "url"; "" or NULL none), else the service's own. */
const char *service_base(const struct service *s, const char *set);

/* The whole address of a question into `url`, without key when key is NULL or "".
 * Templates: {lat} {lon} {elev} {from} {to} (2025-05-04) {from8} {to8} (20250504)
 * {station} {grid}; a part in [ ] is left out when a field in it is not known. What
 * comes from outside is percent-escaped. */
void service_url(const struct service *s, const struct service_ask *ask, const char *base, const char *key,
                 struct buf *url);

/* The key: environment SUGARLEA_KEY_NAME, else the first line of key_file (NULL or "":
 * none); "" when there is neither. 8 to 200 letters, digits and -._~ are allowed.
 * ERR_CONFIG, ERR_NOINPUT; the message never holds the key. */
#define SERVICE_KEY 201
enum err_code service_key(const struct service *s, const char *key_file, char key[SERVICE_KEY], struct err *e);

/* Overwrites each place of text[0..n) where the key stands with as many '*'. */
void service_hide_key(char *text, size_t n, const char *key);

#endif
