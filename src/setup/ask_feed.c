/* Bucket feed in one line. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "setup/question.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#define OUNCES_OF_LB 16

static const struct unit units_feed[] = {
    {"kg", 1}, {"g", 1e-3}, {"lb", UNITS_KG_OF_LB}, {"lbs", UNITS_KG_OF_LB}, {"oz", UNITS_KG_OF_LB / OUNCES_OF_LB},
    {NULL, 0}};

static const char such_as[] =
    "type part of one of oats, barley, maize, wheat bran, beet pulp, soybean hulls, lucerne pellets, goat pellets, "
    "carrots, apples, bread, straw, browse, and what a head gets of it a day; of a bought mix take what it is mostly "
    "made of, and leave minerals out";

/* Some feeds stand there twice, as the ends of what they hold. */
static enum err_code say_ends(const char *text, struct err *e)
{
    char why[sizeof e->what];
    snprintf(why, sizeof why, "%s", e->what);
    return !strstr(why, "-high") ? ERR_USAGE
                                 : err_set(e, ERR_USAGE,
                                           "%s; those are the ends of what \"%.40s\" can hold: take -high unless a "
                                           "label says less",
                                           why, text);
}

static enum err_code read_one(struct setup *s, char *text, cJSON *entries, struct err *e)
{
    struct choices c = {.instead = such_as};
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
        return say_ends(text, e);
    }
    cJSON *entry = tree_object(s);
    tree_text(s, entry, "feed", id);
    tree_number(s, entry, "kg", kg);
    tree_push(s, entries, entry);
    return ERR_OK;
}

/* A comma parts two feeds unless it stands between digits. */
enum err_code feeds_read(struct setup *s, const char *answer, cJSON *entries, struct err *e)
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
