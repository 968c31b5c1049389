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

/* Where the delimiters and line ends of 64 bytes stand: bit i for byte i. */
struct csv_marks {
    uint64_t separators; /* both */
    uint64_t line_ends;
};

#if defined(__SSE2__)

static inline struct csv_marks csv_fast_marks(const char *p, char delimiter)
{
    struct csv_marks marks = {0, 0};
    const __m128i d = _mm_set1_epi8(delimiter), n = _mm_set1_epi8('\n'), r = _mm_set1_epi8('\r');
    for (int i = 0; i < CSV_FAST_ROW; i += 16) {
        __m128i bytes = _mm_loadu_si128((const __m128i *)(const void *)(p + i));
        __m128i ends = _mm_or_si128(_mm_cmpeq_epi8(bytes, n), _mm_cmpeq_epi8(bytes, r));
        __m128i all = _mm_or_si128(_mm_cmpeq_epi8(bytes, d), ends);
        marks.line_ends |= (uint64_t)(unsigned)_mm_movemask_epi8(ends) << i;
        marks.separators |= (uint64_t)(unsigned)_mm_movemask_epi8(all) << i;
    }
    return marks;
}

#else

static inline struct csv_marks csv_fast_marks(const char *p, char delimiter)
{
    struct csv_marks marks = {0, 0};
    for (int i = 0; i < CSV_FAST_ROW; i++) {
        uint64_t end = p[i] == '\n' || p[i] == '\r';
        marks.line_ends |= end << i;
        marks.separators |= (end | (p[i] == delimiter)) << i;
    }
    return marks;
}

#endif

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
    digits = digits * 10 + (digits >> 8);
    uint64_t even = (digits & 0x000000ff000000ffu) * (100 + (1000000ull << 32));
    uint64_t odd = (digits >> 16 & 0x000000ff000000ffu) * (1 + (10000ull << 32));
    return (uint32_t)((even + odd) >> 32);
}

/* The number in the n bytes (1 to 8) before stop; false when it is not plain. */
static inline bool csv_fast_number(const char *stop, size_t n, char point, double *x)
{
    static const double power[2][8] = {{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7},
                                       {-1, -1e1, -1e2, -1e3, -1e4, -1e5, -1e6, -1e7}};
    const uint64_t ones = 0x0101010101010101u, highs = 0x8080808080808080u;
    size_t shift = 8 * (8 - n);
    /* '0'..'9' become 0..9; the last character lies in the highest byte */
    uint64_t word = csv_fast_load(stop - 8) ^ 0x3030303030303030u;
    uint64_t negative = (word >> shift & 0xff) == ('-' ^ 0x30);
    uint64_t digits = word & UINT64_MAX << shift & ~(0xff * negative << shift);
    /* 1 in the byte of the first point, 0 without one */
    uint64_t other = digits ^ (ones * (unsigned char)(point ^ 0x30));
    uint64_t mark = ~(((other & ~highs) + ~highs) | other) & highs;
    mark = (mark & -mark) >> 7;
    uint64_t pointed = mark != 0, front = mark - pointed;
    digits = (digits & ~(front | mark * 0xff)) | (digits & front) << 8;
    /* a byte above 9 reaches the highest bit */
    if ((((digits + 0x76 * ones) | digits) & highs) || n <= negative + pointed) {
        return false;
    }
    unsigned decimals = (unsigned)__builtin_clzll(mark | 1) / 8 * (unsigned)pointed;
    *x = csv_fast_digits(digits) / power[negative][decimals];
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
