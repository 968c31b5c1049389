/* The options of every command: one typed table over getopt_long.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OPTIONS_H
#define SUGARLEA_OPTIONS_H

#include "base/date.h"
#include "base/err.h"
#include "base/units.h"
#include "out/text.h"

#include <stdbool.h>
#include <stddef.h>

enum command_bit {
    FOR_TODAY = 1,
    FOR_SEASON = 2,
    FOR_PARAMS = 4,
    FOR_WEATHER = 8,
    FOR_OUTLOOK = 16,
    FOR_REVIEW = 32,
    FOR_RECORD = 64,
    FOR_TUNE = 128,
    FOR_RATION = 256,
    FOR_HAY = 512,
    FOR_ROUND = 1024,
    FOR_SHEET = 2048,
    FOR_SETUP = 4096,
    FOR_ALL = 8191,
    ANYWHERE = 8192 /* taken by every command, and listed where it means something: for scripts that always say it */
};

struct options {
    const char *at, *note; /* of record */
    char *const *word;     /* of commands that take words: what is no option */
    size_t words;
    const char *holding, *weather, *animal, *grass, *soil, *nitrogen, *layout, *file_units;
    const char *plot, *picture, *paddock, *calendar, *units, *output;
    const char *list;                                     /* of the round and the season */
    double jobs, seconds;                                 /* the same; NaN: not given */
    double days;                                          /* of today (NaN: one) and the sheet */
    double months, seed, draws;                           /* of the outlook; NaN: not given */
    double latitude, longitude, elevation, weight, cover; /* NaN: not given */
    date_t date, from, to, until;                         /* DATE_NONE: not given */
    bool json, csv, plain, verbose, no_log, no_colour, allow_stale, exit_status, fetch, offline, term, apply, insist,
        undo, arithmetic, help, quiet;
    bool mark_up, no_grass;                /* of hay */
    const char *name, *timezone, *service; /* of setup */
    double area, count;
    bool no_input, replace, brief;
};

enum option_type { OPTION_FLAG, OPTION_TEXT, OPTION_NUMBER, OPTION_WHOLE, OPTION_DATE };

struct option_row {
    const char *name;
    char letter; /* 0 none */
    enum option_type type;
    size_t offset;
    unsigned commands;        /* bits of enum command_bit: of the help, manual and completions */
    double low, high;         /* of a number; both 0: who takes it knows its range */
    const char *value, *what; /* for the help */
};

extern const struct option_row option_table[];
extern const size_t option_rows;

enum { TAKES_WORDS = FOR_RECORD | FOR_ROUND }; /* the other commands have options only */

/* Reads argv[1..argc) (argv[0] is the command) for the command of that bit.
 * ERR_USAGE names the option, what is allowed and the nearest one. */
enum err_code options_read(int argc, char **argv, unsigned command, struct options *o, struct err *e);

/* ERR_USAGE with a sentence about an option ("--plot"). */
enum err_code options_wrong(struct err *e, const char *option, const char *what);

enum { OPTIONS_SYSTEMS = SHOW_US + 1 };
extern const char *const options_systems[OPTIONS_SYSTEMS]; /* words of --units, by enum units */

/* Those of text for people: CSV and JSON are metric. */
enum units options_units(const struct options *o);

/* How text for people is laid out: as wide as the terminal, with its colour; --plain: 100
 * columns without. */
struct page options_page(const struct options *o, struct buf *out);

#endif
