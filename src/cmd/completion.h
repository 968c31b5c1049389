/* Parts that the three completions share. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_COMPLETION_H
#define SUGARLEA_COMPLETION_H

#include "base/buf.h"
#include "cmd/options.h"
#include "data/params.h"

/* Words with `between` between them: what an option takes, the commands of these bits, what
 * help takes, what the diary knows, and the words of the diary's `what`-th kind. */
void completion_words(const struct option_row *o, const struct params *p, const char *between, struct buf *b);
void completion_commands(unsigned commands, const char *between, struct buf *b);
void completion_help(const char *between, struct buf *b);
void completion_diary(const char *between, struct buf *b);
void completion_diary_words(size_t what, const char *between, struct buf *b);

/* text for a word in single quotes: \ before each of `special`, and a ' as the shell has it
 * ('\'' for bash and zsh; fish takes \' too). */
void completion_quote(const char *text, const char *special, struct buf *b);

#endif
