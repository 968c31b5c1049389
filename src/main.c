/* The program's entry: signals, GSL's handler off, dispatch. The locale stays "C", whatever the user's is: files are
 * read by bytes, and in Turkish the small form of TMIN is no tmin. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/table.h"

#include <gsl/gsl_errno.h>
#include <signal.h>
#include <unistd.h>

/* A mapped file whose bytes are gone when they are looked at: there is no going back to the reader. */
static void on_lost_bytes(int number)
{
    static const char text[] = "sugarlea: a file was cut short by another program, or its disk failed, while it was "
                               "read; run it again when the file is whole\n";
    (void)number;
    ssize_t said = write(STDERR_FILENO, text, sizeof text - 1);
    _exit(said < 0 ? ERR_WRITE : ERR_NOINPUT);
}

int main(int argc, char **argv)
{
    signal(SIGPIPE, SIG_IGN);
    signal(SIGBUS, on_lost_bytes);
    gsl_set_error_handler_off();
    return command_main(argc, argv);
}
