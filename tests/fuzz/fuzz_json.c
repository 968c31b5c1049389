/* Weather as JSON; what the reader would not take for JSON is passed over: the tables have a
 * target of their own. The first byte says which hints go with the file.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz/fuzz_weather.h"

#include <stdbool.h>

/* An object, or an array of such, from its first sign on. */
static bool opens_json(const char *text, size_t size)
{
    return size >= 2 && (text[0] == '{' || (text[0] == '[' && memchr("{[]", text[1], 3)));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 1 || !opens_json((const char *)data + 1, size - 1)) {
        return -1; /* not worth keeping */
    }
    fuzz_weather(data, size);
    return 0;
}
