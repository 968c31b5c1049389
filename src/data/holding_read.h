/* What the readers of a holding file share; private to src/data/holding*.c.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HOLDING_READ_H
#define SUGARLEA_HOLDING_READ_H

#include "data/holding.h"

#define HOLDING_PATH 128 /* of an entry, as err.field has it */

/* Ranges that the file and the options share. */
#define HOLDING_ELEVATION_LOW (-450.0) /* the Dead Sea shore lies at -430 m */
#define HOLDING_ELEVATION_HIGH 6000.0
#define HOLDING_COVER_HIGH 12000.0 /* kg DM/ha; the low end is holding_cover_least */
#define HOLDING_HAY_NSC_HIGH 50.0  /* % of DM; the low end is the limit hay_nsc_least_pct */

struct holding_reader {
    const struct json_doc *doc;
    const struct params *p;
    struct arena *a;
    struct holding *h;
    struct err *e;
};

/* The parts. Each fills its part of r->h; `value` is NULL when the key is absent. */
enum err_code holding_read_site(const struct holding_reader *r, const cJSON *value);
enum err_code holding_read_weather(const struct holding_reader *r, const cJSON *value);
enum err_code holding_read_paddocks(const struct holding_reader *r, const cJSON *value);
enum err_code holding_read_kept(const struct holding_reader *r, const cJSON *value, const char *path, struct kept *k);
enum err_code holding_read_animals(const struct holding_reader *r, const cJSON *value);
enum err_code holding_read_hay(const struct holding_reader *r, const cJSON *value);

/* Parts of an animal and of a hay lot. */
enum err_code holding_read_weight(const struct holding_reader *r, const cJSON *animal, const char *path,
                                  const struct animal_class *base, struct animal_group *g);
enum err_code holding_read_analysis(const struct holding_reader *r, const cJSON *item, const char *path,
                                    struct hay_lot *lot);

/* lot->contents from its feed and its analysis. */
void holding_lot_contents(struct hay_lot *lot);

/* What there is of a lot: weighed or counted ("kg"; "bales" with "bale_kg"), or measured ("bales"
 * with "shape" and "bale_m"; "m3" with "shape"), one of these or nothing. */
enum err_code holding_read_amount(const struct holding_reader *r, const cJSON *item, const char *path,
                                  struct hay_lot *lot);

/* The one lot of a holding that names no hay. */
enum err_code holding_default_hay(const struct params *p, struct arena *a, struct holding *h, struct err *e);

/* Lowest and highest weight of an animal of the species that is no slip of the pen, kg. */
void holding_weight_range(enum species s, double *low, double *high);

/* How the paddock is kept when nothing is said. */
struct kept holding_default_kept(const struct params *p);

/* Every key of object must be one of the n known ones or "note": free text of the keeper's,
 * allowed in each object but a mixture of grasses, and ignored. ERR_CONFIG with the nearest key. */
enum err_code holding_keys(const struct holding_reader *r, const cJSON *object, const char *path,
                           const char *const *known, size_t n);

/* "path.key" and "path[index]" into out[HOLDING_PATH], cut where too long. */
void holding_join(char *out, const char *path, const char *key);
void holding_index(char *out, const char *path, size_t index);

/* Text for people into out[size]; also refuses C1 control characters, which a
 * terminal obeys. */
enum err_code holding_text(const struct holding_reader *r, const cJSON *object, const char *path, const char *key,
                           bool required, char *out, size_t size);

/* An id into out[LIMIT_NAME]: letters (any script), digits, - _ . and no hyphen in front. */
enum err_code holding_id(const struct holding_reader *r, const cJSON *object, const char *path, char *out);

/* Refuses a second use of an id among the n structs before it. */
enum err_code holding_unique(const struct holding_reader *r, const char *path, const char *id, const void *rows,
                             size_t n, size_t row_size, size_t id_offset);

/* ERR_CONFIG at path for an id that names no such thing. */
enum err_code holding_unknown(const struct holding_reader *r, const char *path, enum params_thing thing,
                              const char *id);

/* An array of at most `most` entries: its length; 0 when value is NULL. */
enum err_code holding_array(const struct holding_reader *r, const cJSON *value, const char *path, size_t most,
                            size_t *n);

enum err_code holding_no_memory(const struct holding_reader *r);

/* A whole number under key, left as it is when absent. */
enum err_code holding_whole(const struct holding_reader *r, const cJSON *object, const char *path, const char *key,
                            int low, int high, int *value);

#endif
