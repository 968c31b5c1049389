/* Lays a holding file out for people: keys in the README's order, what is short on one line.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "setup/question.h"

#include <string.h>

enum { WIDTH = 110, DECIMALS = 9, STEP = 2 };

static const char *const order[] = {
    "sugarlea", "name",      "id",        "feed",        "class",     "how",     "file",     "service",
    "site",     "latitude",  "longitude", "elevation_m", "timezone",  "weather", "station",  "paddocks",
    "area_ha",  "grass",     "soil",      "nitrogen",    "kept",      "animals", "count",    "weight_kg",
    "girth_cm", "length_cm", "paddock",   "history",     "fed_daily", "limits",  "hay",      "stock",
    "bales",    "bale_kg",   "kg",        "nsc_percent", "nsc_is",    "stored",  "fed_from", "price_per_bale"};
enum { ORDERED = sizeof order / sizeof order[0] };

/* Place of a key; a mixture's grasses and what is not named stay as they came, before the note. */
static size_t rank(const cJSON *item)
{
    size_t i = 0;
    while (i < ORDERED && strcmp(order[i], item->string) != 0) {
        i++;
    }
    return strcmp(item->string, "note") == 0 ? ORDERED + 1 : i;
}

static void value(const cJSON *item, int indent, struct buf *b);

static void key(const cJSON *item, struct buf *b)
{
    if (item->string) {
        buf_add_json_string(b, item->string);
        buf_add(b, ": ");
    }
}

/* The children of a list or object, in order, one by one: the one after `last` (NULL: the first). */
static const cJSON *next_child(const cJSON *parent, const cJSON *last)
{
    if (cJSON_IsArray(parent)) {
        return last ? last->next : parent->child;
    }
    const cJSON *best = NULL, *item;
    bool passed = last == NULL;
    cJSON_ArrayForEach(item, parent)
    {
        bool later = !last || rank(item) > rank(last) || (rank(item) == rank(last) && passed);
        passed = passed || item == last;
        if (item != last && later && (!best || rank(item) < rank(best))) {
            best = item;
        }
    }
    return best;
}

static void on_one_line(const cJSON *item, struct buf *b)
{
    const char *brackets = cJSON_IsArray(item) ? "[]" : "{}";
    if (cJSON_IsString(item)) {
        buf_add_json_string(b, item->valuestring);
    } else if (cJSON_IsNumber(item)) {
        buf_add_number(b, item->valuedouble, DECIMALS);
    } else if (!cJSON_IsArray(item) && !cJSON_IsObject(item)) {
        buf_add(b, cJSON_IsTrue(item) ? "true" : cJSON_IsFalse(item) ? "false" : "null");
    } else {
        const char *gap = item->child ? " " : "";
        buf_add_char(b, brackets[0]);
        for (const cJSON *c = next_child(item, NULL); c; c = next_child(item, c)) {
            buf_add(b, gap);
            key(c, b);
            on_one_line(c, b);
            gap = ", ";
        }
        buf_add(b, item->child ? " " : "");
        buf_add_char(b, brackets[1]);
    }
}

static void new_line(int indent, struct buf *b)
{
    buf_addf(b, "\n%*s", indent, "");
}

/* Broken: a list has an entry a line, an object as many to a line as fit; the root one. */
static void on_many_lines(const cJSON *item, int indent, struct buf *b)
{
    const char *brackets = cJSON_IsArray(item) ? "[]" : "{}";
    bool list = cJSON_IsArray(item) || indent == 0;
    bool open = false; /* the line may go on */
    size_t line = 0;
    buf_add_char(b, brackets[0]);
    for (const cJSON *c = next_child(item, NULL), *last = NULL; c; last = c, c = next_child(item, c)) {
        struct buf piece;
        buf_init(&piece);
        key(c, &piece);
        value(c, indent + STEP, &piece);
        bool broken = strchr(piece.text, '\n') != NULL;
        bool fits = open && !list && !broken && b->length - line + piece.length + 2 <= WIDTH;
        buf_add(b, last ? "," : "");
        if (fits) {
            buf_add_char(b, ' ');
        } else {
            new_line(indent + STEP, b);
            line = b->length - (size_t)(indent + STEP);
        }
        buf_add_bytes(b, piece.text, piece.length);
        open = !broken;
        buf_release_into(&piece, b);
    }
    new_line(indent, b);
    buf_add_char(b, brackets[1]);
}

static void value(const cJSON *item, int indent, struct buf *b)
{
    struct buf flat;
    buf_init(&flat);
    on_one_line(item, &flat);
    size_t name = item->string ? strlen(item->string) + 4 : 0;
    bool fits = indent > 0 && (size_t)indent + name + flat.length + 1 <= WIDTH;
    bool whole = !item->child;
    if (fits || whole) {
        buf_add_bytes(b, flat.text, flat.length);
    } else {
        on_many_lines(item, indent, b);
    }
    buf_release_into(&flat, b);
}

void tidy_json(const cJSON *root, struct buf *b)
{
    value(root, 0, b);
    buf_add_char(b, '\n');
}
