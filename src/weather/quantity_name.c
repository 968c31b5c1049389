/* Column names of the world's weather tables.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quantity.h"

#include <ctype.h>
#include <string.h>

#define NAME_MOST 64

/* Names as name_key() makes them. Weak names give way to another of the same role. */
static const struct name_row {
    const char *key;
    enum column_role role;
    enum weather_var var;
    bool weak;
} name_rows[] = {
    {"date", ROLE_DATE, 0, false},
    {"dates", ROLE_DATE, 0, false},
    {"yyyymmdd", ROLE_DATE, 0, false},
    {"yyyy_mm_dd", ROLE_DATE, 0, false},
    {"obs_date", ROLE_DATE, 0, false},
    {"datum", ROLE_DATE, 0, false},
    {"fecha", ROLE_DATE, 0, false},
    {"data", ROLE_DATE, 0, true},
    {"date_time", ROLE_DATE, 0, true},
    {"datetime", ROLE_DATE, 0, true},
    {"time", ROLE_DATE, 0, true},
    {"timestamp", ROLE_DATE, 0, true},
    {"day_date", ROLE_DATE, 0, true},
    {"year", ROLE_YEAR, 0, false},
    {"yyyy", ROLE_YEAR, 0, false},
    {"yr", ROLE_YEAR, 0, false},
    {"weyr", ROLE_YEAR, 0, false},
    {"month", ROLE_MONTH, 0, false},
    {"mo", ROLE_MONTH, 0, false},
    {"mon", ROLE_MONTH, 0, false},
    {"mm", ROLE_MONTH, 0, true},
    {"day", ROLE_DAY, 0, false},
    {"dy", ROLE_DAY, 0, false},
    {"dd", ROLE_DAY, 0, false},
    {"doy", ROLE_DAY_OF_YEAR, 0, false},
    {"jday", ROLE_DAY_OF_YEAR, 0, false},
    {"yday", ROLE_DAY_OF_YEAR, 0, false},
    {"weday", ROLE_DAY_OF_YEAR, 0, false},
    {"day_of_year", ROLE_DAY_OF_YEAR, 0, false},
    {"dayofyear", ROLE_DAY_OF_YEAR, 0, false},
    {"julian_day", ROLE_DAY_OF_YEAR, 0, false},
    {"site", ROLE_SITE, 0, false},
    {"station", ROLE_SITE, 0, false},
    {"site_id", ROLE_SITE, 0, true},
    {"idsite", ROLE_SITE, 0, true},
    {"station_id", ROLE_SITE, 0, true},
    {"station_name", ROLE_SITE, 0, true},
    {"location", ROLE_SITE, 0, true},
    {"farm", ROLE_SITE, 0, true},
    {"lat", ROLE_LATITUDE, 0, false},
    {"latitude", ROLE_LATITUDE, 0, false},
    {"gpslatitude", ROLE_LATITUDE, 0, true},
    {"lon", ROLE_LONGITUDE, 0, false},
    {"long", ROLE_LONGITUDE, 0, false},
    {"longitude", ROLE_LONGITUDE, 0, false},
    {"gpslongitude", ROLE_LONGITUDE, 0, true},
    {"elevation", ROLE_ELEVATION, 0, false},
    {"elevation_m", ROLE_ELEVATION, 0, false},
    {"altitude", ROLE_ELEVATION, 0, true},
    {"tmin", ROLE_VALUE, WEATHER_TMIN, false},
    {"t_min", ROLE_VALUE, WEATHER_TMIN, false},
    {"tn", ROLE_VALUE, WEATHER_TMIN, false},
    {"tempmin", ROLE_VALUE, WEATHER_TMIN, false},
    {"temp_min", ROLE_VALUE, WEATHER_TMIN, false},
    {"min_temp", ROLE_VALUE, WEATHER_TMIN, false},
    {"mintemp", ROLE_VALUE, WEATHER_TMIN, false},
    {"minimum_temperature", ROLE_VALUE, WEATHER_TMIN, false},
    {"min_temperature", ROLE_VALUE, WEATHER_TMIN, false},
    {"temperature_min", ROLE_VALUE, WEATHER_TMIN, false},
    {"temperature_minimum", ROLE_VALUE, WEATHER_TMIN, false},
    {"air_temperature_min", ROLE_VALUE, WEATHER_TMIN, false},
    {"mint", ROLE_VALUE, WEATHER_TMIN, false},
    {"tlmin", ROLE_VALUE, WEATHER_TMIN, false},
    {"low_temp", ROLE_VALUE, WEATHER_TMIN, false},
    {"temp_low", ROLE_VALUE, WEATHER_TMIN, false},
    {"low", ROLE_VALUE, WEATHER_TMIN, true},
    {"lowest", ROLE_VALUE, WEATHER_TMIN, true},
    {"min", ROLE_VALUE, WEATHER_TMIN, true},
    {"minimum", ROLE_VALUE, WEATHER_TMIN, true},
    {"tmax", ROLE_VALUE, WEATHER_TMAX, false},
    {"t_max", ROLE_VALUE, WEATHER_TMAX, false},
    {"tx", ROLE_VALUE, WEATHER_TMAX, false},
    {"tempmax", ROLE_VALUE, WEATHER_TMAX, false},
    {"temp_max", ROLE_VALUE, WEATHER_TMAX, false},
    {"max_temp", ROLE_VALUE, WEATHER_TMAX, false},
    {"maxtemp", ROLE_VALUE, WEATHER_TMAX, false},
    {"maximum_temperature", ROLE_VALUE, WEATHER_TMAX, false},
    {"max_temperature", ROLE_VALUE, WEATHER_TMAX, false},
    {"temperature_max", ROLE_VALUE, WEATHER_TMAX, false},
    {"temperature_maximum", ROLE_VALUE, WEATHER_TMAX, false},
    {"air_temperature_max", ROLE_VALUE, WEATHER_TMAX, false},
    {"maxt", ROLE_VALUE, WEATHER_TMAX, false},
    {"tlmax", ROLE_VALUE, WEATHER_TMAX, false},
    {"high_temp", ROLE_VALUE, WEATHER_TMAX, false},
    {"temp_high", ROLE_VALUE, WEATHER_TMAX, false},
    {"high", ROLE_VALUE, WEATHER_TMAX, true},
    {"highest", ROLE_VALUE, WEATHER_TMAX, true},
    {"max", ROLE_VALUE, WEATHER_TMAX, true},
    {"maximum", ROLE_VALUE, WEATHER_TMAX, true},
    {"rain", ROLE_VALUE, WEATHER_RAIN, false},
    {"rainfall", ROLE_VALUE, WEATHER_RAIN, false},
    {"daily_rain", ROLE_VALUE, WEATHER_RAIN, false},
    {"prcp", ROLE_VALUE, WEATHER_RAIN, false},
    {"precip", ROLE_VALUE, WEATHER_RAIN, false},
    {"precipitation", ROLE_VALUE, WEATHER_RAIN, false},
    {"precipitation_sum", ROLE_VALUE, WEATHER_RAIN, false},
    {"ppt", ROLE_VALUE, WEATHER_RAIN, false},
    {"total_precip", ROLE_VALUE, WEATHER_RAIN, false},
    {"prectot", ROLE_VALUE, WEATHER_RAIN, true},
    {"prectotcorr", ROLE_VALUE, WEATHER_RAIN, false},
    {"rain_sum", ROLE_VALUE, WEATHER_RAIN, true}, /* without snow and showers: the sum of all wins */
    {"niederschlag", ROLE_VALUE, WEATHER_RAIN, false},
    {"pluie", ROLE_VALUE, WEATHER_RAIN, false},
    {"lluvia", ROLE_VALUE, WEATHER_RAIN, false},
    {"neerslag", ROLE_VALUE, WEATHER_RAIN, false},
    {"rad", ROLE_VALUE, WEATHER_RAD, false},
    {"radn", ROLE_VALUE, WEATHER_RAD, false},
    {"srad", ROLE_VALUE, WEATHER_RAD, false},
    {"solar", ROLE_VALUE, WEATHER_RAD, false},
    {"radiation", ROLE_VALUE, WEATHER_RAD, false},
    {"solar_rad", ROLE_VALUE, WEATHER_RAD, false},
    {"solar_radiation", ROLE_VALUE, WEATHER_RAD, false},
    {"global_radiation", ROLE_VALUE, WEATHER_RAD, false},
    {"globalstrahlung", ROLE_VALUE, WEATHER_RAD, false},
    {"strahl", ROLE_VALUE, WEATHER_RAD, false},
    {"shortwave_radiation", ROLE_VALUE, WEATHER_RAD, false},
    {"shortwave_radiation_sum", ROLE_VALUE, WEATHER_RAD, false},
    {"allsky_sfc_sw_dwn", ROLE_VALUE, WEATHER_RAD, false},
    {"rh", ROLE_VALUE, WEATHER_RH, false},
    {"rel", ROLE_VALUE, WEATHER_RH, true},
    {"rhmean", ROLE_VALUE, WEATHER_RH, false},
    {"rh_mean", ROLE_VALUE, WEATHER_RH, false},
    {"humidity", ROLE_VALUE, WEATHER_RH, false},
    {"relative_humidity", ROLE_VALUE, WEATHER_RH, false},
    {"relative_humidity_mean", ROLE_VALUE, WEATHER_RH, false},
    {"relativehumidity_mean", ROLE_VALUE, WEATHER_RH, false},
    {"wind", ROLE_VALUE, WEATHER_WIND, false},
    {"ws", ROLE_VALUE, WEATHER_WIND, false},
    {"u2", ROLE_VALUE, WEATHER_WIND, true},
    {"windspeed", ROLE_VALUE, WEATHER_WIND, false},
    {"windspeed_mean", ROLE_VALUE, WEATHER_WIND, false},
    {"wind_speed", ROLE_VALUE, WEATHER_WIND, false},
    {"wind_speed_mean", ROLE_VALUE, WEATHER_WIND, false},
    {"mean_wind_speed", ROLE_VALUE, WEATHER_WIND, false},
    {"t2mdew", ROLE_VALUE, WEATHER_TDEW, false},
    {"tdew", ROLE_VALUE, WEATHER_TDEW, false},
    {"tdmean", ROLE_VALUE, WEATHER_TDEW, false},
    {"dew_point", ROLE_VALUE, WEATHER_TDEW, false},
    {"dewpoint", ROLE_VALUE, WEATHER_TDEW, false},
    {"dew_point_mean", ROLE_VALUE, WEATHER_TDEW, false},
    {"dewpoint_mean", ROLE_VALUE, WEATHER_TDEW, false},
    {"et0", ROLE_VALUE, WEATHER_ET0, false},
    {"eto", ROLE_VALUE, WEATHER_ET0, false},
    {"et0_fao_evapotranspiration", ROLE_VALUE, WEATHER_ET0, false},
};

/* Names of one service, whose unit needs no saying. */
static const struct implied_unit {
    const char *key, *unit;
} implied_units[] = {
    {"strahl", "J/cm2"}, /* the Austrian weather service */
};

static const struct name_row *find_row(const char *key, size_t n)
{
    for (size_t i = 0; i < sizeof name_rows / sizeof name_rows[0]; i++) {
        const char *known = name_rows[i].key;
        if (known[0] == key[0] && strncmp(known, key, n) == 0 && !known[n]) {
            return &name_rows[i];
        }
    }
    return NULL;
}

/* Lower case; every run of other signs is one underscore, none at the ends. */
static size_t name_key(const char *text, size_t n, char *key)
{
    size_t length = 0;
    for (size_t i = 0; i < n && length < NAME_MOST - 2; i++) {
        unsigned char c = (unsigned char)text[i];
        if (c == 0xb2) {
            key[length++] = '2';
        } else if (c < 0x80 && isalnum(c)) {
            key[length++] = (char)tolower(c);
        } else if (length && key[length - 1] != '_') {
            key[length++] = '_';
        }
    }
    length -= length && key[length - 1] == '_';
    key[length] = 0;
    return length;
}

/* Takes "2m" or "_10_m" (what) out of key where a word ends behind it. */
static bool cut_height(char *key, const char *what)
{
    char *at = strstr(key, what);
    char *after = at ? at + strlen(what) : NULL;
    if (!at || (*after && *after != '_') || (at > key && isdigit((unsigned char)at[-1]))) {
        return false;
    }
    memmove(at, after, strlen(after) + 1);
    size_t n = strlen(key);
    if (n && key[n - 1] == '_') {
        key[n - 1] = 0;
    }
    char *twin = strstr(key, "__");
    if (twin) {
        memmove(twin, twin + 1, strlen(twin));
    }
    return true;
}

/* The row of key, or of its front when the rest is a unit of that row's variable. */
static const struct name_row *find_with_suffix(const char *key, struct quantity_name *name)
{
    size_t n = strlen(key);
    const struct name_row *row = find_row(key, n);
    for (size_t cut = n; !row && cut-- > 1;) {
        const struct name_row *front = key[cut] == '_' ? find_row(key, cut) : NULL;
        if (front && front->role == ROLE_VALUE &&
            quantity_unit_of(front->var, key + cut + 1, n - cut - 1, &name->unit)) {
            name->stated = true;
            row = front;
        }
    }
    return row;
}

/* The text between the last pair of brackets; *n shrinks to what is before it. */
static const char *take_brackets(const char *text, size_t *n, size_t *unit_n)
{
    for (size_t i = *n; i-- > 1;) {
        if (text[i] == '(' || text[i] == '[') {
            const char *close = memchr(text + i, text[i] == '(' ? ')' : ']', *n - i);
            *unit_n = (close ? (size_t)(close - text) : *n) - i - 1;
            *n = i;
            return text + i + 1;
        }
    }
    return NULL;
}

static bool is_height(const char *text, size_t n)
{
    char key[NAME_MOST] = "";
    name_key(text, n, key);
    return strcmp(key, "10m") == 0 || strcmp(key, "10_m") == 0 || strcmp(key, "2m") == 0 || strcmp(key, "2_m") == 0;
}

static void use_bracket_unit(struct quantity_name *name, const char *unit, size_t n)
{
    if (quantity_unit_of(name->var, unit, n, &name->unit)) {
        name->stated = true;
        return;
    }
    n = n < sizeof name->bad_unit - 1 ? n : sizeof name->bad_unit - 1;
    memcpy(name->bad_unit, unit, n);
    name->bad_unit[n] = 0;
}

static void use_implied_unit(struct quantity_name *name, const char *key)
{
    for (size_t i = 0; i < sizeof implied_units / sizeof implied_units[0]; i++) {
        if (strcmp(implied_units[i].key, key) == 0) {
            const char *unit = implied_units[i].unit;
            name->stated = quantity_unit_of(name->var, unit, strlen(unit), &name->unit);
        }
    }
}

/* The row of a key in which a height above ground may stand; *tall: it is 10 m. */
static const struct name_row *find_at_height(char *key, struct quantity_name *name, bool *tall)
{
    const struct name_row *row = find_with_suffix(key, name);
    *tall = false;
    if (row) {
        return row;
    }
    *tall = cut_height(key, "_10_m") || cut_height(key, "10m");
    if (!*tall && !cut_height(key, "_2_m")) {
        cut_height(key, "2m");
    }
    row = find_with_suffix(key, name);
    return *tall && row && (row->role != ROLE_VALUE || row->var != WEATHER_WIND) ? NULL : row;
}

struct quantity_name quantity_of_name(const char *text, size_t n)
{
    struct quantity_name name = {.unit = {1, 0}};
    char key[NAME_MOST] = "";
    size_t unit_n = 0;
    bool tall;
    const char *unit = take_brackets(text, &n, &unit_n);
    bool height = unit && is_height(unit, unit_n); /* "wind speed (10 m)" */
    name_key(text, height ? n + unit_n + 1 : n, key);
    const struct name_row *row = find_at_height(key, &name, &tall);
    if (!row) {
        return (struct quantity_name){.role = ROLE_IGNORE};
    }
    name.role = row->role;
    name.var = row->var;
    name.weak = row->weak || tall; /* wind at 2 m is wanted where both stand */
    if (row->role == ROLE_VALUE && unit && unit_n && !height) {
        use_bracket_unit(&name, unit, unit_n);
    }
    if (!name.stated && !name.bad_unit[0]) {
        use_implied_unit(&name, row->key);
    }
    name.unit.scale *= tall ? WIND_10M_TO_2M : 1;
    return name;
}
