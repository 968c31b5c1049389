/* The holding file under way, as a tree. SPDX-License-Identifier: GPL-3.0-or-later */
#include "setup/question.h"

#include "base/json_scan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NUMBER_ROOM = 12 }; /* bytes: "-4294967295" and the closing 0 */

/* Notes that something could not be made. */
static cJSON *made(struct setup *s, cJSON *item)
{
    s->failed = s->failed || !item;
    return item;
}

cJSON *tree_object(struct setup *s)
{
    return made(s, cJSON_CreateObject());
}

cJSON *tree_list(struct setup *s)
{
    return made(s, cJSON_CreateArray());
}

cJSON *tree_section(struct setup *s, const char *key, bool list)
{
    cJSON *found = cJSON_GetObjectItemCaseSensitive(s->now.root, key);
    if (!found) {
        found = list ? cJSON_AddArrayToObject(s->now.root, key) : cJSON_AddObjectToObject(s->now.root, key);
        made(s, found);
    }
    return found;
}

static const cJSON *look_list(const struct setup *s, const char *list)
{
    const cJSON *found = json_get(s->now.root, list);
    return strcmp(list, "hay") == 0 ? json_get(found, "stock") : found;
}

static cJSON *make_list(struct setup *s, const char *list)
{
    bool hay = strcmp(list, "hay") == 0;
    cJSON *found = tree_section(s, list, !hay);
    if (!hay) {
        return found;
    }
    cJSON *stock = cJSON_GetObjectItemCaseSensitive(found, "stock");
    return stock ? stock : made(s, cJSON_AddArrayToObject(found, "stock"));
}

size_t tree_count(const struct setup *s, const char *list)
{
    const cJSON *found = look_list(s, list);
    return found ? (size_t)cJSON_GetArraySize(found) : 0;
}

const cJSON *tree_look(const struct setup *s, const char *list)
{
    const cJSON *found = look_list(s, list);
    return found ? cJSON_GetArrayItem(found, (int)s->now.item) : NULL;
}

cJSON *tree_item(struct setup *s, const char *list)
{
    return cJSON_GetArrayItem(make_list(s, list), (int)s->now.item);
}

void tree_push(struct setup *s, cJSON *list, cJSON *value)
{
    if (!cJSON_AddItemToArray(list, value)) {
        s->failed = true;
        cJSON_Delete(value);
    }
}

cJSON *tree_add(struct setup *s, const char *list)
{
    cJSON *item = tree_object(s), *found = make_list(s, list);
    tree_push(s, found, item);
    return s->failed ? NULL : item;
}

void tree_keep(struct setup *s, cJSON *object, const char *key, cJSON *value)
{
    cJSON_DeleteItemFromObjectCaseSensitive(object, key);
    if (!cJSON_AddItemToObject(object, key, value)) {
        s->failed = true;
        cJSON_Delete(value);
    }
}

void tree_text(struct setup *s, cJSON *object, const char *key, const char *text)
{
    tree_keep(s, object, key, cJSON_CreateString(text));
}

void tree_number(struct setup *s, cJSON *object, const char *key, double x)
{
    if (isnan(x)) {
        cJSON_DeleteItemFromObjectCaseSensitive(object, key);
    } else {
        tree_keep(s, object, key, cJSON_CreateNumber(x));
    }
}

const char *tree_string(const cJSON *object, const char *key)
{
    const char *text = cJSON_GetStringValue(json_get(object, key));
    return text ? text : "";
}

void tree_unique(const struct setup *s, const char *list, const char *wish, char id[LIMIT_NAME])
{
    const cJSON *item;
    unsigned number = 1;
    bool taken;
    do {
        taken = false;
        int most = (int)json_scan_cut(wish, number > 1 ? LIMIT_NAME - NUMBER_ROOM : LIMIT_NAME - 1);
        snprintf(id, LIMIT_NAME, number > 1 ? "%.*s-%u" : "%.*s", most, wish, number);
        cJSON_ArrayForEach(item, look_list(s, list))
        {
            taken = taken || strcmp(tree_string(item, "id"), id) == 0;
        }
        number++;
    } while (taken);
}

/* What is not asked yet stands in as the least that the reader wants. */
static bool fill_in(cJSON *root)
{
    cJSON *site = cJSON_GetObjectItemCaseSensitive(root, "site");
    site = site ? site : cJSON_AddObjectToObject(root, "site");
    bool placed = json_get(site, "latitude") || cJSON_AddNumberToObject(site, "latitude", 0);
    if (!json_get(root, "paddocks")) {
        cJSON *paddock = cJSON_CreateObject();
        placed = placed && cJSON_AddStringToObject(paddock, "id", "paddock") &&
                 cJSON_AddNumberToObject(paddock, "area_ha", 1);
        if (!cJSON_AddItemToArray(cJSON_AddArrayToObject(root, "paddocks"), paddock)) {
            cJSON_Delete(paddock);
            return false;
        }
    }
    return placed;
}

enum err_code tree_check(const struct setup *s, struct err *e)
{
    struct arena scratch;
    struct holding h;
    struct buf b;
    cJSON *copy = s->failed ? NULL : cJSON_Duplicate(s->now.root, true);
    if (!copy || !fill_in(copy)) {
        cJSON_Delete(copy);
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    arena_init(&scratch);
    buf_init(&b);
    tidy_json(copy, &b);
    enum err_code code = b.failed ? err_set(e, ERR_NOMEM, "out of memory")
                                  : holding_parse(b.text, b.length, s->path, s->p, &scratch, &h, e);
    buf_release(&b);
    arena_release(&scratch);
    cJSON_Delete(copy);
    return code;
}
