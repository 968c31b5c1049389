/* The sentences of a morning that the text and the sheet share. Each goes to whoever
 * wants it, with a lead ("Hay", "Frost"; "" none), in the order in which to say it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TODAY_WORDS_H
#define SUGARLEA_TODAY_WORDS_H

#include "out/today.h"

struct today_to { /* the first member of whatever takes the sentences */
    void (*say)(const struct today_to *to, const char *lead, const char *sentence);
};

/* "05:50 to 13:50", "" where a group is out all day or not at all. Returns text, of TODAY_WINDOW bytes. */
enum { TODAY_WINDOW = 20 };
const char *today_window(const struct today_view *v, const struct advice *a, char *text);

/* "from 05:50 to 13:50", "all day and night but from 16:10 to 22:10", "". Returns text, of
 * TODAY_WINDOW_TOLD bytes. */
enum { TODAY_WINDOW_TOLD = 48 };
const char *today_window_told(const struct today_view *v, const struct advice *a, char *text);

/* Its session goes on past midnight, by the clock. */
bool today_over_midnight(const struct today_view *v, const struct advice *a);

/* "285 kg", "279 kg (diary, 2025-04-20)" where the diary's weight counts. Returns text, of TODAY_WEIGHT bytes. */
enum { TODAY_WEIGHT = 64 };
const char *today_weight(const struct today_view *v, const struct animal_group *g, char *text);

/* Frost on this morning's grass, "" none; and what it means for the hours of a group that goes out. Returns text,
 * of TODAY_FROST_TEXT bytes. */
enum { TODAY_FROST_TEXT = 192 };
const char *today_frost_told(const struct today_day *day);
const char *today_frost_text(const struct today_view *v, const struct run_animal *a, char *text);

/* Weather and clock behind the morning. */
void today_say_basis(const struct today_view *v, const struct today_to *to);

/* What to do with a group: turnout and hours; frost, for those who go out; hay. */
void today_say_turnout(const struct today_view *v, const struct run_animal *a, const struct today_to *to);
void today_say_frost(const struct today_view *v, const struct run_animal *a, const struct today_to *to);
void today_say_hay(const struct today_view *v, const struct run_animal *a, const struct today_to *to);
void today_say_lacking(const struct today_view *v, const struct run_animal *a, const struct today_to *to);

/* Which limits of the group the holding file sets; nothing where it sets none. */
void today_say_limits(const struct run_animal *a, const struct today_to *to);

/* "4.6 kg a head for the day, weighed dry: cool-season grass hay, mature, lot grass-hay-mature-2, soaked": which hay of
 * the holding, told from others of its name, and that it is soaked; "" where none is worth putting out. Returns text,
 * of TODAY_HAY_TOLD bytes. */
enum { TODAY_HAY_TOLD = 2 * LIMIT_TEXT };
const char *today_hay_told(const struct today_view *v, const struct run_animal *a, char *text);

/* kg a head that are worth putting out: 0 where it would read as nothing. */
double today_hay_kg(const struct advice *a);

/* Why: each reason; the sums of the ration; what would change the advice. */
void today_say_reasons(const struct run_animal *a, const struct today_to *to);
void today_say_ration(const struct today_view *v, const struct run_animal *a, const struct today_to *to);
void today_say_what_if(const struct today_view *v, const struct run_animal *a, const struct today_to *to);

/* The grass of a paddock: level, growth, doubts, and what drove the sugar. */
void today_say_paddock(const struct today_view *v, size_t paddock, const struct today_to *to);

/* "frost", "ground frost" or "". */
const char *today_frost_name(const struct today_day *day);

/* What comes before any advice: which animal needs a vet today. "" without animals. */
const char *today_first_caution(const struct today_view *v);

/* Every caution that any group needs beyond the closing words, once; returns how many. */
enum { TODAY_CAUTIONS = 48 };
size_t today_cautions(const struct today_view *v, const char *said[TODAY_CAUTIONS]);

extern const char today_ahead_words[]; /* how far to trust the mornings ahead */
extern const char today_level_words[]; /* how far to trust the level */

#endif
