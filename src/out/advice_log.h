/* What advice-log.csv last told of each group, and what is different this morning.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_ADVICE_LOG_H
#define SUGARLEA_OUT_ADVICE_LOG_H

#include "base/arena.h"
#include "out/text.h"
#include "out/today.h"

#define LIMIT_LOG_BYTES (256u << 20) /* an advice log of many years and groups */

/* Words of the log, the later the more to heed. */
enum today_frost { TODAY_NO_FROST, TODAY_GROUND_FROST, TODAY_AIR_FROST, TODAY_FROSTS };
enum today_age { TODAY_FRESH, TODAY_PROVISIONAL, TODAY_STALE, TODAY_AGES };
/* Whether somebody was told: not by a silent morning, and a sheet tells only who looks at it. */
enum today_told { TODAY_UNSAID, TODAY_SAID, TODAY_ON_SHEET, TODAY_TOLDS };
extern const char *const today_frost_words[TODAY_FROSTS];
extern const char *const today_age_words[TODAY_AGES];
extern const char *const today_told_words[TODAY_TOLDS];

enum today_frost today_frost(const struct today_view *v);
enum today_age today_age(const struct today_view *v);

/* "shifting-weight+hot-feet"; "" none. Returns text. */
const char *today_signs_words(const struct run_animal *a, char *text, size_t size);

/* Writes a line for whatever differs from the log (n bytes), and *changed whether anything
 * does. A group is held against the line that was last told of it on that morning or an
 * earlier one, so that what drifts is told, too; frost and the age of the weather against
 * the last line of all. Lines of a sheet, and what is no line of the log, are passed over. ERR_NOMEM. */
enum err_code advice_log_changes(const struct today_view *v, const char *log, size_t n, const struct page *page,
                                 struct arena *a, bool *changed, struct err *e);

/* What the log (n bytes) has of the last days of each group: TODAY_ADVISED of them a group, that of v->day first. A
 * line that was written on a later day is none of its morning, and is passed over; one written before looked ahead. */
void advice_log_days(const struct today_view *v, const char *log, size_t n, struct today_advised *day);

#endif
