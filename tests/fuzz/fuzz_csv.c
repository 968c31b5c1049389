/* Weather tables of every layout. The first byte says which hints go with the file.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz/fuzz_weather.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_weather(data, size);
    return 0;
}
