/* Outlooks into the past over long records:  hindcasts FILE LATITUDE ELEVATION CLASS...
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hindcast.h"

#include <stdio.h>

int main(int argc, char **argv)
{
    if (argc < 5) {
        fprintf(stderr, "hindcasts: FILE LATITUDE ELEVATION CLASS...\n");
        return 64;
    }
    for (int i = 4; i < argc; i++) {
        const struct hindcast_place place = {argv[1], argv[1], argv[2], argv[3], argv[i]};
        struct hindcast_score s = hindcast_run(&place);
        hindcast_print(&place, &s);
    }
    return 0;
}
