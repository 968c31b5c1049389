/* The hours on grass as an iCalendar file (RFC 5545), for any calendar program.
 *
 * One event a group and day, whatever the turnout: a calendar that takes the file in anew
 * replaces an event by the one of the same UID and forgets none, so a day that had hours
 * and has none now must have an event, too. timed and brief are events with an hour, in UTC;
 * none and free last all day. The UID is made of the holding's name, the group and the day;
 * DTSTAMP and LAST-MODIFIED are when the file was made (clock_now), and SEQUENCE is the minutes
 * from 1970 to then: a file made later, on the same day too, is the one that counts. SPDX-License-Identifier:
 * GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_CALENDAR_H
#define SUGARLEA_OUT_CALENDAR_H

#include "out/today.h"

/* All days of the view; its times must not be solar. */
void calendar_write(const struct today_view *v, struct buf *b);

/* "NAME:value" as one content line: control characters and what is no UTF-8 made harmless,
 * the text escaped, the line folded. A line feed in the value stays one. */
void calendar_text(const char *name, const char *value, struct buf *b);

#endif
