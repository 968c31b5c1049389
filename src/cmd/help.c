/* Help, from the tables of commands, options, diary, layouts and services.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/help.h"

#include "cmd/context.h"
#include "cmd/reference.h"
#include "cmd/words.h"
#include "out/round.h"
#include "out/signs.h"
#include "weather/layout.h"
#include "weather/service.h"

#include <stdio.h>
#include <string.h>

enum {
    OPTION_COLUMN = 24, /* of terms in the lists */
    WHAT_COLUMN = 13,
    LAYOUT_COLUMN = 19,
    COMMAND_COLUMN = 17,
    TOPIC_COLUMN = 29,
    WORDS_SHORT = 60, /* more than that is for the manual */
    TERM_ROOM = 64
};

const struct help_topic help_topics[] = {
    {"signs", "the look-over of every morning, to print", signs_checklist, NULL},
    {"manual", "all of this as a page for man", NULL, manual},
    {"completion-bash", "completion for the shell: bash", NULL, completion_bash},
    {"completion-zsh", "the same for zsh", NULL, completion_zsh},
    {"completion-fish", "the same for fish", NULL, completion_fish},
};
const size_t help_topic_count = sizeof help_topics / sizeof help_topics[0];

void help_first(struct buf *out)
{
    buf_add(out, "sugarlea: how much sugar is in the grass this morning, and how long animals\n"
                 "prone to laminitis may graze on it.\n\n"
                 "  sugarlea today    the advice for the holding.json of this folder\n"
                 "  sugarlea today --weather weather.csv --latitude 52.3 --animal goat-dry\n"
                 "                    the same for one file of daily weather and one animal\n\n"
                 "Next: \"sugarlea setup\" asks you what it needs and writes holding.json.\n"
                 "\"sugarlea help today\" tells more, \"sugarlea help\" names all commands.\n");
    buf_add(out, reference_closing);
}

static void list_commands(struct buf *out)
{
    const struct doc d = {.b = out};
    char term[TERM_ROOM];
    buf_add(out, "sugarlea: how much sugar is in the grass this morning, and what that means for\n"
                 "animals prone to laminitis\n\n");
    for (size_t i = 0; i < command_rows; i++) {
        snprintf(term, sizeof term, "sugarlea %s", command_table[i].name);
        doc_term(&d, COMMAND_COLUMN, term, command_table[i].what);
    }
    buf_add_char(out, '\n');
    doc_term(&d, TOPIC_COLUMN, "sugarlea help COMMAND", "all options of a command");
    for (size_t i = 0; i < help_topic_count; i++) {
        snprintf(term, sizeof term, "sugarlea help %s", help_topics[i].name);
        doc_term(&d, TOPIC_COLUMN, term, help_topics[i].what);
    }
    doc_term(&d, TOPIC_COLUMN, "sugarlea --version", "name and version");
    buf_addf(out, "\n%s", reference_closing);
}

static void list_layouts(const struct doc *d)
{
    doc_title(d, "Layouts, known by their content, or named by --layout:");
    for (size_t i = 0; i < weather_layout_count; i++) {
        if (weather_layouts[i].what) {
            doc_term(d, LAYOUT_COLUMN, weather_layouts[i].name, weather_layouts[i].what);
        }
    }
}

static void list_services(const struct doc *d)
{
    doc_title(d, "Services that a holding may name:");
    for (size_t i = 0; i < service_count; i++) {
        char text[LIMIT_TEXT];
        snprintf(text, sizeof text, "%s; %s", services[i].kind == SERVICE_RECORDED ? "recorded" : "forecast",
                 services[i].licence);
        doc_term(d, LAYOUT_COLUMN, services[i].name, text);
    }
}

static void list_reasons(const struct doc *d)
{
    doc_title(d, "Whom to ring first, and when:");
    for (size_t i = 0; i < ROUND_REASONS; i++) {
        char text[LIMIT_TEXT];
        snprintf(text, sizeof text, "%s: %s", round_call_ids[round_kinds[i].call], round_kinds[i].what);
        doc_term(d, LAYOUT_COLUMN, round_kinds[i].id, text);
    }
}

static void diary_row(const struct doc *d, const struct diary_kind *k, struct buf *text)
{
    char words[LIMIT_TEXT];
    buf_clear(text);
    buf_addf(text, "%s: %s", diary_subject_names[k->subject], k->what);
    for (size_t u = 0; u < DIARY_UNITS && k->unit[u].name; u++) {
        buf_addf(text, "%s%s", u ? " or " : "; in ", k->unit[u].name);
    }
    buf_add(text, k->bare ? k->unit[0].name ? " (may be left out)" : "; no value" : "");
    if (k->word[0]) {
        buf_addf(text, ": %s", diary_words_text(k, ~0u, ", ", words, sizeof words));
    }
    doc_term(d, WHAT_COLUMN, k->name, text->text);
}

static void list_diary(const struct doc *d)
{
    struct buf text;
    buf_init(&text);
    doc_title(d, "WHAT, the SUBJECT it is about, and the VALUE it takes:");
    for (size_t i = 0; i < DIARY_WHATS; i++) {
        diary_row(d, &diary_kinds[i], &text);
    }
    doc_release(d, &text);
}

void help_about(const struct doc *d, const struct command *c)
{
    doc_flow(d, c->about);
    if (c->bit == FOR_RECORD) {
        list_diary(d);
    }
    if (c->bit == FOR_ROUND) {
        list_reasons(d);
    }
    if (c->bit == FOR_WEATHER) {
        list_layouts(d);
        list_services(d);
    }
}

/* Range, or words where they are known and few, behind what the option is. */
static void option_text(const struct option_row *o, const struct params *p, struct buf *text)
{
    struct buf words;
    buf_init(&words);
    buf_clear(text);
    buf_add(text, o->what);
    if (o->type == OPTION_NUMBER || o->type == OPTION_WHOLE) {
        buf_addf(text, ", %.10g to %.10g", o->low, o->high);
    }
    for (size_t i = 0; words_of(o, p, i); i++) {
        buf_addf(&words, "%s%s", i ? ", " : ": ", words_of(o, p, i));
    }
    if (p || words.length < WORDS_SHORT) {
        buf_add(text, words.text);
    }
    buf_release_into(&words, text);
}

void help_options(const struct doc *d, unsigned commands, const struct params *p)
{
    struct buf text;
    buf_init(&text);
    for (size_t i = 0; i < option_rows; i++) {
        const struct option_row *o = &option_table[i];
        char term[TERM_ROOM], letter[] = "    ";
        if (o->letter) {
            snprintf(letter, sizeof letter, "-%c, ", o->letter);
        }
        if (o->commands & commands) {
            snprintf(term, sizeof term, "%s--%s%s%s", letter, o->name, o->value ? " " : "", o->value ? o->value : "");
            option_text(o, p, &text);
            doc_term(d, OPTION_COLUMN, term, text.text);
        }
    }
    doc_release(d, &text);
}

void help_command(const struct command *c, struct buf *out)
{
    const struct doc d = {.b = out};
    char title[LIMIT_TEXT];
    snprintf(title, sizeof title, "sugarlea %s: %s\n\n", c->name, c->what);
    doc_flow(&d, title);
    help_about(&d, c);
    doc_title(&d, "Options:");
    help_options(&d, c->bit, NULL);
    buf_addf(out, "\n%s", reference_closing);
}

static enum err_code show_topic(const struct help_topic *t, struct buf *out, struct err *e)
{
    struct context c;
    if (t->simple) {
        t->simple(out);
        return ERR_OK;
    }
    context_init(&c);
    enum err_code code = context_params(&c, e);
    if (code == ERR_OK) {
        t->with_params(&c.params, out);
    }
    context_release(&c);
    return code;
}

/* True: the words, with hyphens between them, are the name ("completion bash" too). */
static bool named(const char *name, size_t words, char *const *word)
{
    char joined[TERM_ROOM] = "";
    for (size_t i = 0; i < words; i++) {
        strncat(joined, i ? "-" : "", sizeof joined - strlen(joined) - 1);
        strncat(joined, word[i], sizeof joined - strlen(joined) - 1);
    }
    return strcmp(joined, name) == 0;
}

static enum err_code unknown(const char *word, struct err *e)
{
    const char *name[sizeof help_topics / sizeof help_topics[0]];
    for (size_t i = 0; i < help_topic_count; i++) {
        name[i] = help_topics[i].name;
    }
    const char *near = err_did_you_mean(word, name, help_topic_count);
    return near ? err_set(e, ERR_USAGE, "there is no help for \"%.40s\"; did you mean \"%s\"?", word, near)
                : command_unknown(word, e);
}

enum err_code help(size_t words, char *const *word, struct buf *out, struct err *e)
{
    if (words == 0) {
        list_commands(out);
        return ERR_OK;
    }
    for (size_t i = 0; i < help_topic_count; i++) {
        if (named(help_topics[i].name, words, word)) {
            return show_topic(&help_topics[i], out, e);
        }
    }
    const struct command *c = command_find(word[0]);
    if (!c) {
        return unknown(word[0], e);
    }
    help_command(c, out);
    return ERR_OK;
}
