/* Values to the days of their stations, in our units.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/ghcn.h"

#include <math.h>
#include <string.h>

/* Stations of the United States' networks of observers and airports read whole degrees
 * F (from memory; so do the three stations at hand: 62 to 100 % of their tenths of C are
 * a whole degree F, where chance would give 18 %). */
static bool reads_whole_f(const char *id)
{
    return strncmp(id, "USC", 3) == 0 || strncmp(id, "USW", 3) == 0;
}

static enum err_code check_needed(struct ghcn *g)
{
    unsigned vars = 0;
    for (size_t i = 0; i < g->n_stations; i++) {
        vars |= g->station[i].vars;
    }
    bool cold = vars >> WEATHER_TMIN & 1, warm = vars >> WEATHER_TMAX & 1;
    if (cold != warm || !(cold || vars >> WEATHER_RAIN & 1)) {
        const char *lacks = cold ? "maximum temperature (TMAX)"
                                 : (warm ? "minimum temperature (TMIN)" : "temperature and rain (TMIN, TMAX, PRCP)");
        return ghcn_fail(g, 0, "", "has no values of %s; ask the archive for TMAX, TMIN and PRCP", lacks);
    }
    return ERR_OK;
}

/* Columns for each station that has any value. */
static enum err_code make_sites(struct ghcn *g, struct weather_site *site)
{
    for (size_t i = 0; i < g->n_stations; i++) {
        struct ghcn_station *s = &g->station[i];
        site[i] = (struct weather_site){.name = s->id, .place = s->place};
        if (!s->vars) {
            continue;
        }
        if (s->last - s->first >= LIMIT_DAYS) {
            return ghcn_fail(g, 0, "", "more than %d days from the first value of station %s to its last", LIMIT_DAYS,
                             s->id);
        }
        if (!weather_days_alloc(&site[i].days, g->arena, s->first, (size_t)(s->last - s->first) + 1, s->vars)) {
            return ghcn_no_memory(g);
        }
    }
    return ERR_OK;
}

static enum err_code place_value(struct ghcn *g, const struct ghcn_value *v, struct weather_days *w, bool whole)
{
    size_t i = (size_t)(v->date - w->day0);
    double *cell = &w->col[v->element][i];
    char date[DATE_TEXT];
    if (!isnan(*cell)) {
        return ghcn_fail(g, v->at, ghcn_element_name(v->element), "%s of station %s stands twice for %s",
                         ghcn_element_name(v->element), g->station[v->station].id, date_format(v->date, date));
    }
    if (whole && v->value != round(v->value)) {
        return ghcn_fail(g, v->at, ghcn_element_name(v->element),
                         "%g is not a whole number, and this layout has whole tenths (of C, mm, m/s); if the values "
                         "were converted, say --file-units metric or us",
                         v->value);
    }
    *cell = v->value;
    w->origin[i] = ORIGIN_RECORDED;
    return ERR_OK;
}

static enum err_code settle_units(struct ghcn *g, const struct weather_site *site, enum weather_units *units)
{
    if (*units != UNITS_UNSAID) {
        return ERR_OK;
    }
    struct unit_counts counts;
    unit_sense_start(&counts);
    for (size_t i = 0; i < g->n_stations; i++) {
        unit_sense_count(&counts, &site[i].days, &site[i].place, reads_whole_f(site[i].name));
    }
    unit_sense_judge(&counts, &g->verdict);
    *units = g->verdict.units;
    if (*units == UNITS_UNSAID) {
        return ghcn_fail(g, 0, "",
                         "does not say its units, and its values do not tell them: %s. Say --file-units metric (C, mm, "
                         "m/s), us (F, inch, mph) or tenths (of C, mm, m/s), or order the data with units=metric",
                         g->verdict.text);
    }
    return ERR_OK;
}

static enum err_code impossible(struct ghcn *g, size_t station, enum weather_var v, date_t date)
{
    const struct ghcn_value *s = g->seen;
    while (s->station != station || s->element != v || s->date != date) {
        s++;
    }
    return ghcn_fail(g, s->at, ghcn_element_name(s->element), "%g is not possible in these units; %s is allowed",
                     s->value, quantity_range(v)->allowed);
}

static enum err_code convert(struct ghcn *g, size_t station, struct weather_days *w, enum weather_units units)
{
    double to_2m = quantity_of_name("wind_10m", strlen("wind_10m")).unit.scale;
    for (int v = 0; v < WEATHER_VARS; v++) {
        struct quantity_unit unit = unit_sense_unit(units, (enum weather_var)v);
        double tall = v == WEATHER_WIND ? to_2m : 1;
        for (size_t i = 0; w->col[v] && i < w->n; i++) {
            double *x = &w->col[v][i];
            *x = (*x * unit.scale + unit.offset) * tall;
            if (!isnan(*x) && quantity_judge((enum weather_var)v, NAN, x) == QUANTITY_IMPOSSIBLE) {
                return impossible(g, station, (enum weather_var)v, w->day0 + (date_t)i);
            }
        }
    }
    return ERR_OK;
}

static void drop_crossed(struct ghcn *g, struct weather_days *w)
{
    for (size_t i = 0; i < w->n; i++) {
        if (weather_at(w, WEATHER_TMIN, i) > weather_at(w, WEATHER_TMAX, i)) {
            w->col[WEATHER_TMIN][i] = w->col[WEATHER_TMAX][i] = NAN;
            g->counts.crossed_first = g->counts.crossed ? g->counts.crossed_first : w->day0 + (date_t)i;
            g->counts.crossed++;
        }
    }
}

static enum err_code finish_sites(struct ghcn *g, enum weather_units units, bool whole, struct weather_site *site)
{
    enum err_code code = make_sites(g, site);
    for (size_t i = 0; i < g->n && code == ERR_OK; i++) {
        code = place_value(g, &g->seen[i], &site[g->seen[i].station].days, whole);
    }
    code = code == ERR_OK ? settle_units(g, site, &units) : code;
    for (size_t i = 0; i < g->n_stations && code == ERR_OK; i++) {
        code = convert(g, i, &site[i].days, units);
        drop_crossed(g, &site[i].days);
    }
    if (code == ERR_OK) {
        struct quantity_unit mm = unit_sense_unit(units, WEATHER_RAIN);
        g->counts.gathered_sum *= mm.scale;
    }
    return code;
}

enum err_code ghcn_finish(struct ghcn *g, enum weather_units units, struct weather_set *set)
{
    enum weather_units said = g->file->units;
    enum err_code code = check_needed(g);
    if (code != ERR_OK) {
        return code;
    }
    struct weather_site *site = arena_alloc(g->arena, g->n_stations, sizeof *site);
    if (!site) {
        return ghcn_no_memory(g);
    }
    bool whole = said == UNITS_UNSAID && units == UNITS_TENTHS;
    code = finish_sites(g, said != UNITS_UNSAID ? said : units, whole, site);
    if (code != ERR_OK) {
        return code;
    }
    set->site = site;
    for (size_t i = 0; i < g->n_stations; i++) {
        if (site[i].days.n) {
            site[set->n++] = site[i];
        }
    }
    set->note = ghcn_note(g);
    set->ignored = ghcn_ignored(g);
    return set->note && set->ignored ? ERR_OK : ghcn_no_memory(g);
}
