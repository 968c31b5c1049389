/* What was meant: a number, a word, the beginning of one, or words of its explanation.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "setup/question.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { WORD = 40, NAMED_MOST = 8 };

void choice_add(struct choices *c, const char *word, const char *what)
{
    if (c->n < CHOICES_MOST) {
        c->row[c->n++] = (struct choice){word, what};
    }
}

/* Names that the tables do not use. */
static const char *our_word(const char *word)
{
    static const char *const names[][2] = {{"alfalfa", "lucerne"}, {"corn", "maize"},   {"haylage", "haylage"},
                                           {"sugarbeet", "beet"},  {"soya", "soybean"}, {"soy", "soybean"},
                                           {"pony", "horse"},      {"ponies", "horse"}};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcasecmp(word, names[i][0]) == 0) {
            return names[i][1];
        }
    }
    return word;
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
        if (n > 0 && !strcasestr(text, word) && !strcasestr(text, our_word(word))) {
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
        size_t n = 0;
        for (size_t i = 0; i < c->n; i++) {
            bool fit = fits(&c->row[i], answer, how);
            *word = fit ? c->row[i].word : *word;
            n += fit;
        }
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
    if (!c->open) {
        name_all(c, answer, HOWS, names, sizeof names);
        err_set(e, ERR_USAGE, "\"%.40s\" is not one of them: type a number from 1 to %zu, or a word: %s", answer, last,
                names);
    }
    return c->open;
}
