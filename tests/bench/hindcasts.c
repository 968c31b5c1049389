/* Outlooks into the past over long records:  hindcasts FILE LATITUDE ELEVATION CLASS...
 * The whole record with each outlook's own year left out, then the last LATE years by the
 * years before them alone, which shows a drift. Twice LATE years are needed for that.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hindcast.h"

#include <stdio.h>

enum { LATE = 15 };

int main(int argc, char **argv)
{
    if (argc < 5) {
        fprintf(stderr, "hindcasts: FILE LATITUDE ELEVATION CLASS...\n");
        return 64;
    }
    for (int i = 4; i < argc; i++) {
        struct hindcast_place place = {argv[1], argv[1], argv[2], argv[3], argv[i], 0};
        struct hindcast_score s = hindcast_run(&place);
        hindcast_print(&place, &s);
        place.late = LATE;
        if (s.years >= 2 * LATE) {
            s = hindcast_run(&place);
            hindcast_print(&place, &s);
        }
    }
    return 0;
}
