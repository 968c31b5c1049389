/* One arena per run: whatever is allocated from it lives until arena_release.
 * Nobody else frees. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ARENA_H
#define SUGARLEA_ARENA_H

#include <stddef.h>

struct arena_block;
struct arena {
    struct arena_block *last;
};

void arena_init(struct arena *a);
void arena_release(struct arena *a); /* frees all; the arena is empty and usable again */

/* n * size bytes, zeroed, aligned for any type; NULL when memory is out or the
 * product overflows. n or size 0 gives a valid pointer to nothing. */
void *arena_alloc(struct arena *a, size_t n, size_t size);

/* A copy of text, or of its first n bytes, closed with 0; NULL when memory is out. */
char *arena_strdup(struct arena *a, const char *text);
char *arena_strndup(struct arena *a, const char *text, size_t n);

#endif
