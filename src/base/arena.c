/* Blocks that double in size up to a limit; big requests get a block of their own.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/arena.h"

#include <assert.h>
#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define BLOCK_FIRST (64u << 10)
#define BLOCK_MOST (4u << 20)

struct arena_block {
    struct arena_block *before;
    size_t size, used;
    alignas(max_align_t) char bytes[];
};

void arena_init(struct arena *a)
{
    *a = (struct arena){0};
}

void arena_release(struct arena *a)
{
    assert(a != NULL);
    for (struct arena_block *b = a->last; b;) {
        struct arena_block *before = b->before;
        free(b);
        b = before;
    }
    a->last = NULL;
}

/* calloc, so that large blocks come zeroed from the system without a second pass. */
static struct arena_block *add_block(struct arena *a, size_t need)
{
    assert(need > 0);
    size_t size = a->last ? a->last->size * 2 : BLOCK_FIRST;
    if (size > BLOCK_MOST) {
        size = BLOCK_MOST;
    }
    if (size < need) {
        size = need;
    }
    if (size > SIZE_MAX - sizeof(struct arena_block)) {
        return NULL;
    }
    struct arena_block *b = calloc(1, sizeof *b + size);
    if (!b) {
        return NULL;
    }
    b->size = size;
    b->before = a->last;
    a->last = b;
    return b;
}

void *arena_alloc(struct arena *a, size_t n, size_t size)
{
    size_t align = alignof(max_align_t);
    if (size && n > (SIZE_MAX - align) / size) {
        return NULL;
    }
    size_t bytes = (n * size + align - 1) / align * align;
    struct arena_block *b = a->last;
    if (!b || b->size - b->used < bytes) {
        b = add_block(a, bytes ? bytes : align);
        if (!b) {
            return NULL;
        }
    }
    void *start = b->bytes + b->used;
    assert((uintptr_t)start % align == 0);
    assert(b->used + bytes <= b->size);
    b->used += bytes;
    return start;
}

char *arena_strndup(struct arena *a, const char *text, size_t n)
{
    assert(text != NULL);
    size_t length = strnlen(text, n);
    char *copy = arena_alloc(a, length + 1, 1);
    if (copy) {
        memcpy(copy, text, length);
    }
    return copy;
}

char *arena_strdup(struct arena *a, const char *text)
{
    return arena_strndup(a, text, strlen(text));
}
