/* The manual page, from the same tables as the help. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/help.h"
#include "cmd/reference.h"

#include <stdio.h>

static void options_of(const struct doc *d, const struct command *c)
{
    struct buf names;
    buf_init(&names);
    buf_add(&names, "Options:");
    for (size_t i = 0; i < option_rows; i++) {
        if (option_table[i].commands & c->bit) {
            buf_addf(&names, "%s--%s", names.length > sizeof "Options:" ? ", " : " ", option_table[i].name);
        }
    }
    buf_add(&names, ".");
    doc_flow(d, names.text);
    doc_release(d, &names);
}

static void commands(const struct doc *d)
{
    char title[LIMIT_TEXT];
    for (size_t i = 0; i < command_rows; i++) {
        const struct command *c = &command_table[i];
        snprintf(title, sizeof title, "sugarlea %s: %s", c->name, c->what);
        doc_macro(d, ".SS", title);
        help_about(d, c);
        options_of(d, c);
    }
    doc_macro(d, ".SS", "sugarlea help [COMMAND or WORD]");
    doc_flow(d, "All commands, or one with its options, or one of these:");
    for (size_t i = 0; i < help_topic_count; i++) {
        doc_term(d, 0, help_topics[i].name, help_topics[i].what);
    }
}

static void list(const struct doc *d, const struct reference *row, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        doc_term(d, 0, row[i].term, row[i].what);
    }
}

void manual(const struct params *p, struct buf *out)
{
    const struct doc d = {.b = out, .manual = true};
    buf_add(out, ".\\\" Made by \"sugarlea help manual\".\n");
    buf_addf(out, ".TH SUGARLEA 1 %s \"sugarlea %s\" \"User Commands\"\n.nh\n.ad l\n", SUGARLEA_RELEASED,
             SUGARLEA_VERSION);
    doc_macro(&d, ".SH", "NAME");
    buf_add(out, "sugarlea \\- sugar in the grass, and grazing of animals prone to laminitis\n");
    doc_macro(&d, ".SH", "SYNOPSIS");
    buf_add(out, ".B sugarlea\n.I COMMAND\n.RI [ OPTION ...]\n.br\n.B sugarlea help\n.RI [ COMMAND ]\n.br\n"
                 ".B sugarlea \\-\\-version\n");
    doc_macro(&d, ".SH", "DESCRIPTION");
    doc_flow(&d,
             "sugarlea reads the daily weather of your place, reckons day by day how the grass grows and how much "
             "sugar it holds, and tells each morning, for each group of animals, how many hours on grass their ration "
             "can bear, in which hours of the day, how much hay to give, and why. Answers go to standard output, all "
             "else to standard error.");
    doc_macro(&d, ".SH", "COMMANDS");
    commands(&d);
    doc_macro(&d, ".SH", "OPTIONS");
    doc_flow(&d, "Each command takes those that are named with it above. An option comes before what stands in the "
                 "environment, that before the holding file, that before the model files.");
    help_options(&d, FOR_ALL, p);
    doc_macro(&d, ".SH", "FILES");
    list(&d, reference_files, reference_file_count);
    doc_macro(&d, ".SH", "ENVIRONMENT");
    list(&d, reference_environment, reference_environment_count);
    doc_macro(&d, ".SH", "EXIT STATUS");
    list(&d, reference_exits, reference_exit_count);
    doc_macro(&d, ".SH", "CAVEATS");
    doc_flow(&d, reference_cautions);
    doc_macro(&d, ".SH", "EXAMPLES");
    doc_flow(&d, "With a holding file and a diary, each morning:\n"
                 "  sugarlea today\n\n"
                 "Without one, from a file of daily weather:\n"
                 "  sugarlea today --weather weather.csv --latitude 52.3 --animal goat-dry\n\n"
                 "Every morning at half past five, without thinking of it:\n"
                 "  systemctl --user enable --now sugarlea.timer\n");
    doc_macro(&d, ".SH", "SEE ALSO");
    buf_add(out, ".BR gnuplot (1),\n.BR crontab (5),\n.BR systemd.timer (5)\n");
}
