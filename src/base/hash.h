/* 64-bit FNV-1a: names things shortly; it keeps no secret.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HASH_H
#define SUGARLEA_HASH_H

#include <stddef.h>
#include <stdint.h>

#define HASH_START 0xcbf29ce484222325u /* offset basis of Fowler, Noll and Vo */

static inline uint64_t hash_fnv1a(uint64_t hash, const char *bytes, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        hash = (hash ^ (unsigned char)bytes[i]) * 0x100000001b3u;
    }
    return hash;
}

#endif
