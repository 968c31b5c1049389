/* Bucket feed in one line. SPDX-License-Identifier: GPL-3.0-or-later */
#include "setup/question.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#define OUNCE_KG 0.028349523125 /* international avoirdupois, exact */

static const struct unit units_feed[] = {{"kg", 1},           {"g", 1e-3},      {"lb", 0.45359237},
                                         {"lbs", 0.45359237}, {"oz", OUNCE_KG}, {NULL, 0}};

static enum err_code read_one(const struct setup *s, char *text, cJSON *entries, struct err *e)
{
    struct choices c = {0};
    const char *id = NULL;
    double kg = 0;
    size_t n = 0;
    while (text[n] && !(isdigit((unsigned char)text[n]) && (n == 0 || text[n - 1] == ' '))) {
        n++;
    }
    if (!text[n] || n == 0) {
        return err_set(e, ERR_USAGE, "\"%.40s\" needs a feed and how much of it a head and day: oats 0.5 kg", text);
    }
    enum err_code code = measure_read(text + n, units_feed, &kg, e);
    if (code != ERR_OK) {
        return code;
    }
    while (n && text[n - 1] == ' ') {
        n--;
    }
    text[n] = 0;
    for (size_t i = 0; i < s->p->feeds; i++) {
        choice_add(&c, s->p->feed[i].id, s->p->feed[i].name);
    }
    if (!choose(&c, text, &id, e)) {
        return ERR_USAGE;
    }
    cJSON *entry = cJSON_CreateObject();
    tree_text(entry, "feed", id);
    tree_number(entry, "kg", kg);
    if (!cJSON_AddItemToArray(entries, entry)) {
        cJSON_Delete(entry);
    }
    return ERR_OK;
}

/* A comma parts two feeds unless it stands between digits. */
enum err_code feeds_read(const struct setup *s, const char *answer, cJSON *entries, struct err *e)
{
    char copy[ANSWER], *rest = NULL;
    enum err_code code = ERR_OK;
    snprintf(copy, sizeof copy, "%s", answer);
    for (char *c = copy; *c; c++) {
        bool decimal = c > copy && isdigit((unsigned char)c[-1]) && isdigit((unsigned char)c[1]);
        *c = *c == ',' && !decimal ? ';' : *c;
    }
    for (char *one = strtok_r(copy, ";", &rest); one && code == ERR_OK; one = strtok_r(NULL, ";", &rest)) {
        one += strspn(one, " ");
        size_t n = strlen(one);
        while (n && one[n - 1] == ' ') {
            one[--n] = 0;
        }
        code = *one ? read_one(s, one, entries, e) : ERR_OK;
    }
    return code;
}
