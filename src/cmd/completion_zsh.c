/* Completion for zsh. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/completion.h"
#include "cmd/help.h"
#include "cmd/words.h"
#include "data/diary.h"

/* '(-v --verbose)'{-v,--verbose}'[what]' or '--date=[what]:YYYY-MM-DD:' */
static void option(const struct option_row *o, const struct params *p, struct buf *b)
{
    const char *value = o->type == OPTION_FLAG ? "" : "=";
    if (o->letter) {
        buf_addf(b, " \\\n            '(-%c --%s)'{-%c%s,--%s%s}'[", o->letter, o->name, o->letter, value[0] ? "+" : "",
                 o->name, value);
    } else {
        buf_addf(b, " \\\n            '--%s%s[", o->name, value);
    }
    completion_quote(o->what, "[]:\\", b);
    buf_add(b, "]");
    if (o->type != OPTION_FLAG) {
        buf_add(b, ":");
        completion_quote(o->value, "[]:\\", b);
        buf_add(b, ":");
        buf_add(b, words_file(o) ? "_files" : words_of(o, p, 0) ? "(" : "");
        completion_words(o, p, " ", b);
        buf_add(b, words_of(o, p, 0) ? ")" : "");
    }
    buf_add(b, "'");
}

static void diary_values(struct buf *b)
{
    buf_add(b, "_sugarlea_value() {\n    case $words[2] in\n");
    for (size_t i = 0; i < DIARY_WHATS; i++) {
        if (diary_kinds[i].word[0]) {
            buf_addf(b, "    %s) compadd -- ", diary_kinds[i].name);
            completion_diary_words(i, " ", b);
            buf_add(b, " ;;\n");
        }
    }
    buf_add(b, "    *) _message 'VALUE' ;;\n    esac\n}\n\n");
}

static void one_command(const struct command *c, const struct params *p, struct buf *b)
{
    buf_addf(b, "        %s)\n            _arguments", c->name);
    for (size_t i = 0; i < option_rows; i++) {
        if (option_table[i].commands & c->bit) {
            option(&option_table[i], p, b);
        }
    }
    if (c->bit == FOR_RECORD) {
        buf_add(b, " \\\n            '1:WHAT:(");
        completion_diary(" ", b);
        buf_add(b, ")' '2:SUBJECT:' '*:VALUE:_sugarlea_value'");
    }
    buf_add(b, c->bit == FOR_ROUND ? " \\\n            '*:folder:_files'" : "");
    buf_add(b, "\n            ;;\n");
}

void completion_zsh(const struct params *p, struct buf *out)
{
    buf_add(out, "#compdef sugarlea\n"
                 "# Completion of sugarlea for zsh. Made by \"sugarlea help completion-zsh\".\n");
    diary_values(out);
    buf_add(out, "_sugarlea() {\n"
                 "    local context state state_descr line\n"
                 "    typeset -A opt_args\n"
                 "    local -a commands\n"
                 "    commands=(\n");
    for (size_t i = 0; i < command_rows; i++) {
        buf_addf(out, "        '%s:", command_table[i].name);
        completion_quote(command_table[i].what, ":\\", out);
        buf_add(out, "'\n");
    }
    buf_add(out, "        'help:all commands, or one with its options'\n"
                 "    )\n"
                 "    _arguments -C '(- *)--version[name and version]' '1: :->command' '*:: :->rest'\n"
                 "    case $state in\n"
                 "    command) _describe command commands ;;\n"
                 "    rest)\n"
                 "        case $line[1] in\n"
                 "        help) _arguments '1:word:(");
    completion_help(" ", out);
    buf_add(out, ")' ;;\n");
    for (size_t i = 0; i < command_rows; i++) {
        one_command(&command_table[i], p, out);
    }
    buf_add(out, "        esac\n"
                 "        ;;\n"
                 "    esac\n"
                 "}\n\n"
                 "_sugarlea \"$@\"\n");
}
