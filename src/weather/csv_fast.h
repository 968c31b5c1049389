/* Plain rows, words at a time.
 *
 * What makes a reader slow is not the digits but the waiting: each field can only be
 * looked for when the one before has been read, and no loop over digits ends where
 * the processor foresees. So all separators and decimal signs of a row are found first,
 * sixteen bytes at a time, and each number, its end and its decimal sign known, is
 * weighed whole, without a branch on its text. The result is that of num_parse(): an
 * exact whole number divided by an exact power of ten is rounded once, correctly. What
 * is not so plain is left to the careful path.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_CSV_FAST_H
#define SUGARLEA_WEATHER_CSV_FAST_H

#include <stdalign.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#if defined(__SSE2__)
#include <emmintrin.h>
#endif

#define CSV_FAST_ROW 64   /* bytes of a row, its end included */
#define CSV_FAST_BEFORE 8 /* bytes that must be readable before it */
#define CSV_FAST_NUMBER 8 /* bytes of a number, its minus not counted */

/* What stands where in 64 bytes: bit i for byte i. */
struct csv_marks {
    uint64_t ends;       /* of lines */
    uint64_t separators; /* delimiters and ends of lines */
    uint64_t stops;      /* these and decimal signs */
};

#if defined(__SSE2__)

static inline void csv_fast_mark16(const char *p, char delimiter, char point, unsigned at, struct csv_marks *m)
{
    __m128i bytes = _mm_loadu_si128((const __m128i *)(const void *)p);
    __m128i end = _mm_or_si128(_mm_cmpeq_epi8(bytes, _mm_set1_epi8('\n')), _mm_cmpeq_epi8(bytes, _mm_set1_epi8('\r')));
    __m128i separator = _mm_or_si128(end, _mm_cmpeq_epi8(bytes, _mm_set1_epi8(delimiter)));
    __m128i stop = _mm_or_si128(separator, _mm_cmpeq_epi8(bytes, _mm_set1_epi8(point)));
    m->ends |= (uint64_t)(unsigned)_mm_movemask_epi8(end) << at;
    m->separators |= (uint64_t)(unsigned)_mm_movemask_epi8(separator) << at;
    m->stops |= (uint64_t)(unsigned)_mm_movemask_epi8(stop) << at;
}

#else

static inline void csv_fast_mark16(const char *p, char delimiter, char point, unsigned at, struct csv_marks *m)
{
    for (unsigned i = 0; i < 16; i++) {
        uint64_t bit = 1ull << (at + i);
        bool end = p[i] == '\n' || p[i] == '\r', separator = end || p[i] == delimiter;
        m->ends |= end ? bit : 0;
        m->separators |= separator ? bit : 0;
        m->stops |= separator || p[i] == point ? bit : 0;
    }
}

#endif

/* Marks 64 bytes, or fewer when a line ends before. */
static inline struct csv_marks csv_fast_marks(const char *p, char delimiter, char point)
{
    struct csv_marks m = {0, 0, 0};
    csv_fast_mark16(p, delimiter, point, 0, &m);
    csv_fast_mark16(p + 16, delimiter, point, 16, &m);
    csv_fast_mark16(p + 32, delimiter, point, 32, &m);
    if (!m.ends) {
        csv_fast_mark16(p + 48, delimiter, point, 48, &m);
    }
    return m;
}

#if defined(__SSE2__)

static inline __m128i csv_fast_load(const void *eight)
{
    return _mm_loadl_epi64((const __m128i *)eight);
}

#endif

/* What the eight bytes that end with a number count, by where its decimal sign stands. */
struct csv_shape {
    alignas(64) int16_t weight[8]; /* each in its half */
    int16_t half[2][2];            /* of a positive, of a negative number */
    uint8_t most[8];               /* that a byte may be, '0' taken as 0 */
    double divisor;
};

/* By the bytes from the decimal sign to the end, 0 without a sign; it is no plain number whose last byte is the sign.
 */
static const struct csv_shape csv_shapes[CSV_FAST_NUMBER + 1] = {
    {{1000, 100, 10, 1, 1000, 100, 10, 1}, {{10000, 1}, {-10000, -1}}, {9, 9, 9, 9, 9, 9, 9, 9}, 1},
    {{0}, {{0}}, {0}, 1},
    {{1000, 100, 10, 1, 100, 10, 0, 1}, {{1000, 1}, {-1000, -1}}, {9, 9, 9, 9, 9, 9, 255, 9}, 1e1},
    {{1000, 100, 10, 1, 100, 0, 10, 1}, {{1000, 1}, {-1000, -1}}, {9, 9, 9, 9, 9, 255, 9, 9}, 1e2},
    {{1000, 100, 10, 1, 0, 100, 10, 1}, {{1000, 1}, {-1000, -1}}, {9, 9, 9, 9, 255, 9, 9, 9}, 1e3},
    {{100, 10, 1, 0, 1000, 100, 10, 1}, {{10000, 1}, {-10000, -1}}, {9, 9, 9, 255, 9, 9, 9, 9}, 1e4},
    {{100, 10, 0, 1, 1000, 100, 10, 1}, {{10000, 1}, {-10000, -1}}, {9, 9, 255, 9, 9, 9, 9, 9}, 1e5},
    {{100, 0, 10, 1, 1000, 100, 10, 1}, {{10000, 1}, {-10000, -1}}, {9, 255, 9, 9, 9, 9, 9, 9}, 1e6},
    {{0, 100, 10, 1, 1000, 100, 10, 1}, {{10000, 1}, {-10000, -1}}, {255, 9, 9, 9, 9, 9, 9, 9}, 1e7},
};

#if defined(__SSE2__)

/* What the last n of the eight bytes count; false when they are more than a number. */
static inline bool csv_fast_weigh(const char *eight, size_t n, bool negative, const struct csv_shape *shape,
                                  double *whole)
{
    static const uint8_t last[16] = {[8] = 255, 255, 255, 255, 255, 255, 255, 255};
    int32_t half;
    memcpy(&half, shape->half[negative], sizeof half);
    __m128i value = _mm_xor_si128(csv_fast_load(eight), _mm_set1_epi8('0'));
    value = _mm_and_si128(value, csv_fast_load(last + n));
    __m128i above = _mm_subs_epu8(value, csv_fast_load(shape->most));
    __m128i weight = _mm_load_si128((const __m128i *)(const void *)shape->weight);
    __m128i pairs = _mm_madd_epi16(_mm_unpacklo_epi8(value, _mm_setzero_si128()), weight);
    __m128i halves = _mm_madd_epi16(_mm_packs_epi32(pairs, pairs), _mm_set1_epi16(1));
    __m128i sum = _mm_madd_epi16(_mm_packs_epi32(halves, halves), _mm_cvtsi32_si128(half));
    *whole = _mm_cvtsd_f64(_mm_cvtepi32_pd(sum));
    return _mm_movemask_epi8(_mm_cmpeq_epi8(above, _mm_setzero_si128())) == 0xffff;
}

#else

static inline bool csv_fast_weigh(const char *eight, size_t n, bool negative, const struct csv_shape *shape,
                                  double *whole)
{
    int32_t halves[2] = {0, 0};
    bool plain = true;
    for (size_t i = 8 - n; i < 8; i++) {
        uint8_t value = (uint8_t)(eight[i] ^ '0');
        plain = plain && value <= shape->most[i];
        halves[i / 4] += value * shape->weight[i];
    }
    *whole = halves[0] * shape->half[negative][0] + halves[1] * shape->half[negative][1];
    return plain;
}

#endif

/* The number from `text` to before `stop`; `first` is the first of its decimal sign and
 * its end. False when it is not plain. */
static inline bool csv_fast_number(const char *text, const char *first, const char *stop, double *x)
{
    bool negative = *text == '-';
    size_t n = (size_t)(stop - text) - negative;
    if (n - 1 >= CSV_FAST_NUMBER) {
        return false;
    }
    const struct csv_shape *shape = &csv_shapes[stop - first];
    double whole;
    bool plain = csv_fast_weigh(stop - 8, n, negative, shape, &whole);
    *x = whole / shape->divisor;
    return plain;
}

#if defined(__SSE2__)

/* Whether the n bytes at a and b are the same; 16 bytes must be readable at both. */
static inline bool csv_fast_same(const char *a, const char *b, size_t n)
{
    if (n > 16) {
        return memcmp(a, b, n) == 0;
    }
    __m128i equal = _mm_cmpeq_epi8(_mm_loadu_si128((const __m128i *)(const void *)a),
                                   _mm_loadu_si128((const __m128i *)(const void *)b));
    return ((unsigned)_mm_movemask_epi8(equal) | ~0u << n) == ~0u;
}

#else

static inline bool csv_fast_same(const char *a, const char *b, size_t n)
{
    return memcmp(a, b, n) == 0;
}

#endif

#endif
