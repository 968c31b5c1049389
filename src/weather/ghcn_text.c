/* Dates, numbers, flags and messages of one value.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json_scan.h"
#include "base/num.h"
#include "weather/ghcn.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define SHOW(n) ((int)((n) < 40 ? (n) : 40)) /* bytes of the file in a message */

enum err_code ghcn_no_memory(struct ghcn *g)
{
    return err_set(g->e, ERR_NOMEM, "out of memory while reading %s", g->file->path);
}

enum err_code ghcn_fail(struct ghcn *g, uint32_t at, const char *field, const char *format, ...)
{
    char what[512], path[64];
    size_t line = 0, column = 0;
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(what, sizeof what, format, arguments);
    va_end(arguments);
    if (g->file->doc.root) {
        snprintf(path, sizeof path, "[%u]%s%s", (unsigned)at, field[0] ? "." : "", field);
        return json_fail(&g->file->doc, ERR_DATA, path, g->e, "%s", what);
    }
    json_scan_place(g->file->bytes, at, &line, &column);
    err_set(g->e, ERR_DATA, "%s", what);
    err_at(g->e, g->file->path, line, column, field);
    return ERR_DATA;
}

int8_t ghcn_hour(const char *text, size_t n)
{
    long hhmm;
    if (n != 4 || !num_parse_long(text, n, 0, 2400, &hhmm)) {
        return -1;
    }
    return (int8_t)(hhmm / 100);
}

void ghcn_attributes(const char *text, size_t n, struct ghcn_value *v)
{
    const char *part[4] = {"", "", "", ""};
    size_t length[4] = {0}, k = 0;
    part[0] = text;
    for (size_t i = 0; i < n && k < 4; i++) {
        if (text[i] != ',') {
            length[k]++;
        } else if (++k < 4) {
            part[k] = text + i + 1;
        }
    }
    v->measured = length[0] ? part[0][0] : ' ';
    v->quality = length[1] ? part[1][0] : ' ';
    v->hour = ghcn_hour(part[3], length[3]);
}

enum err_code ghcn_date(struct ghcn *g, const char *text, size_t n, uint32_t at, date_t *date)
{
    char iso[DATE_TEXT];
    *date = date_parse_iso(text, n);
    if (*date == DATE_NONE && n == 8) {
        snprintf(iso, sizeof iso, "%.4s-%.2s-%.2s", text, text + 4, text + 6);
        *date = date_parse_iso(iso, strlen(iso));
    }
    if (*date != DATE_NONE) {
        return ERR_OK;
    }
    if (n == strlen("2021") || n == strlen("2021-01")) {
        return ghcn_fail(g, at, "DATE",
                         "\"%.*s\" is no day: these are summaries of months or years, and daily ones are needed; ask "
                         "the archive for the data set daily-summaries (GHCN-Daily) with TMAX, TMIN and PRCP",
                         (int)n, text);
    }
    return ghcn_fail(g, at, "DATE", "\"%.*s\" is not a date; 2021-01-31 and 20210131 are allowed", SHOW(n), text);
}

enum err_code ghcn_number(struct ghcn *g, const char *text, size_t n, struct ghcn_value *v)
{
    if (!num_parse(text, n, '.', &v->value)) {
        return ghcn_fail(
            g, v->at, ghcn_element_name(v->element),
            "\"%.*s\" is not a number; digits (12 or 12.5) are allowed, or nothing when nothing was measured", SHOW(n),
            text);
    }
    return ERR_OK;
}

enum err_code ghcn_place(struct ghcn *g, int which, const char *text, size_t n, uint32_t at)
{
    static const struct {
        const char *name;
        double low, high, none; /* none: the archive's number for not known */
    } ranges[] = {{"LATITUDE", -90, 90, -99.9}, {"LONGITUDE", -180, 180, -999.9}, {"ELEVATION", -500, 9000, -999.9}};
    struct site *place = &g->station[g->now].place;
    double *x = which == 0 ? &place->latitude : (which == 1 ? &place->longitude : &place->elevation_m);
    double value;
    if (n == 0 || !isnan(*x)) {
        return ERR_OK;
    }
    if (!num_parse(text, n, '.', &value)) {
        return ghcn_fail(g, at, ranges[which].name, "\"%.*s\" is not a number", SHOW(n), text);
    }
    if (value == ranges[which].none) {
        return ERR_OK;
    }
    if (!(value >= ranges[which].low && value <= ranges[which].high)) {
        return ghcn_fail(g, at, ranges[which].name, "%g is not possible; %g to %g is allowed", value, ranges[which].low,
                         ranges[which].high);
    }
    *x = value;
    return ERR_OK;
}
