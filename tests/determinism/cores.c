/* Loaded before the C library: the machine has as many processors as CORES says.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <dlfcn.h>
#include <stdlib.h>
#include <unistd.h>

long sysconf(int name)
{
    const char *cores = getenv("CORES");
    if (name == _SC_NPROCESSORS_ONLN && cores) {
        return strtol(cores, NULL, 10);
    }
    long (*real)(int) = (long (*)(int))dlsym(RTLD_NEXT, "sysconf");
    return real(name);
}
