/* Completion for fish. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/completion.h"
#include "cmd/help.h"
#include "cmd/words.h"
#include "data/diary.h"

static void describe(const char *text, struct buf *b)
{
    buf_add(b, " -d '");
    completion_quote(text, "\\", b);
    buf_add(b, "'\n");
}

static void option(const struct option_row *o, const struct params *p, struct buf *b)
{
    buf_add(b, "complete -c sugarlea -n '__fish_seen_subcommand_from ");
    completion_commands(o->commands, " ", b);
    buf_addf(b, "' -l %s", o->name);
    if (o->letter) {
        buf_addf(b, " -s %c", o->letter);
    }
    if (o->type != OPTION_FLAG && words_file(o)) {
        buf_add(b, " -r -F");
    } else if (o->type != OPTION_FLAG) {
        buf_add(b, " -x");
        buf_add(b, words_of(o, p, 0) ? " -a '" : "");
        completion_words(o, p, " ", b);
        buf_add(b, words_of(o, p, 0) ? "'" : "");
    }
    describe(o->what, b);
}

/* What stands at a place of `sugarlea record`: so many words are there before it. */
static void diary(struct buf *b)
{
    buf_add(b, "complete -c sugarlea -n '__fish_seen_subcommand_from record; "
               "and test (count (commandline -opc)) -eq 2' -a '");
    completion_diary(" ", b);
    buf_add(b, "'\n");
    for (size_t i = 0; i < DIARY_WHATS; i++) {
        if (diary_kinds[i].word[0]) {
            buf_addf(b,
                     "complete -c sugarlea -n '__fish_seen_subcommand_from %s; "
                     "and test (count (commandline -opc)) -ge 4' -a '",
                     diary_kinds[i].name);
            completion_diary_words(i, " ", b);
            buf_add(b, "'\n");
        }
    }
}

void completion_fish(const struct params *p, struct buf *out)
{
    buf_add(out, "# Completion of sugarlea for fish. Made by \"sugarlea help completion-fish\".\n"
                 "complete -c sugarlea -f\n"
                 "complete -c sugarlea -n __fish_use_subcommand -l version -d 'name and version'\n"
                 "complete -c sugarlea -n __fish_use_subcommand -a help -d 'all commands, or one with its options'\n"
                 "complete -c sugarlea -n '__fish_seen_subcommand_from help' -a '");
    completion_help(" ", out);
    buf_add(out, "'\n");
    for (size_t i = 0; i < command_rows; i++) {
        buf_addf(out, "complete -c sugarlea -n __fish_use_subcommand -a %s", command_table[i].name);
        describe(command_table[i].what, out);
    }
    for (size_t i = 0; i < option_rows; i++) {
        option(&option_table[i], p, out);
    }
    diary(out);
    buf_add(out, "complete -c sugarlea -n '__fish_seen_subcommand_from round' -F\n");
}
