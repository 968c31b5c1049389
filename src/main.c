/* The program's entry: signals, dispatch. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/params.h"

#include <gsl/gsl_errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

static const char usage[] = "sugarlea: grass growth and sugar from daily weather, for animals prone to laminitis\n"
                            "  sugarlea params      every number of the model with unit, range and source\n"
                            "  sugarlea --version\n"
                            "Planning help, not a diagnosis: local rules and your vet come first.\n";

int main(int argc, char **argv)
{
    signal(SIGPIPE, SIG_IGN);
    gsl_set_error_handler_off();
    if (argc == 2 && strcmp(argv[1], "--version") == 0) {
        return printf("sugarlea %s\n", SUGARLEA_VERSION) < 0 ? ERR_WRITE : ERR_OK;
    }
    if (argc == 2 && strcmp(argv[1], "params") == 0) {
        return cmd_params();
    }
    fputs(usage, argc > 1 && strcmp(argv[1], "help") != 0 ? stderr : stdout);
    return argc > 1 && strcmp(argv[1], "help") != 0 ? ERR_USAGE : ERR_OK;
}
