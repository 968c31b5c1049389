/* Stations and values as they come. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/ghcn.h"

#include "base/hash.h"

#include <math.h>
#include <string.h>

#define FIRST_SLOTS 64        /* power of two */
#define GATHERED_DAYS_MOST 32 /* of DAPR; more is a slip */

/* Names of ghcn_element(): weather first, each at the place of its variable. */
static const char *const element_names[] = {
    [WEATHER_TMIN] = "TMIN", [WEATHER_TMAX] = "TMAX", [WEATHER_RAIN] = "PRCP", [WEATHER_RH] = "RHAV",
    [WEATHER_WIND] = "AWND", [WEATHER_TDEW] = "ADPT", [GHCN_MDPR] = "MDPR",    [GHCN_DAPR] = "DAPR"};

uint8_t ghcn_element(const char *name, size_t n)
{
    for (uint8_t i = 0; n == 4 && i < sizeof element_names / sizeof element_names[0]; i++) {
        if (element_names[i] && memcmp(element_names[i], name, n) == 0) {
            return i;
        }
    }
    return GHCN_OTHER;
}

const char *ghcn_element_name(uint8_t element)
{
    return element_names[element];
}

void ghcn_start(struct ghcn *g, const struct weather_file *f, struct arena *a, struct err *e)
{
    *g = (struct ghcn){.file = f, .arena = a, .e = e};
    arena_init(&g->scratch);
}

void ghcn_release(struct ghcn *g)
{
    arena_release(&g->scratch);
}

/* More room for an array that doubles; the old one stays in the arena. */
static void *grow(struct arena *a, const void *old, size_t n, size_t *room, size_t size)
{
    size_t more = *room ? *room * 2 : 64;
    void *new = arena_alloc(a, more, size);
    if (new &&n) {
        memcpy(new, old, n * size);
    }
    *room = new ? more : *room;
    return new;
}

static size_t hash_of(const char *id, size_t n)
{
    uint64_t hash = hash_fnv1a(HASH_START, id, n);
    return (size_t)(hash ^ hash >> 32);
}

/* The slot of an id: its own, or the empty one where it belongs. */
static uint32_t *slot_of(const struct ghcn *g, const char *id, size_t n)
{
    size_t i = hash_of(id, n) & (g->slots - 1);
    while (g->slot[i]) {
        const char *other = g->station[g->slot[i] - 1].id;
        if (strncmp(other, id, n) == 0 && other[n] == 0) {
            break;
        }
        i = (i + 1) & (g->slots - 1);
    }
    return &g->slot[i];
}

/* At most half of the slots are taken. */
static bool make_slots(struct ghcn *g)
{
    if (g->n_stations * 2 < g->slots) {
        return true;
    }
    g->slots = g->slots ? g->slots * 2 : FIRST_SLOTS;
    g->slot = arena_alloc(&g->scratch, g->slots, sizeof *g->slot);
    for (size_t i = 0; g->slot && i < g->n_stations; i++) {
        *slot_of(g, g->station[i].id, strlen(g->station[i].id)) = (uint32_t)i + 1;
    }
    return g->slot != NULL;
}

static enum err_code add_station(struct ghcn *g, const char *id, size_t n, uint32_t at)
{
    if (n >= LIMIT_NAME) {
        return ghcn_fail(g, at, "STATION", "\"%.40s...\" is too long for a station; at most %d bytes are allowed", id,
                         LIMIT_NAME - 1);
    }
    if (g->n_stations == LIMIT_SITES) {
        return ghcn_fail(g, at, "STATION", "more than %d stations", LIMIT_SITES);
    }
    if (g->n_stations == g->station_room) {
        g->station = grow(&g->scratch, g->station, g->n_stations, &g->station_room, sizeof *g->station);
    }
    const char *copy = arena_strndup(g->arena, id, n);
    if (!g->station || !copy) {
        return ghcn_no_memory(g);
    }
    g->station[g->n_stations++] = (struct ghcn_station){
        .id = copy, .place = {.latitude = NAN, .longitude = NAN, .elevation_m = NAN}, .first = DATE_NONE};
    return ERR_OK;
}

enum err_code ghcn_station(struct ghcn *g, const char *id, size_t n, uint32_t at)
{
    if (g->n_stations) {
        const char *now = g->station[g->now].id;
        if (strncmp(now, id, n) == 0 && now[n] == 0) {
            return ERR_OK;
        }
    }
    if (!make_slots(g)) {
        return ghcn_no_memory(g);
    }
    uint32_t *slot = slot_of(g, id, n);
    if (!*slot) {
        enum err_code code = add_station(g, id, n, at);
        if (code != ERR_OK) {
            return code;
        }
        *slot = (uint32_t)g->n_stations;
    }
    g->now = *slot - 1;
    return ERR_OK;
}

/* Values that count and do not become a day's. */
static bool told_aside(struct ghcn *g, const struct ghcn_value *v)
{
    struct ghcn_counts *c = &g->counts;
    bool failed = v->quality && v->quality != ' ';
    if (failed) {
        c->failed++;
    } else if (v->element == GHCN_MDPR) {
        c->gathered++;
        c->gathered_sum += v->value;
    } else if (v->element == GHCN_DAPR) {
        c->gathered_days += v->value > 0 && v->value < GATHERED_DAYS_MOST ? (size_t)v->value : 0;
    } else {
        c->presumed += v->element == WEATHER_RAIN && v->measured == 'P';
        return false;
    }
    return true;
}

enum err_code ghcn_add(struct ghcn *g, const struct ghcn_value *v)
{
    struct ghcn_station *s = &g->station[g->now];
    if (v->value == GHCN_MISSING || told_aside(g, v)) {
        return ERR_OK;
    }
    if (g->n == g->room) {
        g->seen = grow(&g->scratch, g->seen, g->n, &g->room, sizeof *g->seen);
        if (!g->seen) {
            return ghcn_no_memory(g);
        }
    }
    g->seen[g->n] = *v;
    g->seen[g->n++].station = (uint32_t)g->now;
    s->vars |= 1u << v->element;
    s->last = s->first == DATE_NONE || v->date > s->last ? v->date : s->last;
    s->first = s->first == DATE_NONE || v->date < s->first ? v->date : s->first;
    if (v->element == WEATHER_TMAX) {
        g->tmax_values++;
        g->at_hour[v->hour >= 0 && v->hour < GHCN_HOURS ? v->hour : 0] += v->hour >= 0;
    }
    return ERR_OK;
}

void ghcn_ignore(struct ghcn *g, const char *name, size_t n)
{
    size_t i = 0;
    while (i < g->others && (strncmp(g->other[i], name, n) != 0 || g->other[i][n] != 0)) {
        i++;
    }
    if (n < sizeof g->other[0] && i == g->others && i < GHCN_OTHERS) {
        memcpy(g->other[g->others++], name, n);
    }
}
