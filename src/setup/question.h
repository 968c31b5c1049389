/* Questions and what they share; private to src/setup. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SETUP_QUESTION_H
#define SUGARLEA_SETUP_QUESTION_H

#include "base/json.h"
#include "data/site.h"
#include "setup/measure.h"
#include "setup/setup.h"

enum { ANSWER = 1024, CHOICES_MOST = 80 };

#define AS_IT_IS "as it is" /* the answer that keeps what the file holds */

enum question_id {
    Q_START,
    Q_NAME,
    Q_FILE,
    Q_PLACE,
    Q_ELEVATION,
    Q_ZONE,
    Q_SERVICES,
    Q_STATION,
    Q_PADDOCKS, /* another one, or one again? */
    Q_PADDOCK,
    Q_AREA,
    Q_GRASS,
    Q_CLOVER,
    Q_SOIL,
    Q_NITROGEN,
    Q_KEPT,
    Q_HEIGHT,
    Q_CUTS,
    Q_PADDOCK_END,
    Q_ANIMALS,
    Q_KIND,
    Q_STAGE,
    Q_TROUBLE,
    Q_GROUP,
    Q_COUNT,
    Q_WEIGHT,
    Q_WHERE,
    Q_FED,
    Q_ANIMAL_END,
    Q_HAYS,
    Q_HAY,
    Q_BALES,
    Q_BALE_WEIGHT,
    Q_ANALYSIS,
    Q_SUM,
    Q_HAY_END,
    Q_STORED,
    Q_FEEDER,
    Q_PRICE,
    Q_WRITE,
    QUESTIONS
};

struct facts { /* what was learnt beside the file; goes back with `back` */
    bool site_in_file;
    struct site place;    /* where the weather file says it is */
    bool stale;           /* the weather file ends too long ago for advice */
    int look;             /* index of the sward's look; -1: none chosen */
    int kind, stage;      /* of the animals; -1: the class was given */
    char was[LIMIT_NAME]; /* their class before */
    unsigned had;         /* and what troubled them (kinds.h) */
    double bales;         /* waiting for the weight of one */
    bool elsewhere;       /* what stands there is left alone: the file gets another name */
};

struct state {
    cJSON *root; /* the file as answered so far */
    size_t item; /* the paddock, group or lot that is asked about */
    struct facts facts;
};

enum answered { BY_OPTION, BY_SOMEBODY, ASSUMED };

struct step { /* a question that was answered, and how all stood before */
    struct step *before;
    enum question_id question;
    struct state state;
    const char *answer; /* as it came */
    const char *word;   /* as it was understood */
    enum answered by;
};

struct setup {
    const struct setup_job *job;
    const struct params *p;
    char *path;
    cJSON *old;  /* the good holding that stands there; NULL none */
    bool stands; /* something does, good or not */
    struct state now;
    struct step *last;
    enum question_id question, next;
    bool used[QUESTIONS]; /* an answer from the command line counts once */
    const char *retry;    /* after `back`: what was answered before; NULL none */
    struct buf say;       /* what is to be told next */
    bool failed;          /* no memory for something */
    bool refused;         /* the last look found it wrong */
};

struct choice {
    const char *word, *what; /* what: in plain words */
};

struct choices {
    size_t n;
    struct choice row[CHOICES_MOST];
    bool several;        /* more than one may be named */
    bool open;           /* other answers are looked at, too */
    size_t shown;        /* of them, from the first; 0 all */
    const char *instead; /* none is shown: what to type, when the answer is none of them; NULL: the rows tell it */
};

struct question {
    const char *title, *ask, *more; /* more: after "?" */
    const char *option;             /* of the command line that gives the answer; NULL none */
    bool (*applies)(const struct setup *s);
    void (*before)(struct setup *s); /* says what the answer rests on */
    void (*choices)(const struct setup *s, struct choices *c);
    /* What Enter stands for, as an answer that `take` understands; false: nothing does. */
    bool (*offer)(struct setup *s, char text[ANSWER]);
    /* Writes the answer into s->now. An error says what to type instead. */
    enum err_code (*take)(struct setup *s, const char *answer, struct err *e);
    enum question_id again;               /* of an end of a list: the question it goes back to */
    bool key;                             /* asked in the short way, too */
    bool (*spare)(const struct setup *s); /* unless this says that its default will do; NULL never */
    bool quiet;                           /* its default is not listed as assumed */
    bool leads_on;                        /* its answer says only what is asked next, and stands in no list */
};

/* A topic a file: its rows, in the order of enum question_id. */
extern const struct question start_rows[], file_rows[], place_rows[], service_rows[], paddock_rows[], animal_rows[],
    hay_rows[], write_rows[];

const struct question *question_at(enum question_id id);

/* Shared by the questions. */
void setup_say(struct setup *s, const char *format, ...) __attribute__((format(printf, 2, 3)));
bool choose(const struct choices *c, const char *answer, const char **word, struct err *e);
void choice_add(struct choices *c, const char *word, const char *what);
bool choice_words(const char *answer, const char *text); /* does text hold every word of the answer? */

/* Of the file (tree.c). Sections are made when they are missing; where there is no memory, s->failed
 * is set, and nothing else needs to look. */
cJSON *tree_section(struct setup *s, const char *key, bool list);
cJSON *tree_item(struct setup *s, const char *list);             /* s->now.item of it; NULL: a new one */
const cJSON *tree_look(const struct setup *s, const char *list); /* the same, to look at */
size_t tree_count(const struct setup *s, const char *list);      /* "paddocks", "animals", "hay" (its stock) */
cJSON *tree_add(struct setup *s, const char *list);              /* a new object at its end */
void tree_text(struct setup *s, cJSON *object, const char *key, const char *text); /* sets it */
void tree_number(struct setup *s, cJSON *object, const char *key, double x);       /* NaN: takes it away */
cJSON *tree_object(struct setup *s);
cJSON *tree_list(struct setup *s);
/* Sets it, or adds it at the end; value is given away. */
void tree_keep(struct setup *s, cJSON *object, const char *key, cJSON *value);
void tree_push(struct setup *s, cJSON *list, cJSON *value);
const char *tree_string(const cJSON *object, const char *key); /* "" none */
void tree_unique(const struct setup *s, const char *list, const char *wish, char id[LIMIT_NAME]);

/* Would the reader of holdings take the file with all that was answered so far? */
enum err_code tree_check(const struct setup *s, struct err *e);

/* The file as text, laid out as the README has it (tidy.c). */
void tidy_json(const cJSON *root, struct buf *b);

/* Of the list `what`: "go-on", "add" or an id; the question after the list is `after`. */
bool more_offer(struct setup *s, char text[ANSWER]);
enum err_code more_take(struct setup *s, const char *what, const char *answer, enum question_id after, struct err *e);
void make_id(const char *answer, char id[LIMIT_NAME]); /* a name as an id: small letters, hyphens for blanks */

/* "oats 0.5 kg; beet pulp 4 oz" as entries of fed_daily, each feed by part of its name. */
enum err_code feeds_read(struct setup *s, const char *answer, cJSON *entries, struct err *e);

/* The beginning (start.c). */
enum err_code start_begin(struct setup *s, struct err *e);
bool is_asked(const struct setup *s); /* somebody can be asked */

#endif
