/* Sentences about a file, and its empty ends.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/note.h"

#include <stdarg.h>
#include <stdio.h>

#define NOTE_MOST 512 /* bytes of a note; what is beyond is cut */

enum err_code note_add(struct weather_set *set, struct arena *a, struct err *e, const char *format, ...)
{
    char text[NOTE_MOST];
    int used = snprintf(text, sizeof text, "%s%s", set->note, set->note[0] ? "; " : "");
    if (used >= 0 && (size_t)used < sizeof text) {
        va_list arguments;
        va_start(arguments, format);
        vsnprintf(text + used, sizeof text - (size_t)used, format, arguments);
        va_end(arguments);
    }
    const char *note = arena_strdup(a, text);
    if (!note) {
        return err_set(e, ERR_NOMEM, "out of memory while reading weather");
    }
    set->note = note;
    return ERR_OK;
}

enum err_code note_taken(struct weather_set *set, struct arena *a, struct err *e, const size_t taken[WEATHER_VARS],
                         const char *why)
{
    char list[NOTE_MOST] = "";
    size_t used = 0;
    for (int v = 0; v < WEATHER_VARS && used < sizeof list; v++) {
        if (taken[v]) {
            int more = snprintf(list + used, sizeof list - used, "%s%zu value%s of %s", used ? ", " : "", taken[v],
                                taken[v] > 1 ? "s" : "", weather_var_name((enum weather_var)v));
            used += more > 0 ? (size_t)more : 0;
        }
    }
    return used ? note_add(set, a, e, "left out: %s (%s)", list, why) : ERR_OK;
}

static void trim(struct weather_days *w)
{
    size_t first = 0;
    while (w->n && w->origin[w->n - 1] == ORIGIN_NONE) {
        w->n--;
    }
    while (first < w->n && w->origin[first] == ORIGIN_NONE) {
        first++;
    }
    w->day0 += (date_t)first;
    w->n -= first;
    w->origin += first;
    w->filled += first;
    for (int v = 0; v < WEATHER_VARS; v++) {
        w->col[v] = w->col[v] ? w->col[v] + first : NULL;
    }
}

enum err_code note_trim(struct weather_set *set, const char *path, struct err *e)
{
    size_t kept = 0;
    for (size_t i = 0; i < set->n; i++) {
        trim(&set->site[i].days);
        if (set->site[i].days.n) {
            set->site[kept++] = set->site[i];
        }
    }
    set->n = kept;
    if (kept == 0) {
        err_set(e, ERR_DATA, "there are rows of days and no usable value in any of them");
        return err_at(e, path, 0, 0, NULL);
    }
    return ERR_OK;
}
