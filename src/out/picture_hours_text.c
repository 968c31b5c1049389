/* Hour by day in figures. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/picture_text.h"

#include "base/num.h"

#include <math.h>
#include <stdio.h>

enum { DAYS_SHOWN = 31 }; /* two columns a day; of more days each second one */

static size_t step_of(const struct series *s)
{
    return s->n > DAYS_SHOWN ? 2 : 1;
}

/* A day's date each four days. */
static void label(const struct series *s, size_t k, char *text, size_t size)
{
    char day[64];
    text[0] = 0;
    if (k % 8 == 0) {
        date_t d = s->first + (date_t)(k / 2 * step_of(s));
        snprintf(text, size, "%.6s", date_format_short(d, day, sizeof day) + 4);
    }
}

static void add_hour(const struct series *s, int hour, size_t group, const struct palette_scale *scale, struct buf *b)
{
    buf_addf(b, "  %02d:00 ", hour);
    for (size_t i = 0; i < s->n; i += step_of(s)) {
        double middle = hour + 0.5, solar = num_clip(middle - picture_clock_at(s, i).ahead, 0.0, 23.0);
        buf_add_char(b, (char)('0' + palette_class(scale, s->day[i].nsc_hour[(int)solar])));
        buf_add_char(b, group < s->animals && picture_allows(s, group, i, middle) ? '*' : ' ');
    }
    buf_add_char(b, '\n');
}

void picture_hours_text(const struct series *s, struct buf *b)
{
    const struct palette_scale scale = picture_scale(s);
    size_t group = picture_tightest(s), days = (s->n + step_of(s) - 1) / step_of(s);
    letters_head(s, "Sugar in the grass, hour by hour", b);
    buf_addf(b, "Clock: %s.%s\n",
             picture_is_solar(s) ? "by the sun (12:00 is when it stands highest)" : s->site->timezone,
             step_of(s) > 1 ? " Each second day is shown." : "");
    if (group < s->animals) {
        struct buf name;
        buf_init(&name);
        picture_group_name(s, group, &name);
        buf_addf(b, "* hours that the morning would have advised for %s\n", name.text);
        buf_release_into(&name, b);
    }
    for (int hour = 23; hour >= 0; hour--) {
        add_hour(s, hour, group, &scale, b);
    }
    letters_marks(s, 2 * days, label, b);
    buf_add_char(b, '\n');
    letters_scale(&scale, b);
    letters_close(b);
}
