/* The program's entry: locale, signals, GSL's handler off, dispatch.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/table.h"

#include <gsl/gsl_errno.h>
#include <locale.h>
#include <signal.h>

int main(int argc, char **argv)
{
    setlocale(LC_CTYPE, ""); /* numbers stay those of the C locale */
    signal(SIGPIPE, SIG_IGN);
    gsl_set_error_handler_off();
    return command_main(argc, argv);
}
