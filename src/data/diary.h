/* The diary: what people saw and did, in diary.csv beside the holding.
 *
 * One row an entry, `date,time,subject,what,value,unit,note`, in any order of dates:
 *
 *     2025-04-23,06:40,pump-field,grass-nsc,182,g/kg,"lab Invented, cut at 6 cm"
 *     2025-04-24,07:10,grey-pony,foot-signs,shifting-weight+hot-feet,,both fore feet
 *
 * What may be written is one table (diary_what.c): the kind of subject, the units with
 * their ranges, the words. Grass tests are of the dry matter, at the clock time at which
 * the sample was cut; laboratory, method and height of the cut go to the note. NSC is
 * WSC and starch; a test of ESC is grass-esc, one of starch alone grass-starch.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_DIARY_H
#define SUGARLEA_DIARY_H

#include "base/arena.h"
#include "base/buf.h"
#include "base/date.h"
#include "data/holding.h"

enum diary_what {                     /* as in the table; number and unit of `value` */
                  DIARY_GRASS_NSC,    /* paddock, g/kg DM */
                  DIARY_GRASS_WSC,    /* paddock, g/kg DM */
                  DIARY_GRASS_ESC,    /* paddock, g/kg DM */
                  DIARY_GRASS_STARCH, /* paddock, g/kg DM */
                  DIARY_SWARD_HEIGHT, /* paddock, cm by ruler */
                  DIARY_PLATE_HEIGHT, /* paddock, cm pressed down by a plate */
                  DIARY_GRAZED,       /* paddock, kept from that day on at: cm, or kg DM/ha; NaN: not said */
                  DIARY_CUT,          /* paddock, stubble cm; NaN: not said */
                  DIARY_RESTED,       /* paddock, from that day on; no value */
                  DIARY_TURNOUT,      /* group, hours that it was on grass that day, 0: kept off */
                  DIARY_HAY_FED,      /* group, all heads together: kg as fed, or bales */
                  DIARY_HAY_BOUGHT,   /* lot: kg as fed, or bales */
                  DIARY_HAY_TEST,     /* lot, NSC % of DM */
                  DIARY_WEIGHT,       /* group, kg a head */
                  DIARY_GIRTH,        /* group, cm */
                  DIARY_CONDITION,    /* group, of 9 or of 5 */
                  DIARY_INSULIN,      /* group, uIU/ml */
                  DIARY_FOOT_SIGNS,   /* group, words: enum diary_sign */
                  DIARY_VET,          /* group, words: enum diary_vet */
                  DIARY_WHATS
};

enum diary_sign {                /* bits of `words` */
                  SIGN_NONE = 1, /* the signs are gone; stands alone */
                  SIGN_SHIFTING_WEIGHT = 2,
                  SIGN_KNEELING = 4,
                  SIGN_RELUCTANT = 8, /* to walk or to turn */
                  SIGN_HOT_FEET = 16, /* warm at the coronet, against a cold toe */
                  SIGN_TOOTH_GRINDING = 32,
                  SIGN_LEANING_BACK = 64,
                  SIGN_LYING_MORE = 128,
                  SIGN_WILL_NOT_MOVE = 256, /* or not rise */
                  SIGN_OFF_FEED = 512,
                  SIGN_BOUNDING_PULSE = 1024 /* at the fetlock */
};

enum diary_vet { VET_CALLED = 1, VET_VISITED = 2, VET_CLEARED = 4 }; /* bits; cleared: the vet says that it is over */

enum diary_subject { DIARY_OF_PADDOCK, DIARY_OF_GROUP, DIARY_OF_LOT };

struct diary_unit {
    const char *name;
    double scale;     /* value = number written * scale */
    double low, high; /* of the number written */
};

enum { DIARY_UNITS = 3, DIARY_WORDS = 11, DIARY_NOTE = 512, DIARY_TIME_TEXT = 6 };

struct diary_kind { /* one row of the table */
    const char *name;
    enum diary_subject subject;
    bool bare;                           /* the value may be left out */
    bool unit_needed;                    /* the unit must be said; else the first stands */
    struct diary_unit unit[DIARY_UNITS]; /* none: words or nothing */
    const char *word[DIARY_WORDS];       /* bit i of `words` is word[i]; none: a number or nothing */
    const char *what;                    /* for the help */
    const char *next;                    /* what it means from now on */
};

extern const struct diary_kind diary_kinds[DIARY_WHATS];
extern const char *const diary_subject_names[]; /* "paddock", "animal group", "hay" */

struct diary_entry {
    date_t date;
    int minute; /* of the day by the holding's clock; -1 not said */
    enum diary_what what;
    size_t subject;   /* index in the holding's paddocks, animals or hay lots, as the kind says */
    int unit;         /* index in the kind's units; -1 none */
    double value;     /* scaled; NaN none */
    unsigned words;   /* bits; 0 none */
    const char *note; /* "" none */
    size_t line;      /* in the file; 0 not from a file */
};

struct diary_stranger { /* a subject that the holding does not have (any more) */
    const char *name;
    size_t line, entries;  /* the first line, and how many there are */
    enum diary_subject as; /* what the first line takes it for */
};

struct diary_stray {          /* an entry of a stranger that tells of foot signs: its id may be a slip */
    struct diary_entry entry; /* its subject means nothing */
    const char *name;
};

struct diary {
    char path[LIMIT_PATH];
    size_t n; /* by date, then time, then line; without a time first, but foot signs last: no word of
               * the same day takes them back unless it says that it is later */
    const struct diary_entry *entry;
    size_t strangers; /* their entries are passed over */
    const struct diary_stranger *stranger;
    size_t strays;
    const struct diary_stray *stray; /* in the order of the entries */
};

/* diary.csv beside the holding's file; "" where the holding has none of its own. */
void diary_path(const struct holding *h, char *path, size_t size);

/* Reads and checks a diary; a missing or empty file, and path "", is an empty diary. All memory is
 * the arena's. As spreadsheets save it: byte-order mark, CRLF, quotes, and semicolons
 * or tabs between fields (then a decimal comma will do). ERR_DATA with file, line,
 * column name, and what is allowed, for the first bad line. */
enum err_code diary_load(const char *path, const struct holding *h, struct arena *a, struct diary *d, struct err *e);

/* The same from text[0..size); name stands for the file. Nothing of text is kept. */
enum err_code diary_parse(const char *text, size_t size, const char *name, const struct holding *h, struct arena *a,
                          struct diary *d, struct err *e);

/* One entry from its fields as people write them. */
struct diary_fields {
    const char *date, *time, *subject, *what, *value, *unit, *note; /* "" where nothing is said */
};
#define DIARY_FIELDS 7

/* Checks and reads the fields by the table. ERR_DATA with the field's name, what is
 * allowed and the nearest known word. *stranger (may be NULL: then it is an error)
 * becomes true when only the subject is not the holding's. The note is f's own. */
enum err_code diary_read_entry(const struct diary_fields *f, char point, const struct holding *h,
                               struct diary_entry *entry, bool *stranger, struct err *e);

/* The entry as a line of a file with that delimiter, in the words of the table; what a
 * spreadsheet would take for a formula is disarmed. The note is cleaned: no line ends,
 * no control characters, and at most DIARY_NOTE - 1 bytes. */
void diary_write_entry(const struct diary_entry *entry, const struct holding *h, char delimiter, struct buf *b);
extern const char diary_header[]; /* with its line end, commas between */

/* Is it a test of the grass that a paddock is tuned by: NSC or WSC? */
bool diary_is_grass_test(const struct diary_entry *entry);

/* Was the entry written by the morning of that date? Of the day itself what has no time, or
 * one up to noon, counts; live, on the very day, all of it does. */
bool diary_known(const struct diary_entry *entry, date_t morning, bool live);

/* Puts what the morning knew before the rest, each in the order that it had, and counts it. The memory is the arena's;
 * ERR_NOMEM. */
enum err_code diary_know(struct diary *d, date_t morning, bool live, struct arena *a, size_t *known, struct err *e);

/* How many of the entries are of that day or one before it. */
size_t diary_until(const struct diary *d, date_t day);

/* "shifting-weight, hot-feet" of an entry's words. Returns text. */
char *diary_words_text(const struct diary_kind *kind, unsigned words, const char *between, char *text, size_t size);

/* "07:10" of a minute of the day. Returns text, of DIARY_TIME_TEXT bytes. */
char *diary_time_text(int minute, char *text);

/* Has the holding anything of that id: a paddock, an animal group, hay? */
bool diary_has_subject(const struct holding *h, const char *id);

/* The id of the subject in the holding. */
const char *diary_subject_id(const struct diary_entry *entry, const struct holding *h);

/* The kind of that name; NULL with the error filled, naming the nearest. */
const struct diary_kind *diary_kind_of(const char *name, struct err *e);

/* The last of the n entries of a kind about a subject; NULL none. */
const struct diary_entry *diary_latest(const struct diary_entry *entry, size_t n, enum diary_what what, size_t subject);

/* An entry that tells of foot signs or of their end: foot-signs, vet. */
bool diary_tells_of_signs(const struct diary_entry *e);

/* One that ends them: foot-signs none, vet cleared. */
bool diary_ends_signs(const struct diary_entry *e);

#endif
