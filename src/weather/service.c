/* The table of services. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/service.h"

#include "data/weather_days.h"

#include <stdio.h>
#include <string.h>

#define TEMPERATURE (1u << WEATHER_TMIN | 1u << WEATHER_TMAX)
#define RAIN (1u << WEATHER_RAIN)
#define RADIATION (1u << WEATHER_RAD)

#define OPEN_METEO_DAILY                                                                                               \
    "daily=temperature_2m_max,temperature_2m_min,precipitation_sum,shortwave_radiation_sum,"                           \
    "et0_fao_evapotranspiration&timezone=auto"
#define OPEN_METEO_LIMITS                                                                                              \
    "free for non-commercial use: under 10,000 calls a day, 5,000 an hour, 600 a minute. A vet practice may count as " \
    "commercial: then set a key and its address"

/* min_age_h is our judgement but for met-norway (its Expires, about 30 minutes, counts
 * as well): once an hour for a forecast; records grow once a day.
 * place_km: half a cell's diagonal and the rounding, upwards: reanalysis 0.5 by 0.625
 * degree; Open-Meteo up to 0.25 degree; MET Norway names the asked point (from memory).
 * The key of the reanalysis and of the US services: none is taken (from memory for NWS). */
const struct service services[] = {
    {.name = "nasa-power",
     .brief = "recorded, any place, two or three days late; needs nothing",
     .kind = SERVICE_RECORDED,
     .base = "https://power.larc.nasa.gov",
     .path = "/api/temporal/daily/"
             "point?parameters=T2M_MAX%2CT2M_MIN%2CPRECTOTCORR%2CALLSKY_SFC_SW_DWN%2CRH2M%2CWS2M%2CT2MDEW"
             "&community=ag&start={from8}&end={to8}&longitude={lon}&latitude={lat}&format=json&time-standard=LST",
     .licence = "US public domain", /* seen second-hand */
     .credit = "NASA Langley Research Center POWER Project, funded through the NASA Earth Science Directorate Applied "
               "Science Program",
     .limits = "no number published; about 30 requests a minute", /* seen second-hand, weak */
     .place_km = 60,
     .min_age_h = 6,
     .late_days = 3,     /* seen second-hand: 2 to 3 */
     .late_rad_days = 7, /* seen second-hand: 5 to 7 */
     .needs = TEMPERATURE | RAIN | RADIATION,
     .key_field = ""},
    {.name = "open-meteo-archive",
     .brief = "recorded, any place, five days late; a key for business",
     .kind = SERVICE_RECORDED,
     .base = "https://archive-api.open-meteo.com",
     .path = "/v1/archive?latitude={lat}&longitude={lon}[&elevation={elev}]&start_date={from}&end_date={to}"
             "&" OPEN_METEO_DAILY, /* elevation: from memory */
     .licence = "CC BY 4.0",
     .credit = "Weather data by Open-Meteo.com",
     .limits = OPEN_METEO_LIMITS,
     .place_km = 40,
     .min_age_h = 6,
     .late_days = 5,
     .late_rad_days = 5,
     .needs = TEMPERATURE | RAIN | RADIATION,
     .key_field = "apikey"}, /* from memory */
    {.name = "open-meteo-forecast",
     .brief = "the last three months and 16 days ahead; a key for business",
     .kind = SERVICE_FORECAST,
     .base = "https://api.open-meteo.com",
     /* The day of "current" parts what was from what will be. */
     .path = "/v1/forecast?latitude={lat}&longitude={lon}[&elevation={elev}]&past_days=92&forecast_days=16"
             "&current=temperature_2m&" OPEN_METEO_DAILY,
     .licence = "CC BY 4.0",
     .credit = "Weather data by Open-Meteo.com",
     .limits = OPEN_METEO_LIMITS,
     .place_km = 40,
     .min_age_h = 1,
     .needs = TEMPERATURE | RAIN | RADIATION,
     .key_field = "apikey"},
    {.name = "met-norway",
     .brief = "nine days ahead; wants an e-mail address of yours (README.md, Weather)",
     .kind = SERVICE_FORECAST,
     .base = "https://api.met.no",
     .path = "/weatherapi/locationforecast/2.0/complete?lat={lat}&lon={lon}[&altitude={elev}]",
     .licence = "CC BY 4.0",
     .credit = "Weather data from MET Norway",
     .limits = "20 requests a second for all users together; a name and a contact in each request", /* second-hand */
     .contact = true,
     .place_km = 5,
     .min_age_h = 0.5, /* seen second-hand */
     .late_rad_days = -1,
     .needs = TEMPERATURE | RAIN,
     .key_field = ""},
    {.name = "us-nws",
     .brief = "a week ahead, the United States; needs nothing",
     .kind = SERVICE_FORECAST,
     .base = "https://api.weather.gov",
     .path = "/points/{lat},{lon}",
     .then = "/gridpoints/{grid}",
     .licence = "US public domain", /* from memory */
     .credit = "US National Weather Service",
     .limits = "not published; the United States only", /* seen second-hand */
     .place_km = 20, /* its cells are 2.5 km (from memory); the answer may name the area only */
     .min_age_h = 1,
     .late_rad_days = -1,
     .needs = TEMPERATURE | RAIN,
     .key_field = ""},
    {.name = "ncei-daily",
     .brief = "recorded, one station; the station's id is asked next",
     .kind = SERVICE_RECORDED,
     .base = "https://www.ncei.noaa.gov",
     .path = "/access/services/data/v1?dataset=daily-summaries&stations={station}&startDate={from}&endDate={to}"
             "&dataTypes=TMAX,TMIN,PRCP&format=json&units=metric&includeAttributes=true&includeStationName=true"
             "&includeStationLocation=1",
     .licence = "US public domain",                                   /* from memory */
     .credit = "NOAA National Centers for Environmental Information", /* from memory */
     .limits = "not published; once 5 a second, 10,000 a day",        /* seen second-hand, of the older service */
     .station = true,
     .min_age_h = 6,
     .late_days = 3, /* our judgement */
     .late_rad_days = -1,
     .needs = TEMPERATURE | RAIN,
     .units = "metric",
     .key_field = ""},
};
const size_t service_count = sizeof services / sizeof services[0];

const struct service *service_find(const char *name)
{
    for (size_t i = 0; i < service_count; i++) {
        if (strcmp(services[i].name, name) == 0) {
            return &services[i];
        }
    }
    return NULL;
}

enum err_code service_unknown(const char *name, struct err *e)
{
    const char *names[sizeof services / sizeof services[0]];
    char list[256] = "";
    size_t used = 0;
    for (size_t i = 0; i < service_count; i++) {
        names[i] = services[i].name;
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s", i ? ", " : "", names[i]);
    }
    const char *near = err_did_you_mean(name, names, service_count);
    return err_set(e, ERR_CONFIG, "no weather service is called \"%.63s\"%s%s%s; known are: %s", name,
                   near ? "; did you mean \"" : "", near ? near : "", near ? "\"?" : "", list);
}
