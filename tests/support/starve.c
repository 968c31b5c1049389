/* SPDX-License-Identifier: GPL-3.0-or-later
 * Test programs are linked so that allocations from arenas come here (--wrap, see the Makefile); the linker
 * of macOS cannot, and nothing is refused there. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/starve.h"

#ifdef __APPLE__

size_t starve(starved_maker *make, void *context)
{
    struct arena a;
    arena_init(&a);
    assert_true(make(&a, context));
    arena_release(&a);
    return SIZE_MAX;
}

#else

static size_t count, refused_at; /* refused_at 0: none is refused */

void *__real_arena_alloc(struct arena *a, size_t n, size_t size);
char *__real_arena_strndup(struct arena *a, const char *text, size_t n);
char *__real_arena_strdup(struct arena *a, const char *text);
void *__wrap_arena_alloc(struct arena *a, size_t n, size_t size);
char *__wrap_arena_strndup(struct arena *a, const char *text, size_t n);
char *__wrap_arena_strdup(struct arena *a, const char *text);

static bool refused(void)
{
    return refused_at > 0 && ++count == refused_at;
}

void *__wrap_arena_alloc(struct arena *a, size_t n, size_t size)
{
    return refused() ? NULL : __real_arena_alloc(a, n, size);
}

char *__wrap_arena_strndup(struct arena *a, const char *text, size_t n)
{
    return refused() ? NULL : __real_arena_strndup(a, text, n);
}

char *__wrap_arena_strdup(struct arena *a, const char *text)
{
    return refused() ? NULL : __real_arena_strdup(a, text);
}

size_t starve(starved_maker *make, void *context)
{
    for (size_t at = 1;; at++) {
        struct arena a;
        arena_init(&a);
        count = 0;
        refused_at = at;
        bool made = make(&a, context);
        refused_at = 0;
        arena_release(&a);
        assert_int_equal(made, count < at);
        if (made) {
            return at - 1;
        }
    }
}

#endif
