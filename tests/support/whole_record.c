/* A whole record run through a grazed sward. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/whole_record.h"

#include "base/date.h"
#include "support/sward_support.h"

#define COVER 1800 /* kg DM/ha */

struct whole_record whole_record_run(const struct daily *d, double latitude)
{
    const struct sward_place place = {.latitude = latitude};
    struct whole_record out = {0};
    struct sward s = support_ryegrass();
    size_t count[12] = {0};
    for (size_t i = 0; i < d->n; i++) {
        struct sward_day day;
        struct sward_result r;
        int month = date_split(d->day[i].date).month - 1;
        sward_day_make(&day, &d->day[i], &place);
        sward_step(&s, &day, &r);
        sward_graze_to_cover(&s, COVER);
        if (i >= 365) {
            out.nsc[month] += r.nsc_mean;
            out.growth[month] += r.growth;
            count[month]++;
            out.days++;
        }
    }
    for (int m = 0; m < 12; m++) {
        out.nsc[m] /= count[m] ? (double)count[m] : 1;
        out.growth[m] /= count[m] ? (double)count[m] : 1;
    }
    return out;
}
