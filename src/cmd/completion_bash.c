/* Completion for bash. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/completion.h"
#include "cmd/help.h"
#include "cmd/words.h"
#include "data/diary.h"

static void names(const struct option_row *o, struct buf *b)
{
    if (o->letter) {
        buf_addf(b, "-%c | ", o->letter);
    }
    buf_addf(b, "--%s", o->name);
}

/* What comes behind an option that takes a value. */
static void values(const struct params *p, struct buf *b)
{
    buf_add(b, "    case $before in\n");
    for (size_t i = 0; i < option_rows; i++) {
        const struct option_row *o = &option_table[i];
        if (o->type == OPTION_FLAG) {
            continue;
        }
        buf_add(b, "    ");
        names(o, b);
        if (words_file(o)) {
            buf_add(b, ") _sugarlea_files; return ;;\n");
        } else if (words_of(o, p, 0)) {
            buf_add(b, ") words='");
            completion_words(o, p, " ", b);
            buf_add(b, "' ;;\n");
        } else {
            buf_add(b, ") return ;;\n");
        }
    }
    buf_add(b, "    *) _sugarlea_of_command ;;\n    esac\n");
}

/* WHAT, SUBJECT, and then words where WHAT takes some. */
static void record(struct buf *b)
{
    buf_add(b, "    record:2:[!-]* | record:2:) words='");
    completion_diary(" ", b);
    buf_add(b, "' ;;\n    record:3:[!-]* | record:3:) ;;\n"
               "    record:*:[!-]* | record:*:)\n"
               "        case ${COMP_WORDS[2]} in\n");
    for (size_t i = 0; i < DIARY_WHATS; i++) {
        if (diary_kinds[i].word[0]) {
            buf_addf(b, "        %s) words='", diary_kinds[i].name);
            completion_diary_words(i, " ", b);
            buf_add(b, "' ;;\n");
        }
    }
    buf_add(b, "        esac\n        ;;\n");
}

static void of_command(struct buf *b)
{
    buf_add(b, "# Sets words: what may stand at this place of the command.\n"
               "_sugarlea_of_command() {\n"
               "    case ${COMP_WORDS[1]}:$COMP_CWORD:$word in\n    help:2:*) words='");
    completion_help(" ", b);
    buf_add(b, "' ;;\n");
    record(b);
    buf_add(b, "    round:*:[!-]* | round:*:) _sugarlea_files ;;\n");
    for (size_t i = 0; i < command_rows; i++) {
        buf_addf(b, "    %s:*) words='", command_table[i].name);
        for (size_t k = 0, n = 0; k < option_rows; k++) {
            if (option_table[k].commands & command_table[i].bit) {
                buf_addf(b, "%s--%s", n++ ? " " : "", option_table[k].name);
            }
        }
        buf_add(b, "' ;;\n");
    }
    buf_add(b, "    esac\n}\n\n");
}

void completion_bash(const struct params *p, struct buf *out)
{
    buf_add(out, "# Completion of sugarlea for bash. Made by \"sugarlea help completion-bash\".\n"
                 "_sugarlea_files() {\n"
                 "    local IFS=$'\\n'\n"
                 "    compopt -o filenames -o default 2>/dev/null\n"
                 "    COMPREPLY=($(compgen -f -- \"$word\"))\n"
                 "}\n\n");
    of_command(out);
    buf_add(out, "_sugarlea() {\n"
                 "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} words=\n"
                 "    COMPREPLY=()\n"
                 "    case $before$word in # --option=value comes in three words\n"
                 "    --*=) word= ;;\n"
                 "    =*) before=${COMP_WORDS[COMP_CWORD - 2]} ;;\n"
                 "    esac\n"
                 "    if ((COMP_CWORD == 1)); then\n"
                 "        COMPREPLY=($(compgen -W '");
    completion_commands(FOR_ALL, " ", out);
    buf_add(out, " help --help --version' -- \"$word\"))\n"
                 "        return\n"
                 "    fi\n");
    values(p, out);
    buf_add(out, "    COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n"
                 "}\n"
                 "complete -F _sugarlea sugarlea\n");
}
