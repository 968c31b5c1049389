/* Words that the completions offer, from the tables. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/completion.h"

#include "cmd/help.h"
#include "cmd/words.h"
#include "data/diary.h"

#include <string.h>

static void add_word(struct buf *b, bool *first, const char *between, const char *word)
{
    buf_add(b, *first ? "" : between);
    buf_add(b, word);
    *first = false;
}

void completion_words(const struct option_row *o, const struct params *p, const char *between, struct buf *b)
{
    bool first = true;
    for (size_t i = 0; words_of(o, p, i); i++) {
        add_word(b, &first, between, words_of(o, p, i));
    }
}

void completion_commands(unsigned commands, const char *between, struct buf *b)
{
    bool first = true;
    for (size_t i = 0; i < command_rows; i++) {
        if (command_table[i].bit & commands) {
            add_word(b, &first, between, command_table[i].name);
        }
    }
}

void completion_help(const char *between, struct buf *b)
{
    completion_commands(FOR_ALL, between, b);
    for (size_t i = 0; i < help_topic_count; i++) {
        buf_addf(b, "%s%s", between, help_topics[i].name);
    }
}

void completion_diary(const char *between, struct buf *b)
{
    bool first = true;
    for (size_t i = 0; i < DIARY_WHATS; i++) {
        add_word(b, &first, between, diary_kinds[i].name);
    }
}

void completion_diary_words(size_t what, const char *between, struct buf *b)
{
    bool first = true;
    for (size_t i = 0; i < DIARY_WORDS && diary_kinds[what].word[i]; i++) {
        add_word(b, &first, between, diary_kinds[what].word[i]);
    }
}

void completion_quote(const char *text, const char *special, struct buf *b)
{
    for (const char *c = text; *c; c++) {
        if (*c == '\'') {
            buf_add(b, "'\\''");
            continue;
        }
        buf_add(b, strchr(special, *c) ? "\\" : "");
        buf_add_char(b, *c);
    }
}
