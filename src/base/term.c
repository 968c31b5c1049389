/* SPDX-License-Identifier: GPL-3.0-or-later
 * What the terminal can show, from isatty and the environment. */
#include "base/term.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

bool term_colour(int fd)
{
    const char *no_colour = getenv("NO_COLOR"), *term = getenv("TERM");
    return isatty(fd) && !(no_colour && no_colour[0]) && term && strcmp(term, "dumb") != 0;
}

int term_width(int fd)
{
    assert(fd >= 0);
    struct winsize w;
    if (ioctl(fd, TIOCGWINSZ, &w) != 0 || w.ws_col == 0) {
        return 80;
    }
    return w.ws_col < 40 ? 40 : w.ws_col > 120 ? 120 : w.ws_col;
}
