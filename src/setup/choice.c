/* What was meant: a number, a word, the beginning of one, or words of its explanation.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "setup/question.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { WORD = 40, NAMED_MOST = 8, PLURAL_SHORT = 4 /* letters: no plural */ };

void choice_add(struct choices *c, const char *word, const char *what)
{
    if (c->n < CHOICES_MOST) {
        c->row[c->n++] = (struct choice){word, what};
    }
}

/* Names that the tables do not use. */
static const char *our_word(const char *word)
{
    static const char *const names[][2] = {
        {"alfalfa", "lucerne"}, {"corn", "maize"},        {"haylage", "haylage"}, {"sugarbeet", "beet"},
        {"soya", "soybean"},    {"soy", "soybean"},       {"pony", "horse"},      {"ponies", "horse"},
        {"nuts", "pellet"},     {"cubes", "pellet"},      {"cake", "pellet"},     {"bermudagrass", "bermuda"},
        {"coastal", "bermuda"}, {"kentucky", "bluegrass"}};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcasecmp(word, names[i][0]) == 0) {
            return names[i][1];
        }
    }
    return word;
}

/* The word, our word for it, or the one of several: "pellets". */
static bool holds(const char *text, char *word)
{
    size_t n = strlen(word);
    bool there = strcasestr(text, word) || strcasestr(text, our_word(word));
    if (!there && n > PLURAL_SHORT && tolower((unsigned char)word[n - 1]) == 's' && word[n - 2] != word[n - 1]) {
        word[n - 1] = 0;
        there = strcasestr(text, word) != NULL;
    }
    return there;
}

bool choice_words(const char *answer, const char *text)
{
    const char *gaps = " -,\t";
    bool any = false;
    while (*answer) {
        char word[WORD];
        answer += strspn(answer, gaps);
        size_t n = strcspn(answer, gaps);
        if (n >= sizeof word) {
            return false;
        }
        memcpy(word, answer, n);
        word[n] = 0;
        if (n > 0 && !holds(text, word)) {
            return false;
        }
        any = any || n > 0;
        answer += n;
    }
    return any;
}

enum how { BY_WORD, BY_BEGINNING, BY_FIRST_WORDS, BY_EXPLANATION, HOWS };

static bool fits(const struct choice *row, const char *answer, enum how how)
{
    char both[ANSWER];
    switch (how) {
    case BY_WORD:
        return strcasecmp(row->word, answer) == 0;
    case BY_BEGINNING:
        return strncasecmp(row->word, answer, strlen(answer)) == 0;
    case BY_FIRST_WORDS:
        return strncasecmp(row->what, answer, strlen(answer)) == 0;
    default:
        snprintf(both, sizeof both, "%s %s", row->word, row->what);
        return choice_words(answer, both);
    }
}

static void name_all(const struct choices *c, const char *answer, enum how how, char *text, size_t size)
{
    size_t used = 0, named = 0;
    text[0] = 0;
    for (size_t i = 0; i < c->n && used < size; i++) {
        if (how == HOWS || fits(&c->row[i], answer, how)) {
            const char *word = named < NAMED_MOST ? c->row[i].word : "...";
            used += (size_t)snprintf(text + used, size - used, "%s%s", named ? ", " : "", word);
            if (named++ == NAMED_MOST) {
                return;
            }
        }
    }
}

/* How many rows fit, and the word of the one that was meant: the only one, or the only one shown. */
static size_t count_fits(const struct choices *c, const char *answer, enum how how, const char **word)
{
    size_t n = 0, seen = 0;
    const char *of_seen = NULL;
    for (size_t i = 0; i < c->n; i++) {
        if (fits(&c->row[i], answer, how)) {
            *word = c->row[i].word;
            n++;
            if (i < c->shown) {
                of_seen = c->row[i].word;
                seen++;
            }
        }
    }
    *word = seen == 1 ? of_seen : *word;
    return seen == 1 ? 1 : n;
}

static enum err_code none_fits(const struct choices *c, const char *answer, struct err *e)
{
    char names[256];
    if (c->instead) {
        return err_set(e, ERR_USAGE, "nothing here has \"%.40s\" in its name: %s", answer, c->instead);
    }
    name_all(c, answer, HOWS, names, sizeof names);
    return err_set(e, ERR_USAGE, "\"%.40s\" is not one of them: type a number from 1 to %zu, or a word: %s", answer,
                   c->shown ? c->shown : c->n, names);
}

bool choose(const struct choices *c, const char *answer, const char **word, struct err *e)
{
    char names[256];
    long number;
    size_t last = c->shown ? c->shown : c->n;
    if (num_parse_long(answer, strlen(answer), 1, (long)last, &number)) {
        *word = c->row[number - 1].word;
        return true;
    }
    for (enum how how = BY_WORD; how < (c->open ? BY_FIRST_WORDS : HOWS); how++) {
        size_t n = count_fits(c, answer, how, word);
        if (n == 1) {
            return true;
        }
        if (n > 1) {
            name_all(c, answer, how, names, sizeof names);
            err_set(e, ERR_USAGE, "\"%.40s\" could be %s: type more of it", answer, names);
            return false;
        }
    }
    *word = answer;
    return c->open || none_fits(c, answer, e) == ERR_OK;
}
