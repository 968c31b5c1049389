/* What the program says of itself. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HELP_H
#define SUGARLEA_HELP_H

#include "cmd/table.h"
#include "data/params.h"
#include "out/doc.h"

/* What `sugarlea` alone prints: what it is, two examples, what to do next. */
void help_first(struct buf *out);

/* `sugarlea help WORD...`: the list, a command, or one of the topics. ERR_USAGE for another
 * word, and what params_load fails with for topics that need the model files. */
enum err_code help(size_t words, char *const *word, struct buf *out, struct err *e);

/* One command with its options. */
void help_command(const struct command *c, struct buf *out);

/* What `sugarlea help WORD` shows beside the commands. */
struct help_topic {
    const char *name, *what;
    /* one of the two */
    void (*simple)(struct buf *out);
    void (*with_params)(const struct params *p, struct buf *out);
};
extern const struct help_topic help_topics[];
extern const size_t help_topic_count;

/* Parts that help and manual share. */
void help_about(const struct doc *d, const struct command *c);
/* The options of the commands of these bits. p NULL: words of the model files are left out. */
void help_options(const struct doc *d, unsigned commands, const struct params *p);

/* The topics. */
void manual(const struct params *p, struct buf *out);          /* man(7) */
void completion_bash(const struct params *p, struct buf *out); /* to be read by bash */
void completion_zsh(const struct params *p, struct buf *out);  /* an autoloaded function _sugarlea */
void completion_fish(const struct params *p, struct buf *out);

#endif
