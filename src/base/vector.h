/* A function marked VECTOR is compiled twice where the system can choose at start, plainly
 * and for processors with wider registers (AVX2, without fused multiplication: both give
 * the same bits). SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_VECTOR_H
#define SUGARLEA_VECTOR_H

#include <stdint.h> /* for __GLIBC__ */

#if defined(__x86_64__) && defined(__GLIBC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define VECTOR __attribute__((target_clones("avx2", "default")))
#else
#define VECTOR
#endif

#endif
