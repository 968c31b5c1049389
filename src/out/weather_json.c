/* weather --json (schema 1) and --csv. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/weather.h"

#include "out/json.h"

#include <math.h>

bool weather_lacks(const struct weather_days *w, size_t i)
{
    return isnan(weather_at(w, WEATHER_TMIN, i)) || isnan(weather_at(w, WEATHER_TMAX, i)) ||
           isnan(weather_at(w, WEATHER_RAIN, i));
}

void weather_count(const struct weather_view *v, struct weather_count *n)
{
    const struct weather_days *r = v->read, *w = v->whole;
    *n = (struct weather_count){0};
    for (size_t i = 0; i < r->n; i++) {
        date_t date = r->day0 + (date_t)i;
        bool in = w && date >= w->day0 && date < w->day0 + (date_t)w->n;
        uint8_t end = in ? w->origin[date - w->day0] : (uint8_t)ORIGIN_NONE;
        if (end == ORIGIN_FILLED) {
            n->filled++;
        } else if (weather_lacks(r, i) && r->origin[i] != ORIGIN_FORECAST) {
            n->missing++;
        } else {
            *(r->origin[i] == ORIGIN_FORECAST ? &n->forecast : &n->recorded) += 1;
        }
    }
}

static void file_object(const struct source_read *s, struct buf *b)
{
    buf_add_char(b, '{');
    json_key_string(b, "path", s->name);
    buf_add_char(b, ',');
    json_key_string(b, "layout", s->layout);
    buf_add_char(b, ',');
    json_key_date(b, "first", s->first);
    buf_add_char(b, ',');
    json_key_date(b, "last", s->last);
    buf_addf(b, ",\"days\":%zu,\"missing_days\":%zu,", s->days, s->missing_days);
    json_key_string(b, "note", s->note);
    buf_add_char(b, ',');
    json_key_time(b, "fetched", s->fetched);
    buf_add_char(b, ',');
    json_key_string(b, "trouble", s->trouble);
    buf_add_char(b, ',');
    json_key_string(b, "credit", s->credit);
    buf_add_char(b, '}');
}

static void doubt_object(const struct doubt *d, struct buf *b)
{
    char text[LIMIT_TEXT];
    buf_add_char(b, '{');
    json_key_date(b, "date", d->date);
    buf_add_char(b, ',');
    json_key_date(b, "last", d->last);
    buf_add(b, ",\"variable\":");
    if (d->var == WEATHER_VARS) {
        buf_add(b, "null");
    } else {
        buf_add_json_string(b, weather_var_name(d->var));
    }
    buf_add_char(b, ',');
    json_key_number(b, "value", d->value, 2);
    buf_add_char(b, ',');
    json_key_string(b, "id", quality_id(d->kind));
    buf_add_char(b, ',');
    json_key_string(b, "why", quality_text(d, SHOW_METRIC, text, sizeof text));
    buf_add_char(b, '}');
}

static void merged_object(const struct weather_view *v, struct buf *b)
{
    struct weather_count n;
    weather_count(v, &n);
    buf_add(b, "\"merged\":{");
    json_key_date(b, "first", v->read->day0);
    buf_add_char(b, ',');
    json_key_date(b, "last", v->read->day0 + (date_t)v->read->n - 1);
    buf_addf(b, ",\"recorded\":%zu,\"forecast\":%zu,\"filled\":%zu,\"missing\":%zu}", n.recorded, n.forecast, n.filled,
             n.missing);
}

void weather_json(const struct weather_view *v, struct buf *b)
{
    buf_add(b, "{\"schema\":1,\"files\":[");
    for (size_t i = 0; i < v->sources->n; i++) {
        buf_add(b, i ? "," : "");
        file_object(&v->sources->source[i], b);
    }
    buf_add(b, "],");
    merged_object(v, b);
    buf_add(b, ",\"doubts\":[");
    for (size_t i = 0; i < v->quality->n; i++) {
        buf_add(b, i ? "," : "");
        doubt_object(&v->quality->doubt[i], b);
    }
    buf_addf(b, "],\"doubts_found\":%zu,\"stops\":", v->quality->total);
    if (v->stops[0]) {
        buf_add_json_string(b, v->stops);
    } else {
        buf_add(b, "null");
    }
    buf_add(b, ",\"notes\":[");
    for (size_t i = 0; i < v->notes; i++) {
        buf_add(b, i ? "," : "");
        buf_add_json_string(b, v->note[i]);
    }
    buf_add(b, "]}\n");
}

void weather_csv(const struct weather_view *v, struct buf *b)
{
    const struct weather_days *w = v->read;
    buf_add(b, "date,origin");
    for (int k = 0; k < WEATHER_VARS; k++) {
        if (w->col[k]) {
            buf_addf(b, ",%s", weather_var_name((enum weather_var)k));
        }
    }
    buf_add_char(b, '\n');
    for (size_t i = 0; i < w->n; i++) {
        char date[DATE_TEXT];
        buf_addf(b, "%s,%s", date_format(w->day0 + (date_t)i, date), day_origin_name((enum day_origin)w->origin[i]));
        for (int k = 0; k < WEATHER_VARS; k++) {
            if (w->col[k]) {
                buf_add_char(b, ',');
                buf_add_number(b, w->col[k][i], 3);
            }
        }
        buf_add_char(b, '\n');
    }
}
