/* What a day's feed adds up to: every part of the ration, its contents, the sums, and
 * what they are worth against the class's limits.
 *
 * The day is the advice's own: its hours, its hay, its judged grass. Sums that the advice
 * states too (dry matter, NSC, NDF, forage, starch of the bucket) are taken from it, so
 * that no two figures can differ; the parts add up to them within rounding. kg, g and MJ
 * are per head and day. Planning help: no dose, no diagnosis.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ACCOUNT_H
#define SUGARLEA_ACCOUNT_H

#include "advice/advice.h"
#include "base/units.h"
#include "data/params.h"

enum account_content {                /* of dry matter: % but for the energy, MJ (digestible) a kg */
                       CONTENT_NSC,   /* sugars, fructan and starch: WSC + starch */
                       CONTENT_SUGAR, /* NSC less starch */
                       CONTENT_STARCH,
                       CONTENT_NDF,
                       CONTENT_ADF,
                       CONTENT_CP,     /* crude protein */
                       CONTENT_ENERGY, /* of cattle tables: for other species a ranking only */
                       CONTENTS
};
const char *account_content_key(enum account_content c); /* "nsc", "sugar", ... */

enum account_kind { PART_GRASS, PART_HAY, PART_FORAGE, PART_BUCKET };
enum account_from {             /* where its NSC comes from */
                    FROM_MODEL, /* the grass, at the level the animal is judged on */
                    FROM_ANALYSIS,
                    FROM_TABLE,
                    FROM_ESC,   /* a laboratory's ESC + starch, where it is no lower than the table's */
                    FROM_NOBODY /* unknown: counted as if it stood at the caution limit */
};
const char *account_from_id(enum account_from f); /* "model", "analysed", "table", "esc", "unknown" */

struct account_part {
    const char *id, *name; /* of the feed; "grass" */
    enum account_kind kind;
    enum account_from from;
    double fed_kg, dm_pct, dm_kg; /* grass as fed: by the dry matter of the table's pasture */
    double content[CONTENTS];     /* NaN unknown */
    bool coarse;                  /* straw or coarse hay */
    bool straw;
    bool hard;     /* straw or coarse dry hay for an animal with poor teeth */
    bool left_out; /* an emergency: the bucket is not fed, dm_kg is 0 */
};

/* Amount of a content in a part: g, or MJ. 0 of what is not fed, NaN of what is not known. */
double account_amount(const struct account_part *part, enum account_content c);

enum account_rule {
    VERDICT_NSC,         /* % of ration DM, at most: the class's caution limit, never the hay's */
    VERDICT_NSC_DAY,     /* g/kg body weight, at most; equids */
    VERDICT_STARCH,      /* g/kg BW of the buckets as one meal, at most */
    VERDICT_STARCH_DAY,  /* the same in the day */
    VERDICT_BUCKET_NSC,  /* NSC of the buckets as one meal, g/kg BW, at most */
    VERDICT_GRAIN,       /* kg as fed of grain as one meal, at most; goats and sheep */
    VERDICT_CONCENTRATE, /* the buckets' share, % of ration DM, at most */
    VERDICT_TEETH,       /* kg as fed of what poor teeth cannot chew, at most */
    VERDICT_FORAGE,      /* % BW as DM, at least */
    VERDICT_INTAKE,      /* all DM, % BW, at least: less would slim */
    VERDICT_NDF,         /* % of ration DM, at least */
    VERDICT_ADF,         /* the same; said and never judged: table ADF is remembered */
    VERDICTS
};
const char *account_rule_id(enum account_rule r); /* "nsc", "starch-meal", ... */

enum account_state {
    STATE_NONE, /* the class has no such limit */
    STATE_WITHIN,
    STATE_OVER,
    STATE_UNDER,
    STATE_UNSURE /* a figure is missing, or is not the one the limit is meant for */
};
const char *account_state_id(enum account_state s); /* "within", "over", "under", "not-sure" */

struct account_verdict {
    enum account_state state;
    double value, limit;
};

enum { ACCOUNT_PARTS = LIMIT_FED + 2 };

struct account {
    const struct advice *advice;
    const struct advice_animal *animal;
    const struct animal_group *group;
    const struct hay_lot *lot;
    const struct advice_limits *limits;
    double weight_kg;
    size_t parts; /* grass and hay first */
    struct account_part part[ACCOUNT_PARTS];
    double dm_kg, forage_kg;
    double amount[CONTENTS];  /* g, or MJ; NaN when a part's is not known */
    double content[CONTENTS]; /* of the whole ration's DM */
    struct account_verdict verdict[VERDICTS];
    double hay_only_nsc_pct;      /* without any grass */
    double grass_mean_g_kg;       /* NSC of the grass over the day, as estimated; judged at advice->level_g_kg */
    bool esc;                     /* the hay's figure is ESC + starch: lower, not comparable */
    bool unknown;                 /* some NSC is known to nobody */
    bool by_table;                /* some NSC is a table value, not analysed */
    const struct soaking *credit; /* what the hay's soak may be planned with; NULL none */
    double soaked_hay_nsc_pct;    /* the hay then, about; NaN: no credit. Never held against a limit */
    double soaked_nsc_pct;        /* the ration then, about */
    char steps[192];              /* by which the class's bucket grows; "" where there is none, or no rule */
};

/* Pure; everything pointed to must outlive the account. `lot` is the hay that `animal`
 * was advised with. */
void account_make(const struct advice *a, const struct advice_animal *animal, const struct advice_grass *grass,
                  const struct animal_group *group, const struct hay_lot *lot, const struct params *p,
                  struct account *out);

/* Some of that kind is fed. */
bool account_has(const struct account *a, enum account_kind kind);

/* For account_make: the verdicts, once the sums are there; the steps, once there are verdicts. */
void account_judge(struct account *a);
void account_write_steps(struct account *a);

/* A verdict as a sentence: what it is, by how much, what to change. Returns text. */
const char *account_verdict_text(const struct account *a, enum account_rule r, enum units u, char *text, size_t size);

/* What the soaking or steaming of the hay is worth; "" when there is none. Returns text. */
const char *account_soak_text(const struct account *a, char *text, size_t size);

/* What a soak takes beside the sugar. Returns text. */
const char *account_soak_loss_text(const struct soaking *credit, char *text, size_t size);

/* Which of the hay's figures a laboratory measured. Returns text. */
const char *account_hay_text(const struct account *a, char *text, size_t size);

/* What to mind when feeding this ration: rules of the bucket, of changes of feed, of the
 * feed room; those of this group alone, or the general ones, which are the same static
 * text for all. Into text[most]; the count. */
enum { ACCOUNT_NOTES = 12 };
size_t account_notes(const struct account *a, bool general, const char **text, size_t most);

#endif
