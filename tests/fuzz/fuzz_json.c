/* Weather as JSON; what is none is passed over. The first byte says which hints go with
 * the file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz/fuzz_weather.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 2 || (data[1] != '{' && data[1] != '[')) {
        return -1; /* not worth keeping */
    }
    fuzz_weather(data, size);
    return 0;
}
