/* Where the weather comes from: a file that is looked at once, services by name.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "setup/question.h"
#include "weather/service.h"
#include "weather/sources.h"

#include <libgen.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

static const char none[] = "none", usual_file[] = "weather.csv", usual_services[] = "nasa-power,open-meteo-forecast";

/* Entries of the weather that have the key. */
static size_t count_with(const struct setup *s, const char *key)
{
    const cJSON *item;
    size_t n = 0;
    cJSON_ArrayForEach(item, json_get(s->now.root, "weather"))
    {
        n += json_get(item, key) != NULL;
    }
    return n;
}

static void remove_with(struct setup *s, const char *key)
{
    cJSON *list = tree_section(s, "weather", true);
    for (int i = cJSON_GetArraySize(list); i-- > 0;) {
        if (json_get(cJSON_GetArrayItem(list, i), key)) {
            cJSON_DeleteItemFromArray(list, i);
        }
    }
}

/* `name` as it lies in the folder of the holding file. */
static void beside(const struct setup *s, const char *name, char path[LIMIT_PATH])
{
    char folder[LIMIT_PATH];
    snprintf(folder, sizeof folder, "%s", s->path);
    snprintf(path, LIMIT_PATH, "%.2000s/%.2000s", dirname(folder), name);
}

static bool file_offer(struct setup *s, char text[ANSWER])
{
    char path[LIMIT_PATH];
    beside(s, usual_file, path);
    bool there = access(path, R_OK) == 0 && !s->job->no_input;
    snprintf(text, ANSWER, "%s", count_with(s, "file") ? AS_IT_IS : there ? usual_file : none);
    return true;
}

/* The name without the quotes and blanks that a terminal adds to a dragged file, ~ as the home. */
static void clean_name(const char *answer, char name[ANSWER])
{
    size_t n = strlen(answer);
    const char *home = getenv("HOME");
    bool quoted = n > 1 && (answer[0] == '\'' || answer[0] == '"') && answer[n - 1] == answer[0];
    if (quoted) {
        snprintf(name, ANSWER, "%.*s", (int)n - 2, answer + 1);
    } else if (strncmp(answer, "~/", 2) == 0 && home) {
        snprintf(name, ANSWER, "%s%s", home, answer + 1);
    } else {
        snprintf(name, ANSWER, "%s", answer);
    }
    for (char *c = quoted ? NULL : strstr(name, "\\ "); c; c = strstr(c, "\\ ")) {
        memmove(c, c + 1, strlen(c));
    }
}

/* The file without the folder of the holding in front, where it lies in there; else whole. A
 * link keeps its own name. */
static void shorten(const struct setup *s, char name[ANSWER])
{
    char path[LIMIT_PATH], there[ANSWER], last[ANSWER];
    beside(s, ".", path);
    snprintf(there, sizeof there, "%s", name);
    snprintf(last, sizeof last, "%s", name);
    char *folder = realpath(path, NULL), *whole = realpath(dirname(there), NULL);
    size_t n = folder ? strlen(folder) : 0;
    if (folder && whole) {
        bool inside = strncmp(whole, folder, n) == 0 && (whole[n] == '/' || whole[n] == 0);
        const char *rest = inside ? whole + n + (whole[n] == '/') : whole;
        snprintf(name, ANSWER, "%.700s%s%.300s", rest, rest[0] ? "/" : "", basename(last));
    }
    free(folder);
    free(whole);
}

/* As the holding file has to name it: a name beside it counts first, then one from here. */
static void name_for_holding(const struct setup *s, const char *answer, char name[ANSWER])
{
    char path[LIMIT_PATH];
    clean_name(answer, name);
    beside(s, name, path);
    if (name[0] == '/' || (access(path, R_OK) != 0 && access(name, R_OK) == 0)) {
        shorten(s, name);
    }
}

static bool file_there(const struct setup *s, const char *name)
{
    char path[LIMIT_PATH];
    beside(s, name, path);
    return access(name[0] == '/' ? name : path, F_OK) == 0;
}

/* The same reading as every morning's. Before the place is known a file of many places can
 * only be recognised. */
static enum err_code read_file(struct setup *s, const char *name, struct weather_days *days, struct sources *read,
                               bool *many, struct err *e)
{
    struct weather_source source = {0};
    struct holding h = {
        .site = {.latitude = NAN, .longitude = NAN, .elevation_m = NAN}, .sources = 1, .source = &source};
    const struct sources_ask ask = {.offline = true};
    snprintf(source.file, sizeof source.file, "%s", name);
    snprintf(h.path, sizeof h.path, "%s", s->path);
    clock_system_zone(h.site.timezone, sizeof h.site.timezone);
    enum err_code code = sources_read(&ask, &h, &s->p->limits, s->job->arena, days, read, e);
    if (code == ERR_DATA) {
        char path[LIMIT_PATH];
        struct weather_set set;
        struct err why = {0};
        beside(s, name, path);
        *many = weather_read(name[0] == '/' ? name : path, NULL, s->job->arena, &set, &why) == ERR_OK && set.n > 1;
    }
    return *many ? ERR_OK : code;
}

/* What an advice cannot do without. */
static enum err_code check_columns(const struct weather_days *days, const struct source_read *one, struct err *e)
{
    static const struct {
        enum weather_var var;
        const char *name, *column;
    } needed[] = {{WEATHER_TMIN, "lowest temperatures", "tmin_c"},
                  {WEATHER_TMAX, "highest temperatures", "tmax_c"},
                  {WEATHER_RAIN, "rain", "rain_mm"}};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (weather_days_recorded_to(days, needed[i].var) == DATE_NONE) {
            return err_set(e, ERR_DATA,
                           "no column with the %s of past days was found%s%s: name it %s in the first line of the "
                           "file (\"?\" says what else is wanted)",
                           needed[i].name, one->ignored[0] ? "; not understood: " : "", one->ignored, needed[i].column);
        }
    }
    return ERR_OK;
}

static void tell(struct setup *s, const struct weather_days *days, const struct source_read *one)
{
    const struct advice_limits *l = &s->p->limits;
    date_t last = weather_days_recorded_to(days, WEATHER_TMAX);
    long old = clock_today("") - 1 - last;
    char from[DATE_TEXT], to[DATE_TEXT];
    bool sun = weather_days_recorded_to(days, WEATHER_RAD) != DATE_NONE;
    setup_say(s, "Read as %s: %zu days, %s to %s, %zu with something missing.%s", one->layout, days->n,
              date_format(days->day0, from), date_format(last, to), one->missing_days,
              sun ? "" : " It does not say how much sun there was: that is estimated from the temperatures.");
    if (one->note[0]) {
        setup_say(s, "%s.", one->note);
    }
    if (last - days->day0 + 1 < l->min_days) {
        setup_say(s, "That is less than the %.0f days that are wanted before a morning: the advice will be less sure.",
                  l->min_days);
    }
    s->now.facts.stale = old > (long)l->stale_refuse_days;
    if (s->now.facts.stale) {
        setup_say(
            s,
            "Its last day is %ld days ago, and no advice is given on weather more than %.0f days old: bring it up "
            "to date, or add services below.",
            old + 1, l->stale_refuse_days);
    } else {
        setup_say(
            s, "Bring it up to date at least once in %.0f days, or name services (%s): older weather gives no advice.",
            l->stale_refuse_days, s->job->brief ? "by \"sugarlea setup\"" : "below");
    }
}

static enum err_code take_name(struct setup *s, const char *name, struct err *e)
{
    struct weather_days days;
    struct sources read;
    bool many = false;
    if (strcmp(name, "-") == 0) {
        return err_set(e, ERR_USAGE, "a holding needs a file with a name");
    }
    enum err_code code = read_file(s, name, &days, &read, &many, e);
    if (code == ERR_NOINPUT && !file_there(s, name)) {
        return err_set(
            e, ERR_NOINPUT,
            "there is no file \"%.80s\" here: copy it into the folder of the holding file, or type all of its "
            "path, such as ~/Downloads/weather.csv",
            name);
    }
    if (code == ERR_OK && many) {
        setup_say(s, "It holds the weather of several places: the nearest to yours is taken.");
        return ERR_OK;
    }
    code = code == ERR_OK ? check_columns(&days, &read.source[0], e) : code;
    code = code == ERR_OK ? clock_enter("", e) : code;
    if (code == ERR_OK) {
        tell(s, &days, &read.source[0]);
        s->now.facts.place = read.source[0].place;
        s->now.facts.site_in_file = !isnan(s->now.facts.place.latitude);
    }
    return code;
}

static enum err_code file_take(struct setup *s, const char *answer, struct err *e)
{
    char name[ANSWER];
    if (strcmp(answer, AS_IT_IS) == 0 && count_with(s, "file")) {
        return ERR_OK;
    }
    bool leave = strcasecmp(answer, none) == 0;
    name_for_holding(s, answer, name);
    enum err_code code = leave ? ERR_OK : take_name(s, name, e);
    if (code != ERR_OK) {
        return code;
    }
    remove_with(s, "file");
    if (!leave) {
        cJSON *entry = tree_object(s);
        tree_text(s, entry, "file", name);
        if (!cJSON_InsertItemInArray(tree_section(s, "weather", true), 0, entry)) {
            s->failed = true;
            cJSON_Delete(entry);
        }
    }
    return ERR_OK;
}

const struct question file_rows[] = {
    {.title = "Weather file",
     .key = true,
     .ask = "The name of a file with the daily weather of your place, or \"none\": services come later.",
     .more =
         "A file that a weather service gave you, or a table of your own with date, lowest and highest temperature and "
         "rain of each day. It is known by its content. \"weather/*.csv\" takes all of a folder. Three hundred days "
         "up to yesterday are wanted. It is read at once, to see whether it will do.",
     .option = "weather",
     .offer = file_offer,
     .take = file_take}};

static void services_choices(const struct setup *s, struct choices *c)
{
    (void)s;
    c->several = true;
    choice_add(c, none, "ask nobody");
    for (size_t i = 0; i < service_count; i++) {
        choice_add(c, services[i].name, services[i].brief);
    }
}

/* A file that will do this morning. */
static bool services_spare(const struct setup *s)
{
    return count_with(s, "file") && !s->now.facts.stale;
}

static bool services_offer(struct setup *s, char text[ANSWER])
{
    bool wanted = is_asked(s) && (!count_with(s, "file") || s->now.facts.stale);
    snprintf(text, ANSWER, "%s", count_with(s, "service") ? AS_IT_IS : wanted ? usual_services : none);
    return true;
}

static enum err_code services_take(struct setup *s, const char *answer, struct err *e)
{
    char copy[ANSWER], *rest = NULL;
    bool recorded = count_with(s, "file") > 0, nobody = strcmp(answer, none) == 0;
    if (strcmp(answer, AS_IT_IS) == 0) {
        return ERR_OK;
    }
    remove_with(s, "service");
    snprintf(copy, sizeof copy, "%s", nobody ? "" : answer);
    for (char *one = strtok_r(copy, ",", &rest); one; one = strtok_r(NULL, ",", &rest)) {
        const struct service *service = service_find(one);
        if (!service) {
            return err_set(e, ERR_USAGE, "\"none\" and a service do not go together");
        }
        cJSON *entry = tree_object(s);
        tree_text(s, entry, "service", service->name);
        tree_push(s, tree_section(s, "weather", true), entry);
        recorded = recorded || service->kind == SERVICE_RECORDED;
        setup_say(s, "%s: %s; %s.", service->name, service->licence, service->limits);
    }
    if (!recorded && !nobody) {
        return err_set(e, ERR_USAGE,
                       "a forecast alone will not do, since grass remembers months: add a recorded service");
    }
    if (!recorded) {
        cJSON_DeleteItemFromObjectCaseSensitive(s->now.root, "weather");
        setup_say(s,
                  "Without weather there is no advice yet; \"weather\" in the holding file takes a file or services.");
    }
    return ERR_OK;
}

static cJSON *station_entry(const struct setup *s)
{
    cJSON *item;
    cJSON_ArrayForEach(item, cJSON_GetObjectItemCaseSensitive(s->now.root, "weather"))
    {
        const struct service *service = service_find(tree_string(item, "service"));
        if (service && service->station) {
            return item;
        }
    }
    return NULL;
}

static bool station_applies(const struct setup *s)
{
    return station_entry(s) != NULL;
}

static bool station_offer(struct setup *s, char text[ANSWER])
{
    const char *old = tree_string(station_entry(s), "station");
    snprintf(text, ANSWER, "%s", old);
    return old[0] != 0;
}

static enum err_code station_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    tree_text(s, station_entry(s), "station", answer);
    return ERR_OK;
}

const struct question service_rows[] = {
    {.title = "Weather services",
     .key = true,
     .spare = services_spare,
     .ask =
         "Which shall be asked each morning? Latitude and longitude leave this machine, rounded to about a kilometre, "
         "and nothing else does. Several may be named: 2, 4.",
     .more =
         "One that records and one that forecasts go well together, with a file or without. They are asked over the "
         "network when an advice is made; the last answer is kept. Business use, a vet practice too, may need a "
         "key: README.md says where it goes. After a record, a forecast that also holds the last months closes the "
         "days until today.",
     .option = "service",
     .choices = services_choices,
     .offer = services_offer,
     .take = services_take},
    {.title = "Weather station",
     .key = true,
     .ask = "The id of the station, such as USW00093820.",
     .more = "Eleven letters and digits, on the page of the station in the catalogue of the service.",
     .applies = station_applies,
     .offer = station_offer,
     .take = station_take},
};
