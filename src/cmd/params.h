/* sugarlea params. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_PARAMS_H
#define SUGARLEA_CMD_PARAMS_H

#include "base/err.h"

/* Prints every model number on standard output; the program's exit code. */
enum err_code cmd_params(void);

#endif
