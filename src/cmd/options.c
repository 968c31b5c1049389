/* SPDX-License-Identifier: GPL-3.0-or-later
 * The option table, and reading a command line by it. */
#include "cmd/options.h"

#include "base/num.h"
#include "base/term.h"
#include "out/plot.h"

#include <getopt.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

#define AT(field) offsetof(struct options, field)
enum {
    OPTIONS_MOST = 64,
    PLAIN_WIDTH = 100, /* columns of text that is not for a terminal */
    FOR_HOLDING = FOR_TODAY | FOR_SEASON | FOR_WEATHER | FOR_OUTLOOK | FOR_REVIEW | FOR_RATION | FOR_HAY | FOR_SHEET,
    FOR_ANIMALS = FOR_TODAY | FOR_SEASON | FOR_OUTLOOK | FOR_REVIEW | FOR_RATION | FOR_HAY | FOR_SHEET,
    FOR_READERS = FOR_HOLDING | FOR_TUNE | FOR_ROUND | FOR_SETUP, /* of weather */
    FOR_PAGES = FOR_READERS & ~FOR_SHEET                          /* of text that may have colour */
};

const struct option_row option_table[] = {
    {"holding", 0, OPTION_TEXT, AT(holding), FOR_HOLDING | FOR_RECORD | FOR_TUNE | FOR_SETUP, 0, 0, "FILE",
     "the holding file"},
    {"weather", 0, OPTION_TEXT, AT(weather), FOR_HOLDING | FOR_SETUP, 0, 0, "FILE", "daily weather (- standard input)"},
    {"latitude", 0, OPTION_NUMBER, AT(latitude), FOR_HOLDING | FOR_SETUP, -90, 90, "DEGREES", "north positive"},
    {"longitude", 0, OPTION_NUMBER, AT(longitude), FOR_HOLDING | FOR_SETUP, -180, 180, "DEGREES", "east positive"},
    {"elevation", 0, OPTION_NUMBER, AT(elevation), FOR_HOLDING | FOR_SETUP, -450, 6000, "M", "above the sea"},
    {"animal", 0, OPTION_TEXT, AT(animal), FOR_ANIMALS | FOR_SETUP, 0, 0, "CLASS", "such as goat-dry, pony"},
    {"weight", 0, OPTION_NUMBER, AT(weight), FOR_ANIMALS | FOR_SETUP, 1, 2000, "KG", "of one animal"},
    {"grass", 0, OPTION_TEXT, AT(grass), FOR_ANIMALS | FOR_SETUP, 0, 0, "GRASS", "such as ryegrass"},
    {"soil", 0, OPTION_TEXT, AT(soil), FOR_ANIMALS | FOR_SETUP, 0, 0, "SOIL", "such as loam"},
    {"nitrogen", 0, OPTION_TEXT, AT(nitrogen), FOR_ANIMALS | FOR_SETUP, 0, 0, "NITROGEN", "how it is manured"},
    {"cover", 0, OPTION_NUMBER, AT(cover), FOR_ANIMALS | FOR_SETUP, 0, 0, "KG", /* its range is the holding's */
     "dry matter a hectare, as it is kept"},
    {"no-input", 0, OPTION_FLAG, AT(no_input), FOR_SETUP, 0, 0, NULL,
     "ask nothing: options and defaults are the answers"},
    {"short", 0, OPTION_FLAG, AT(brief), FOR_SETUP | FOR_TODAY, 0, 0, NULL,
     "what to do, without the reasons (setup: the dozen questions that matter most; the rest is assumed)"},
    {"replace", 0, OPTION_FLAG, AT(replace), FOR_SETUP, 0, 0, NULL, "with --no-input: the old file is kept as .old"},
    {"name", 0, OPTION_TEXT, AT(name), FOR_SETUP, 0, 0, "TEXT", "of the holding"},
    {"timezone", 0, OPTION_TEXT, AT(timezone), FOR_SETUP, 0, 0, "ZONE", "such as Europe/London"},
    {"service", 0, OPTION_TEXT, AT(service), FOR_SETUP, 0, 0, "SERVICE",
     "weather service to ask each morning; several with commas between"},
    {"area", 0, OPTION_NUMBER, AT(area), FOR_SETUP, 0.001, 100000, "HA", "of the paddock"},
    {"count", 0, OPTION_WHOLE, AT(count), FOR_SETUP, 1, 100000, "N", "animals"},
    {"layout", 0, OPTION_TEXT, AT(layout), FOR_HOLDING, 0, 0, "LAYOUT",
     "read the file as this layout (\"help weather\" lists them)"},
    {"file-units", 0, OPTION_TEXT, AT(file_units), FOR_HOLDING, 0, 0, "UNITS", "of a file that does not say"},
    {"fetch", 0, OPTION_FLAG, AT(fetch), FOR_WEATHER | FOR_ROUND, 0, 0, NULL,
     "ask the services (the round: where what is kept is not new enough)"},
    {"list", 0, OPTION_TEXT, AT(list), FOR_ROUND | FOR_SEASON, 0, 0, "FILE",
     "paths of holdings (season: of weather files), one a line (- standard input)"},
    {"jobs", 0, OPTION_WHOLE, AT(jobs), FOR_ROUND | FOR_SEASON, 1, 256, "N", "so many at a time (default: one a core)"},
    {"seconds", 0, OPTION_WHOLE, AT(seconds), FOR_ROUND, 1, 3600, "N", "give one holding up after that (default: 60)"},
    {"offline", 0, OPTION_FLAG, AT(offline), FOR_READERS | ANYWHERE, 0, 0, NULL, "ask no service: kept weather only"},
    {"days", 0, OPTION_WHOLE, AT(days), FOR_TODAY | FOR_SHEET, 1, 16, "N",
     "this morning and the next, with a forecast"},
    {"date", 0, OPTION_DATE, AT(date),
     FOR_TODAY | FOR_SHEET | FOR_WEATHER | FOR_OUTLOOK | FOR_RECORD | FOR_RATION | FOR_HAY | FOR_ROUND, 0, 0,
     "YYYY-MM-DD", "the morning, or the day of the entry (default: today)"},
    {"output", 'o', OPTION_TEXT, AT(output), FOR_SHEET, 0, 0, "FILE.html", "the page to write (- standard output)"},
    {"months", 0, OPTION_WHOLE, AT(months), FOR_OUTLOOK, 1, 12, "N", "whole months ahead (default: 6)"},
    {"draws", 0, OPTION_WHOLE, AT(draws), FOR_OUTLOOK, 0, 200, "N", "paddocks drawn a year of weather (default: 20)"},
    {"seed", 0, OPTION_WHOLE, AT(seed), FOR_OUTLOOK, 0, 4294967295, "N", "of the draws (default: 1)"},
    {"from", 0, OPTION_DATE, AT(from), FOR_SEASON | FOR_REVIEW, 0, 0, "YYYY-MM-DD",
     "first day (default: a year back; review: all)"},
    {"to", 0, OPTION_DATE, AT(to), FOR_SEASON | FOR_REVIEW, 0, 0, "YYYY-MM-DD",
     "last day (default: end of the weather)"},
    {"paddock", 0, OPTION_TEXT, AT(paddock), FOR_SEASON, 0, 0, "ID", "this one only (pictures: default the first)"},
    {"plot", 0, OPTION_TEXT, AT(plot), FOR_SEASON | FOR_OUTLOOK | FOR_REVIEW | FOR_HAY, 0, 0, "FILE",
     "draw a picture: .svg, .png or .pdf (by gnuplot)"},
    {"picture", 0, OPTION_TEXT, AT(picture), FOR_SEASON, 0, 0, "PICTURE", "which one (default: days)"},
    {"term", 0, OPTION_FLAG, AT(term), FOR_SEASON, 0, 0, NULL, "draw it in letters, here"},
    {"at", 0, OPTION_TEXT, AT(at), FOR_RECORD, 0, 0, "HH:MM", "time of the day (default: now)"},
    {"note", 0, OPTION_TEXT, AT(note), FOR_RECORD, 0, 0, "TEXT", "in your own words: laboratory, which feet, ..."},
    {"apply", 0, OPTION_FLAG, AT(apply), FOR_TUNE, 0, 0, NULL, "write tuning.json: the advice reckons with it"},
    {"insist", 0, OPTION_FLAG, AT(insist), FOR_TUNE, 0, 0, NULL, "with --apply: by doubtful tests, too"},
    {"undo", 0, OPTION_FLAG, AT(undo), FOR_RECORD | FOR_TUNE, 0, 0, NULL,
     "take the last line of the diary, or the last --apply, back"},
    {"until", 0, OPTION_DATE, AT(until), FOR_HAY, 0, 0, "YYYY-MM-DD",
     "last day (default: 30 April; in the south 31 October)"},
    {"no-grass", 0, OPTION_FLAG, AT(no_grass), FOR_HAY, 0, 0, NULL, "as if they were kept off grass the whole time"},
    {"mark-up", 0, OPTION_FLAG, AT(mark_up), FOR_HAY, 0, 0, NULL, "add losses on top instead (buys too little)"},
    {"json", 0, OPTION_FLAG, AT(json), FOR_ALL & ~(unsigned)(FOR_RECORD | FOR_SHEET | FOR_SETUP), 0, 0, NULL,
     "JSON, schema 1"},
    {"csv", 0, OPTION_FLAG, AT(csv), FOR_TODAY | FOR_SEASON | FOR_WEATHER | FOR_ROUND, 0, 0, NULL,
     "one row a group, day or holding"},
    {"plain", 0, OPTION_FLAG, AT(plain), FOR_PAGES | ANYWHERE, 0, 0, NULL, "text without colour or lines cut"},
    {"allow-stale", 0, OPTION_FLAG, AT(allow_stale),
     FOR_TODAY | FOR_SHEET | FOR_SETUP | FOR_OUTLOOK | FOR_RATION | FOR_HAY | FOR_ROUND, 0, 0, NULL,
     "advise on weather over a week old"},
    {"no-log", 0, OPTION_FLAG, AT(no_log), FOR_TODAY | FOR_SHEET | FOR_SETUP | ANYWHERE, 0, 0, NULL,
     "leave advice-log.csv as it is"},
    {"no-color", 0, OPTION_FLAG, AT(no_colour), FOR_PAGES | ANYWHERE, 0, 0, NULL, "no colour"},
    {"exit-status", 0, OPTION_FLAG, AT(exit_status), FOR_TODAY | FOR_RATION | FOR_ROUND, 0, 0, NULL,
     "end with 10 free, 11 timed, 12 brief, 13 none: the strictest of all groups"},
    {"calendar", 0, OPTION_TEXT, AT(calendar), FOR_TODAY, 0, 0, "FILE.ics", "write the hours on grass for a calendar"},
    {"quiet", 'q', OPTION_FLAG, AT(quiet), FOR_TODAY | FOR_WEATHER, 0, 0, NULL, "print only what changed, or is wrong"},
    {"units", 0, OPTION_TEXT, AT(units),
     FOR_TODAY | FOR_SHEET | FOR_SEASON | FOR_RATION | FOR_OUTLOOK | FOR_HAY | FOR_WEATHER | FOR_RECORD | FOR_SETUP, 0,
     0, "SYSTEM", "of text; pictures, JSON and CSV stay metric"},
    {"verbose", 'v', OPTION_FLAG, AT(verbose), FOR_READERS | ANYWHERE, 0, 0, NULL, "say what was read"},
    {"arithmetic", 0, OPTION_FLAG, AT(arithmetic), FOR_RATION | FOR_HAY, 0, 0, NULL,
     "every product and sum, to follow by hand"},
    {"help", 'h', OPTION_FLAG, AT(help), FOR_ALL, 0, 0, NULL, "this text"},
};
const size_t option_rows = sizeof option_table / sizeof option_table[0];

enum err_code options_wrong(struct err *e, const char *option, const char *what)
{
    err_set(e, ERR_USAGE, "%s", what);
    return err_at(e, NULL, 0, 0, option);
}

const char *const options_systems[OPTIONS_SYSTEMS] = {[SHOW_METRIC] = "metric", [SHOW_US] = "us"};

enum units options_units(const struct options *o)
{
    return o->units && strcmp(o->units, options_systems[SHOW_US]) == 0 && !o->json && !o->csv ? SHOW_US : SHOW_METRIC;
}

struct page options_page(const struct options *o, struct buf *out)
{
    bool plain = o->plain || o->no_colour;
    return (struct page){out, o->plain ? PLAIN_WIDTH : term_width(STDOUT_FILENO), !plain && term_colour(STDOUT_FILENO)};
}

/* False with the error filled. A row without a range leaves it to who knows it. */
static bool read_number(const struct option_row *row, const char *text, double *x, struct err *e)
{
    bool whole = row->type == OPTION_WHOLE, ranged = row->low < row->high;
    bool number = num_parse(text, strlen(text), '.', x);
    if (number && !ranged) {
        return true;
    }
    if (number && *x >= row->low && *x <= row->high && (!whole || *x == floor(*x))) {
        return true;
    }
    if (ranged) {
        err_set(e, ERR_USAGE, "\"%.40s\" is not a %s from %.10g to %.10g%s", text, whole ? "whole number" : "number",
                row->low, row->high, whole ? "" : " (with a decimal point)");
    } else {
        err_set(e, ERR_USAGE, "\"%.40s\" is not a number, with a decimal point where it needs one", text);
    }
    return false;
}

static enum err_code set_value(const struct option_row *row, const char *text, struct options *o, struct err *e)
{
    char *field = (char *)o + row->offset, option[64] = "--";
    double x;
    date_t d;
    strncat(option, row->name, sizeof option - 3);
    switch (row->type) {
    case OPTION_FLAG:
        memcpy(field, &(bool){true}, sizeof(bool));
        return ERR_OK;
    case OPTION_TEXT:
        memcpy(field, &text, sizeof text);
        return ERR_OK;
    case OPTION_NUMBER:
    case OPTION_WHOLE:
        if (!read_number(row, text, &x, e)) {
            return err_at(e, NULL, 0, 0, option);
        }
        memcpy(field, &x, sizeof x);
        return ERR_OK;
    default:
        d = date_parse_iso(text, strlen(text));
        if (d == DATE_NONE) {
            err_set(e, ERR_USAGE, "\"%.40s\" is not a date of the calendar, written as 2025-05-04", text);
            return err_at(e, NULL, 0, 0, option);
        }
        memcpy(field, &d, sizeof d);
        return ERR_OK;
    }
}

static enum err_code unknown(const char *word, unsigned command, struct err *e)
{
    const char *names[OPTIONS_MOST];
    size_t n = 0;
    for (size_t i = 0; i < option_rows; i++) {
        if (option_table[i].commands & command) {
            names[n++] = option_table[i].name;
        }
    }
    const char *near = strncmp(word, "--", 2) == 0 ? err_did_you_mean(word + 2, names, n) : NULL;
    if (near) {
        err_set(e, ERR_USAGE, "no such option; did you mean --%s?", near);
    } else {
        err_set(e, ERR_USAGE, "no such option; --help lists them all");
    }
    return err_at(e, NULL, 0, 0, word);
}

/* SUGARLEA_UNITS stands for --units, but for sums, which stay as they are made. */
static enum err_code check_units(struct options *o, struct err *e)
{
    const char *set = getenv("SUGARLEA_UNITS"), *option = o->units ? "--units" : "SUGARLEA_UNITS";
    bool own = o->units != NULL;
    o->units = own || !set || !set[0] ? o->units : set;
    if (o->units && strcmp(o->units, options_systems[SHOW_US]) != 0 &&
        strcmp(o->units, options_systems[SHOW_METRIC]) != 0) {
        return options_wrong(e, option, "is metric (kg, cm, C) or us (lb, in, F)");
    }
    if (o->arithmetic && options_units(o) == SHOW_US && own) {
        return options_wrong(e, "--arithmetic",
                             "shows the sums as they are made, which is in metric units: leave --units us out");
    }
    o->units = o->arithmetic ? NULL : o->units;
    return ERR_OK;
}

/* What options say together, or of a file's name. */
static enum err_code check_all(struct options *o, unsigned command, struct err *e)
{
    enum plot_format format;
    if (o->words && !(command & TAKES_WORDS)) {
        return options_wrong(e, o->word[0], "is not understood here; options begin with --");
    }
    if (o->from != DATE_NONE && o->to != DATE_NONE && o->from > o->to) {
        return options_wrong(e, "--from", "lies after --to");
    }
    const char *dot = o->calendar ? strrchr(o->calendar, '.') : NULL;
    if (o->calendar && (!dot || strcasecmp(dot, ".ics") != 0)) { /* so that no other file is replaced by a slip */
        return options_wrong(e, "--calendar", "the file's name must end in .ics, such as grazing.ics");
    }
    if (o->plot && plot_format_of(o->plot, &format, e) != ERR_OK) {
        return err_at(e, NULL, 0, 0, "--plot");
    }
    return check_units(o, e);
}

/* The options of a command for getopt_long, closed with a 0 each; returns how many. */
static size_t list_options(unsigned command, struct option *table, size_t *row_of, char *letters)
{
    size_t n = 0, used = strlen(letters);
    for (size_t i = 0; i < option_rows; i++) {
        const struct option_row *row = &option_table[i];
        if (row->commands & (command | ANYWHERE)) {
            row_of[n] = i;
            table[n] = (struct option){row->name, row->type != OPTION_FLAG, NULL, (int)n + 256};
            n++;
            if (row->letter) {
                letters[used++] = row->letter;
                letters[used++] = ':';
                used -= row->type == OPTION_FLAG; /* no value behind it */
                letters[used] = 0;
            }
        }
    }
    return n;
}

enum err_code options_read(int argc, char **argv, unsigned command, struct options *o, struct err *e)
{
    struct option table[OPTIONS_MOST + 1] = {{0}};
    char letters[2 * OPTIONS_MOST + 2] = ":";
    size_t row_of[OPTIONS_MOST];
    int found, index;
    *o = (struct options){.latitude = NAN,
                          .longitude = NAN,
                          .elevation = NAN,
                          .weight = NAN,
                          .cover = NAN,
                          .area = NAN,
                          .count = NAN,
                          .days = NAN,
                          .months = NAN,
                          .seed = NAN,
                          .draws = NAN,
                          .jobs = NAN,
                          .seconds = NAN,
                          .date = DATE_NONE,
                          .from = DATE_NONE,
                          .to = DATE_NONE,
                          .until = DATE_NONE};
    size_t n = list_options(command, table, row_of, letters);
    opterr = 0;
    optind = 0;
    while ((found = getopt_long(argc, argv, letters, table, &index)) != -1) {
        const char *word = argv[optind > 0 ? optind - 1 : 0];
        enum err_code code = ERR_OK;
        if (found == '?') {
            return unknown(word, command, e);
        }
        if (found == ':') {
            return options_wrong(e, word, "needs a value behind it");
        }
        for (size_t i = 0; i < n && code == ERR_OK; i++) {
            if (found == (int)i + 256 || (found < 256 && found == option_table[row_of[i]].letter)) {
                code = set_value(&option_table[row_of[i]], optarg, o, e);
            }
        }
        if (code != ERR_OK) {
            return code;
        }
    }
    o->word = argv + optind;
    o->words = (size_t)(argc - optind);
    return o->help ? ERR_OK : check_all(o, command, e);
}
