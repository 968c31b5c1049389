/* What the manual tells beside commands and options: the files, the environment, the exit
 * codes. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_REFERENCE_H
#define SUGARLEA_REFERENCE_H

#include <stddef.h>

struct reference {
    const char *term, *what;
};

extern const struct reference reference_files[], reference_environment[], reference_exits[];
extern const size_t reference_file_count, reference_environment_count, reference_exit_count;

extern const char reference_cautions[]; /* paragraphs for doc_flow */
extern const char reference_closing[];  /* the line under every help */

#endif
