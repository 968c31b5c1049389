/* Reading measured records for the physics tests. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/physics_record.h"

#include "base/num.h"
#include "physics/et0.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#define LINE 256
#define MISSING ((double)NAN)

static const struct {
    const char *name;
    enum weather_var var;
} weather_columns[] = {{"tmin", WEATHER_TMIN}, {"tmax", WEATHER_TMAX}, {"rain", WEATHER_RAIN},
                       {"rad", WEATHER_RAD},   {"rh", WEATHER_RH},     {"wind", WEATHER_WIND}};

/* The next comma-separated cell of *rest, closed with 0; NULL at the end. */
static char *next_cell(char **rest)
{
    char *cell = *rest;
    if (cell) {
        *rest = strchr(cell, ',');
        if (*rest) {
            *(*rest)++ = '\0';
        }
    }
    return cell;
}

static void read_header(char *line, struct physics_record *r)
{
    char *rest = line, *cell = next_cell(&rest);
    assert_string_equal(cell, "date");
    for (size_t i = 0; (cell = next_cell(&rest)) != NULL; i++) {
        assert_true(i < PHYSICS_RECORD_COLUMNS);
        snprintf(r->name[i], sizeof r->name[i], "%s", cell);
    }
}

static void read_row(char *line, struct physics_record *r)
{
    size_t day = r->weather.n++;
    assert_true(day < PHYSICS_RECORD_DAYS);
    char *rest = line, *cell = next_cell(&rest);
    date_t date = date_parse_iso(cell, strlen(cell));
    r->weather.day0 = day == 0 ? date : r->weather.day0;
    assert_int_equal(date, r->weather.day0 + (date_t)day);
    for (size_t i = 0; (cell = next_cell(&rest)) != NULL; i++) {
        double x = MISSING;
        assert_true(*cell == '\0' || num_parse(cell, strlen(cell), '.', &x));
        r->column[i][day] = x;
    }
}

static void point_weather(struct physics_record *r)
{
    for (size_t k = 0; k < sizeof weather_columns / sizeof weather_columns[0]; k++) {
        for (size_t i = 0; i < PHYSICS_RECORD_COLUMNS; i++) {
            if (strcmp(r->name[i], weather_columns[k].name) == 0) {
                r->weather.col[weather_columns[k].var] = r->column[i];
            }
        }
    }
    for (size_t day = 0; day < r->weather.n; day++) {
        r->weather.col[WEATHER_WIND][day] = et0_wind_at_2m(r->weather.col[WEATHER_WIND][day], 10);
    }
}

void physics_record_read(const char *path, struct physics_record *r)
{
    char line[LINE];
    FILE *f = fopen(path, "r");
    if (!f) {
        fail_msg("%s: cannot open", path);
    }
    memset(r, 0, sizeof *r);
    bool header = false;
    while (fgets(line, sizeof line, f)) {
        line[strcspn(line, "\n")] = '\0';
        if (line[0] == '#') {
            continue;
        }
        if (header) {
            read_row(line, r);
        } else {
            read_header(line, r);
            header = true;
        }
    }
    fclose(f);
    point_weather(r);
}

const double *physics_record_column(const struct physics_record *r, const char *name)
{
    for (size_t i = 0; i < PHYSICS_RECORD_COLUMNS; i++) {
        if (strcmp(r->name[i], name) == 0) {
            return r->column[i];
        }
    }
    fail_msg("no column %s", name);
    return NULL;
}

void physics_error_add(struct physics_error *e, double got, double measured)
{
    double d = got - measured;
    if (!isnan(d)) {
        e->n++;
        e->sum += d;
        e->squares += d * d;
    }
}

double physics_bias(const struct physics_error *e)
{
    return e->sum / (double)e->n;
}

double physics_rmse(const struct physics_error *e)
{
    return sqrt(e->squares / (double)e->n);
}

void physics_events_add(struct physics_events *t, bool said, bool seen)
{
    size_t *cell[2][2] = {{&t->rejections, &t->misses}, {&t->false_alarms, &t->hits}};
    ++*cell[said][seen];
}

double physics_hit_rate(const struct physics_events *t)
{
    return (double)t->hits / (double)(t->hits + t->misses);
}

double physics_false_alarm_ratio(const struct physics_events *t)
{
    return (double)t->false_alarms / (double)(t->hits + t->false_alarms);
}

double physics_threat_score(const struct physics_events *t)
{
    return (double)t->hits / (double)(t->hits + t->false_alarms + t->misses);
}
