/* What the fuzz targets share: an input as libFuzzer hands it over, and promises that
 * must hold for any bytes. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FUZZ_H
#define SUGARLEA_FUZZ_H

#include "base/err.h"

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define FUZZ_PROMISE(holds)                                                                                            \
    do {                                                                                                               \
        if (!(holds)) {                                                                                                \
            fprintf(stderr, "%s:%d: broken promise: %s\n", __FILE__, __LINE__, #holds);                                \
            abort();                                                                                                   \
        }                                                                                                              \
    } while (0)

/* A result and its error agree: ERR_OK, or the same code with a sentence. What is refused
 * for lack of memory or as our own fault would be a fault here. */
static inline void fuzz_error(enum err_code code, const struct err *e)
{
    FUZZ_PROMISE(code == ERR_OK || (code == e->code && e->what[0]));
    FUZZ_PROMISE(code != ERR_BUG && code != ERR_NOMEM);
}

#endif
