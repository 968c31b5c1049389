/* Services among the sources of a holding: all asked at once, then read from what is
 * kept. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_SOURCES_SERVICE_H
#define SUGARLEA_WEATHER_SOURCES_SERVICE_H

#include "weather/fetch.h"
#include "weather/sources.h"

struct service_source {
    const struct weather_source *source; /* of the holding */
    struct fetch_request request;
    struct fetch_outcome outcome;
};

/* The services of the holding, in its order, asked anew where that is due unless
 * ask->offline. What goes wrong outside stands in each outcome and is no error.
 * ERR_CONFIG (an entry of the holding is wrong), ERR_NOINPUT (no place), ERR_NOMEM. */
enum err_code service_sources_ask(const struct sources_ask *ask, const struct holding *h, struct arena *a,
                                  struct service_source **list, size_t *n, struct err *e);

#endif
