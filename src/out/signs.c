/* What the diary has to say in the morning advice. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/signs.h"

#include "base/json_scan.h"
#include "data/history.h"
#include "out/json.h"
#include "out/today_words.h"

#include <math.h>
#include <stdio.h>

enum { CHECKLIST_WIDTH = 102, NOTE_MOST = 2 * LIMIT_TEXT /* bytes: of a line of SIGNS_LINE */ };

/* The latest entry of a kind about the animal, as the morning knows it; NULL none. */
static const struct diary_entry *latest(const struct run *r, const struct run_animal *a, enum diary_what what)
{
    return diary_latest(r->event, r->events, what, (size_t)(a - r->animal));
}

/* Under its own id, or one that the holding does not have. */
static bool others_sore(const struct today_view *v, const struct run_animal *a)
{
    return run_others_sore(v->day->run, a->group) || (v->others_lost && v->others_lost[a - v->day->run->animal]);
}

void signs_alarms(const struct page *page, const struct today_view *v)
{
    for (size_t i = 0; i < v->alarms; i++) {
        text_wrap_bold(page, i && i <= TODAY_ALARMS_WHOLE ? "\n" : "", v->alarm[i]);
    }
    buf_add(page->b, v->alarms ? "\n" : "");
}

bool signs_stand(const struct run_animal *a)
{
    return a->seen.words != 0 || !a->group->rules.grazing;
}

enum { SIGNS_OF_NO_FOOT = SIGN_OFF_FEED | SIGN_TOOTH_GRINDING | SIGN_LYING_MORE | SIGN_WILL_NOT_MOVE };

static void tell_signs(const struct today_view *v, const struct run_animal *a, char *line, size_t size)
{
    char date[DATE_TEXT], words[LIMIT_TEXT];
    const struct diary_entry *e = latest(v->day->run, a, DIARY_FOOT_SIGNS);
    if (!a->seen.words) {
        snprintf(line, size,
                 "Kept as an acute case; no foot signs stand in the diary. Say since when, and which feet.");
        return;
    }
    snprintf(line, size, "Signs since %s: %s%s%.*s.%s", date_format(a->seen.since, date),
             diary_words_text(&diary_kinds[DIARY_FOOT_SIGNS], a->seen.words, ", ", words, sizeof words),
             e && e->note[0] ? "; note: " : "", e ? (int)json_scan_cut(e->note, NOTE_MOST) : 0, e ? e->note : "",
             a->seen.words & ~(unsigned)SIGNS_OF_NO_FOOT ? " Say which feet." : "");
}

/* "1 h, muzzled". Returns how many letters. */
static size_t hours_text(double hours, bool muzzle, char *text, size_t size)
{
    char of[32];
    int n = snprintf(text, size, "%s%s", units_hours(hours, of, sizeof of), muzzle && hours > 0.0 ? ", muzzled" : "");
    return n > 0 && (size_t)n < size ? (size_t)n : 0;
}

static const struct run_hours *hours_on(const struct run_animal *a, date_t date)
{
    for (size_t i = 0; i < a->n_recent; i++) {
        if (a->recent[i].date == date) {
            return &a->recent[i];
        }
    }
    return NULL;
}

/* What the log has of that day; NULL nothing. Of the morning itself the hours count that it may have gone out for. */
static const struct today_advised *logged_on(const struct today_view *v, const struct run_animal *a, date_t date)
{
    size_t back = (size_t)(v->advised_to - date);
    if (!v->advised || date > v->advised_to || back >= TODAY_ADVISED) {
        return NULL;
    }
    const struct today_advised *x = &v->advised[(size_t)(a - v->day->run->animal) * TODAY_ADVISED + back];
    return isnan(x->hours) || (date == v->day->date && x->hours <= 0.0) ? NULL : x;
}

/* One day: as it was noted, else as it was advised, else as it is reckoned now; "" nothing is known. An acute case may
 * have been none on that day, so that nothing is reckoned of it. */
static void tell_day(const struct today_view *v, const struct run_animal *a, date_t date, char *text, size_t size)
{
    const struct run_hours *h = hours_on(a, date);
    const struct today_advised *x = logged_on(v, a, date);
    size_t n;
    text[0] = 0;
    if (h && h->written) {
        n = hours_text(h->hours, false, text, size);
        snprintf(text + n, size - n, " (written)");
    } else if (x) {
        n = hours_text(x->hours, x->muzzle, text, size);
        if (!isnan(x->later_h)) {
            n += (size_t)snprintf(text + n, size - n, ", later ");
            hours_text(x->later_h, x->later_muzzle, text + n, size - n);
        }
    } else if (h && a->group->rules.grazing) {
        n = hours_text(h->hours, h->muzzle, text, size);
        snprintf(text + n, size - n, " (reckoned)");
    }
}

static void tell_hours(const struct today_view *v, const struct run_animal *a, char *line, size_t size)
{
    size_t n = (size_t)snprintf(line, size, "Grass of the last days: "), told = 0;
    for (date_t date = v->day->date; v->day->date - date < TODAY_ADVISED; date--) {
        char day[96], text[DATE_TEXT];
        tell_day(v, a, date, day, sizeof day);
        if (day[0] && n < size) {
            n += (size_t)snprintf(line + n, size - n, "%s%s %s", told++ ? "; " : "", date_format(date, text), day);
        }
    }
    if (n < size) {
        snprintf(line + n, size - n, "%s",
                 told
                     ? ". Without a mark: as advised for that morning, by the log. (written): as noted. (reckoned): no "
                       "advice of that morning is in the log; reckoned now."
                     : "unknown.");
    }
}

static void tell_bucket(const struct today_view *v, const struct run_animal *a, char *line, size_t size)
{
    size_t n = (size_t)snprintf(line, size, "Bucket a day and head: ");
    bool any = false;
    char kg[UNITS_TEXT];
    for (size_t i = 0; i < a->group->feds && n < size; i++) {
        const struct fed *f = &a->group->fed[i];
        if (!f->feed->is_forage) {
            n += (size_t)snprintf(line + n, size - n, "%s%s %s", any ? ", " : "", f->feed->name,
                                  units_text(v->units, AMOUNT_MASS, f->kg, UNITS_SHORT, kg));
            any = true;
        }
    }
    if (n < size) {
        snprintf(line + n, size - n, "%s. Say whether it can have got at grain.", any ? "" : "none");
    }
}

/* The newest test in the diary of the lot that the group is given; NULL none. */
static const struct diary_entry *hay_test_of(const struct today_view *v, const struct run_animal *a)
{
    const struct run *r = v->day->run;
    size_t lot = (size_t)(run_hay_of(v->holding, a->group) - v->holding->lot);
    return diary_latest(r->event, r->events, DIARY_HAY_TEST, lot);
}

static void tell_hay(const struct today_view *v, const struct run_animal *a, char *line, size_t size)
{
    const struct diary_entry *test = hay_test_of(v, a);
    const struct advice *x = &a->advice;
    bool least = x->hay_esc_pct >= x->hay_nsc_pct;
    const char *source = x->hay_analysed          ? "analysed"
                         : least                  ? "at least: ESC + starch, by the laboratory"
                         : !isnan(x->hay_esc_pct) ? "a table value: the laboratory gave ESC + starch"
                                                  : "a table value";
    char date[DATE_TEXT];
    if (test) {
        snprintf(line, size,
                 "Hay: %s, newest test %.1f %% sugar and starch on %s (diary); reckoned with: %.1f %% (%s).",
                 a->input.hay->name, test->value, date_format(test->date, date), x->hay_nsc_pct, source);
    } else {
        snprintf(line, size, "Hay: %s, %.1f %% sugar and starch (%s).", a->input.hay->name, x->hay_nsc_pct, source);
    }
}

static void tell_weight(const struct today_view *v, const struct run_animal *a, char *line, size_t size)
{
    char kg[TODAY_WEIGHT];
    snprintf(line, size, "Weight: %s%s.", today_weight(v, a->group, kg),
             a->group->weighed == DATE_NONE && v->holding->path[0] ? " by the holding file" : "");
}

static void tell_insulin(const struct today_view *v, const struct run_animal *a, char *line, size_t size)
{
    char date[DATE_TEXT];
    const struct diary_entry *e = latest(v->day->run, a, DIARY_INSULIN);
    if (e) {
        snprintf(line, size, "Last insulin: %.4g uIU/ml on %s.", e->value, date_format(e->date, date));
    } else {
        snprintf(line, size, "No insulin test is in the diary.");
    }
}

static void tell_history(const struct today_view *v, const struct run_animal *a, char *line, size_t size)
{
    size_t n = (size_t)snprintf(line, size, "Kept as %s", a->group->class_id);
    (void)v;
    for (unsigned i = 0; i < HISTORY_WORDS && n < size; i++) {
        n += a->group->history >> i & 1u ? (size_t)snprintf(line + n, size - n, ", %s", history_words[i]) : 0;
    }
    if (n < size) {
        snprintf(line + n, size - n, ".");
    }
}

bool signs_tell(const struct today_view *v, const struct run_animal *a, struct signs_told *t)
{
    static void (*const teller[])(const struct today_view *, const struct run_animal *, char *, size_t) = {
        tell_signs, tell_hours, tell_bucket, tell_hay, tell_weight, tell_insulin, tell_history};
    t->n = 0;
    if (!signs_stand(a)) {
        return false;
    }
    t->others = a->seen.words && others_sore(v, a);
    t->urgency = signs_urgency(a->seen.words, &a->group->rules, t->others);
    for (; t->n < sizeof teller / sizeof teller[0]; t->n++) {
        teller[t->n](v, a, t->line[t->n], sizeof t->line[0]);
    }
    return true;
}

void signs_text(const struct page *page, const struct today_view *v, const struct run_animal *a)
{
    struct signs_told t;
    if (!signs_tell(v, a, &t)) {
        return;
    }
    text_bold(page, "  ");
    text_bold(page, signs_call(t.urgency));
    buf_add(page->b, t.others ? signs_others : "");
    buf_add_char(page->b, '\n');
    for (size_t i = 0; i < SIGNS_ACTIONS; i++) {
        text_wrap(page, i ? "          " : "  Do now: ", signs_actions[i]);
    }
    for (size_t i = 0; i < t.n; i++) {
        text_wrap(page, i ? "          " : "  Tell:   ", t.line[i]);
    }
}

static void signs_seen(const struct run_animal *a, struct buf *b)
{
    const struct diary_kind *kind = &diary_kinds[DIARY_FOOT_SIGNS];
    const char *words[DIARY_WORDS];
    size_t n = 0;
    for (size_t i = 0; i < DIARY_WORDS && kind->word[i]; i++) {
        words[n] = kind->word[i];
        n += a->seen.words >> i & 1u;
    }
    json_key_date(b, "since", a->seen.since);
    buf_add_char(b, ',');
    json_key_texts(b, "words", words, n);
    buf_add_char(b, ',');
}

static void signs_object(const struct run_animal *a, const struct signs_told *t, struct buf *b)
{
    const char *line[SIGNS_TOLD];
    for (size_t i = 0; i < t->n; i++) {
        line[i] = t->line[i];
    }
    buf_add_char(b, '{');
    if (a->seen.words) {
        signs_seen(a, b);
    }
    buf_addf(b, "\"vet\":\"%s\",", t->urgency == SIGNS_AT_ONCE ? "at-once" : "today");
    json_key_texts(b, "until_then", signs_actions, SIGNS_ACTIONS);
    buf_add_char(b, ',');
    json_key_texts(b, "tell_the_vet", line, t->n);
    buf_add_char(b, '}');
}

void signs_json(const struct today_view *v, const struct run_animal *a, struct buf *b)
{
    const struct way_back *back = &a->input.back;
    struct signs_told t;
    bool stand = signs_tell(v, a, &t);
    buf_add(b, "\"signs\":");
    if (stand && a->seen.words) {
        signs_object(a, &t, b);
    } else {
        buf_add(b, "null");
    }
    buf_add(b, ",\"acute\":");
    if (stand && !a->seen.words) {
        signs_object(a, &t, b);
    } else {
        buf_add(b, "null");
    }
    buf_add(b, ",\"way_back\":");
    if (back->day > 0) {
        buf_addf(b, "{\"day\":%d,\"of\":%d,", back->day, back->days);
        json_key_number(b, "most_hours", back->most_h, 2);
        buf_add_char(b, ',');
        json_key_bool(b, "after_signs", back->after_signs);
        buf_add_char(b, '}');
    } else {
        buf_add(b, "null");
    }
}

bool signs_resting(const struct today_view *v, size_t i, char *text, size_t size)
{
    const struct run *r = v->day->run;
    char date[DATE_TEXT];
    for (size_t p = 0; p < r->paddocks; p++) {
        if (run_rests(&r->paddock[p]) && i-- == 0) {
            snprintf(
                text, size,
                "%s rests since %s, by the diary: its animals are off grass and get hay. \"sugarlea record grazed %s\" "
                "ends it.",
                r->paddock[p].kept->id, date_format(r->paddock[p].now.since, date), r->paddock[p].kept->id);
            return true;
        }
    }
    return false;
}

void signs_checklist(struct buf *b)
{
    buf_add(b, "Every morning, for each animal (print this page: sugarlea help signs):\n\n");
    for (size_t i = 0; i < SIGNS_CHECKS; i++) {
        const struct signs_check *c = &signs_checks[i];
        buf_addf(b, c->word ? "  [ ] %-58s else: %s\n" : "  [ ] %s\n", c->well, c->word);
    }
    buf_addf(b, "\n%s\n\nRing the vet the same day:\n", signs_alike);
    for (size_t i = 0; i < SIGNS_SAME_DAY_CASES; i++) {
        buf_addf(b, "  %s\n", signs_same_day[i]);
    }
    buf_add(b, "Ring the vet at once:\n");
    for (size_t i = 0; i < SIGNS_AT_ONCE_CASES; i++) {
        text_wrap(&(struct page){b, CHECKLIST_WIDTH, false}, "  ", signs_at_once[i]);
    }
    buf_add(b, "\nThese are usual temperatures and pulses: let your vet set those of your animals.\n\n"
               "  sugarlea record foot-signs ANIMAL shifting-weight hot-feet --note \"both fore feet\"\n"
               "  sugarlea record foot-signs ANIMAL none              when all signs are gone\n\n"
               "While signs stand in the diary the advice is none, whatever the sugar. This page finds no illness\n"
               "and rules none out.\n");
}
