/* The grass tests of a paddock, for the review. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/review.h"

#include <math.h>
#include <string.h>

enum { TESTS_MOST = 256 }; /* of one paddock: the latest so many */

struct review_tests review_tests_find(const struct review_view *v, const char *id)
{
    double y[TESTS_MOST], sd[TESTS_MOST], spread = 0.0;
    size_t n = 0;
    for (size_t i = 0; v->tests && i < v->tests->paddocks; i++) {
        const struct tune_paddock *k = &v->tests->paddock[i];
        if (strcmp(k->kept->id, id) != 0) {
            continue;
        }
        spread = k->spread_out;
        for (size_t r = k->rows; r > 0 && n < TESTS_MOST; r--) {
            const struct tune_row *row = &k->row[r - 1];
            if (!row->passed_over && !row->below) { /* a "<" says no distance */
                y[n] = log(row->entry->value / row->modelled);
                sd[n++] = row->sd;
            }
        }
    }
    return review_tests_of(y, sd, n, spread);
}
