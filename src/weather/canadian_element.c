/* Extracts of a Canadian station's record with one variable a file: year, day of the
 * year, value, flag. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/canadian_flag.h"
#include "weather/station_table.h"

#define ELEMENTS 3
static const struct element {
    const char *name;
    enum weather_var var;
} elements[ELEMENTS] = {
    {"MAX_TEMP", WEATHER_TMAX}, {"MIN_TEMP", WEATHER_TMIN}, {"ONE_DAY_PRECIPITATION", WEATHER_RAIN}};

static struct station_table table_of(const struct element *element)
{
    return (struct station_table){
        .all = {"year", "jday", "flags", element->name},
        .names = "year,jday,MAX_TEMP,flags (or MIN_TEMP, ONE_DAY_PRECIPITATION)",
        .why = CANADIAN_FLAG_WHY,
        .alone = true,
    };
}

/* The element that the file holds; the first when it holds none. */
static const struct element *element_of(const struct weather_file *f, bool *found)
{
    struct line l;
    for (size_t i = 0; i < ELEMENTS; i++) {
        struct station_table table = table_of(&elements[i]);
        if (station_table_find(f, &table, &l)) {
            *found = true;
            return &elements[i];
        }
    }
    *found = false;
    return &elements[0];
}

bool canadian_element_is(const struct weather_file *f)
{
    bool found;
    element_of(f, &found);
    return found;
}

enum err_code canadian_element_read(const struct weather_file *f, struct arena *a, struct weather_set *set,
                                    struct err *e)
{
    bool found;
    const struct element *element = element_of(f, &found);
    const struct csv_known known[] = {{"year", ROLE_YEAR, 0, 0, 0, false, NULL},
                                      {"jday", ROLE_DAY_OF_YEAR, 0, 0, 0, false, NULL},
                                      {element->name, ROLE_VALUE, element->var, 0, 0, false, NULL},
                                      {"flags", ROLE_FLAG, element->var, 0, 0, false, canadian_flag}};
    struct station_table table = table_of(element);
    table.known = known;
    table.n_known = sizeof known / sizeof known[0];
    return station_table_read(f, &table, NULL, a, set, e);
}
