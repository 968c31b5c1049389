/* Plain rows, words at a time.
 *
 * What makes a reader slow is not the digits but the waiting: each field can only be
 * looked for when the one before has been read, and no loop over digits ends where
 * the processor foresees. So all separators of a row are found first, sixteen bytes
 * at a time, and each number, its end known, is packed and converted in one word
 * without a branch on its text. Measured on seven columns, tenths and whole numbers:
 * half the time of digit loops. The result is that of num_parse(): an exact whole
 * number divided by an exact power of ten is rounded once, correctly. What is not so
 * plain is left to the careful path.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_CSV_FAST_H
#define SUGARLEA_WEATHER_CSV_FAST_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#if defined(__SSE2__)
#include <emmintrin.h>
#endif

#define CSV_FAST_ROW 64   /* bytes of a row, its end included */
#define CSV_FAST_BEFORE 8 /* bytes that must be readable before it */
#define CSV_FAST_NUMBER 8 /* bytes of a number */

/* What stands where in 64 bytes: bit i for byte i. */
struct csv_marks {
    uint64_t ends;       /* of lines */
    uint64_t separators; /* delimiters and ends of lines */
    uint64_t points;     /* decimal signs */
    uint64_t minuses;
    uint64_t others; /* neither of these nor a digit */
    uint64_t odd;    /* no part of a number where it stands */
};

#if defined(__SSE2__)

static inline void csv_fast_mark16(const char *p, char delimiter, char point, unsigned at, struct csv_marks *m)
{
    __m128i bytes = _mm_loadu_si128((const __m128i *)(const void *)p);
    __m128i value = _mm_sub_epi8(bytes, _mm_set1_epi8('0'));
    __m128i end = _mm_cmpeq_epi8(bytes, _mm_set1_epi8('\n'));
    __m128i separator = _mm_or_si128(end, _mm_cmpeq_epi8(bytes, _mm_set1_epi8(delimiter)));
    __m128i dot = _mm_cmpeq_epi8(bytes, _mm_set1_epi8(point));
    __m128i minus = _mm_cmpeq_epi8(bytes, _mm_set1_epi8('-'));
    __m128i digit = _mm_cmpeq_epi8(_mm_min_epu8(value, _mm_set1_epi8(9)), value);
    __m128i known = _mm_or_si128(_mm_or_si128(digit, dot), minus);
    m->ends |= (uint64_t)(unsigned)_mm_movemask_epi8(end) << at;
    m->separators |= (uint64_t)(unsigned)_mm_movemask_epi8(separator) << at;
    m->points |= (uint64_t)(unsigned)_mm_movemask_epi8(dot) << at;
    m->minuses |= (uint64_t)(unsigned)_mm_movemask_epi8(minus) << at;
    m->others |= (uint64_t)(0xffffu ^ (unsigned)_mm_movemask_epi8(known)) << at;
}

#else

static inline void csv_fast_mark16(const char *p, char delimiter, char point, unsigned at, struct csv_marks *m)
{
    for (unsigned i = 0; i < 16; i++) {
        uint64_t bit = 1ull << (at + i);
        bool digit = p[i] >= '0' && p[i] <= '9';
        m->ends |= p[i] == '\n' ? bit : 0;
        m->separators |= p[i] == '\n' || p[i] == delimiter ? bit : 0;
        m->points |= p[i] == point ? bit : 0;
        m->minuses |= p[i] == '-' ? bit : 0;
        m->others |= digit || p[i] == point || p[i] == '-' ? 0 : bit;
    }
}

#endif

/* Marks 64 bytes, or fewer when a line ends before. */
static inline struct csv_marks csv_fast_marks(const char *p, char delimiter, char point)
{
    struct csv_marks m = {0, 0, 0, 0, 0, 0};
    csv_fast_mark16(p, delimiter, point, 0, &m);
    csv_fast_mark16(p + 16, delimiter, point, 16, &m);
    csv_fast_mark16(p + 32, delimiter, point, 32, &m);
    if (!m.ends) {
        csv_fast_mark16(p + 48, delimiter, point, 48, &m);
    }
    uint64_t starts = m.separators << 1 | 1;
    m.odd = m.others | (m.minuses & ~starts);
    return m;
}

static inline uint64_t csv_fast_load(const char *p)
{
    uint64_t word;
    memcpy(&word, p, sizeof word);
#if __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
    word = __builtin_bswap64(word);
#endif
    return word;
}

/* Eight digits, the first in the lowest byte, each 0..9. */
static inline uint32_t csv_fast_digits(uint64_t digits)
{
    if ((uint32_t)digits == 0) { /* four will do: half the work, and nearly always so */
        uint32_t four = (uint32_t)(digits >> 32);
        four = (four * 10 + (four >> 8)) & 0x00ff00ffu;
        return (four * (1 + (100u << 16))) >> 16;
    }
    digits = digits * 10 + (digits >> 8);
    uint64_t even = (digits & 0x000000ff000000ffu) * (100 + (1000000ull << 32));
    uint64_t odd = (digits >> 16 & 0x000000ff000000ffu) * (1 + (10000ull << 32));
    return (uint32_t)((even + odd) >> 32);
}

/* The number in the bytes of `field` (1 to 8 bits set, the last before byte stop) of
 * the 64 at row; false when it is not plain. */
static inline bool csv_fast_number(const char *row, const struct csv_marks *m, uint64_t field, unsigned stop,
                                   unsigned n, double *x)
{
    static const double power[2][8] = {{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7},
                                       {-1, -1e1, -1e2, -1e3, -1e4, -1e5, -1e6, -1e7}};
    static const uint64_t last[9] = {0, /* the last so many bytes of a word */
                                     UINT64_MAX << 56,
                                     UINT64_MAX << 48,
                                     UINT64_MAX << 40,
                                     UINT64_MAX << 32,
                                     UINT64_MAX << 24,
                                     UINT64_MAX << 16,
                                     UINT64_MAX << 8,
                                     UINT64_MAX};
    uint64_t point = m->points & field;
    unsigned negative = (m->minuses & field) != 0, behind = 0;
    if ((m->odd & field) | (point & (point - 1)) || n <= negative + (point != 0)) {
        return false;
    }
    /* the last character lies in the highest byte; '0'..'9' become 0..9 */
    uint64_t word = (csv_fast_load(row + stop - 8) ^ 0x3030303030303030u) & last[n - negative];
    if (point) {
        behind = stop - 1 - (unsigned)__builtin_ctzll(point);
        word = (word & last[behind]) | (word & ~last[behind + 1]) << 8;
    }
    *x = csv_fast_digits(word) / power[negative][behind];
    return true;
}

/* Whether the n bytes at a and b are the same; 16 bytes must be readable at both. */
static inline bool csv_fast_same(const char *a, const char *b, size_t n)
{
    if (n > 16) {
        return memcmp(a, b, n) == 0;
    }
    if (n >= 8) {
        return csv_fast_load(a) == csv_fast_load(b) && csv_fast_load(a + n - 8) == csv_fast_load(b + n - 8);
    }
    return ((csv_fast_load(a) ^ csv_fast_load(b)) & ((1ull << 8 * n) - 1)) == 0;
}

#endif
