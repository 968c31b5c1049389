/* What stands there already, the name, and the last look before it is written.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/file.h"
#include "out/text.h"
#include "setup/question.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char root_note[] =
    "Run sugarlea setup again, or change this by hand. A note may stand in any part and is not read.";

void setup_free_name(const char *path, bool old, char *out)
{
    char stem[LIMIT_PATH], name[LIMIT_PATH];
    const char *ending = old ? "" : ".json";
    size_t n = strlen(path), cut = strlen(ending);
    bool json = !old && n > cut && strcmp(path + n - cut, ending) == 0;
    snprintf(stem, sizeof stem, "%.*s", (int)(json ? n - cut : n), path);
    for (unsigned i = old ? 1 : 2;; i++) {
        char number[16] = "";
        if (i > 1) {
            snprintf(number, sizeof number, "-%u", i);
        }
        snprintf(name, sizeof name, "%.4000s%s%s%s", stem, old ? ".old" : "", number, json ? ending : "");
        if (access(name, F_OK) != 0) {
            snprintf(out, LIMIT_PATH, "%s", name);
            return;
        }
    }
}

static bool make_root(struct setup *s)
{
    s->now.root = cJSON_CreateObject();
    return cJSON_AddNumberToObject(s->now.root, "sugarlea", 1) &&
           cJSON_AddStringToObject(s->now.root, "note", root_note);
}

/* The tree of a holding that the reader takes; else why not is said. */
static enum err_code read_old(struct setup *s, struct err *e)
{
    struct file_view view;
    struct holding h;
    struct json_doc doc;
    char why[ANSWER];
    enum err_code code = file_view(s->path, LIMIT_JSON_BYTES, &view, e);
    if (code == ERR_OK) {
        code = holding_parse(view.data, view.size, s->path, s->p, s->job->arena, &h, e);
        code = code == ERR_OK ? json_parse(view.data, view.size, s->path, &doc, e) : code;
        s->old = code == ERR_OK ? doc.root : NULL;
        file_unview(&view);
    }
    if (code == ERR_NOMEM) {
        return code;
    }
    if (!s->old) {
        err_format(e, why, sizeof why);
        setup_say(s, "There is a file of that name, and it cannot be gone through: %s.", why);
        err_clear(e);
    }
    return ERR_OK;
}

static void greet(struct setup *s)
{
    setup_say(s, "%s Enter takes what stands in [brackets]. ? explains more, back goes one question back, quit leaves.",
              s->job->brief ? "A dozen questions at most; the rest is assumed and shown before anything is written."
                            : "Some questions about your place; nothing is written before the end.");
}

enum err_code start_begin(struct setup *s, struct err *e)
{
    if (!make_root(s)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    s->stands = !s->job->anew && access(s->path, F_OK) == 0;
    if (!s->job->no_input) {
        greet(s);
    } else {
        buf_add(&s->say, "Assumed, since no option said otherwise:\n");
    }
    return s->stands ? read_old(s, e) : ERR_OK;
}

bool is_asked(const struct setup *s)
{
    return !s->job->no_input;
}

static bool start_applies(const struct setup *s)
{
    return s->stands;
}

static void start_choices(const struct setup *s, struct choices *c)
{
    if (s->old) {
        choice_add(c, "change", "go through it: what it holds stands in brackets, and what is not asked stays");
    }
    choice_add(c, "another", "leave it as it is, and write a new one beside it, under another name");
}

static bool start_offer(struct setup *s, char text[ANSWER])
{
    snprintf(text, ANSWER, "%s", s->old ? "change" : "another");
    return true;
}

static enum err_code start_take(struct setup *s, const char *answer, struct err *e)
{
    s->now.facts.elsewhere = strcmp(answer, "another") == 0;
    if (s->now.facts.elsewhere) {
        return ERR_OK;
    }
    cJSON_Delete(s->now.root);
    s->now.root = cJSON_Duplicate(s->old, true);
    return s->now.root ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory");
}

static bool name_offer(struct setup *s, char text[ANSWER])
{
    const char *old = tree_string(s->now.root, "name");
    snprintf(text, ANSWER, "%s", old[0] ? old : "My holding");
    return true;
}

static enum err_code name_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    tree_text(s, s->now.root, "name", answer);
    return ERR_OK;
}

const struct question start_rows[] = {
    {.title = "There is a holding file already",
     .leads_on = true,
     .key = true,
     .ask = "What shall be done with it?",
     .more =
         "Whatever you choose, nothing is lost: before a changed file takes its place, the one that stands there is "
         "kept with .old behind its name.",
     .applies = start_applies,
     .choices = start_choices,
     .offer = start_offer,
     .take = start_take},
    {.title = "Name",
     .ask = "What is the place called? It stands on top of each advice.",
     .more = "Any words will do. They stay on this machine.",
     .option = "name",
     .offer = name_offer,
     .take = name_take},
};

/* An answer that stands in the file, as it was typed. */
static void show_answer(struct setup *s, const struct step *step)
{
    const struct question *q = question_at(step->question);
    struct buf line;
    char lead[ANSWER];
    if (q->leads_on || (q->quiet && step->by == ASSUMED)) {
        return;
    }
    buf_init(&line);
    snprintf(lead, sizeof lead, "  %-23s  ", q->title);
    buf_add_clean(&line, step->word, strlen(step->word), ANSWER);
    buf_add(&line, step->by == ASSUMED ? " (assumed)" : "");
    text_wrap(&(struct page){&s->say, s->job->io.width, false}, lead, line.text);
    buf_release_into(&line, &s->say);
}

static void write_before(struct setup *s)
{
    const struct step *shown = NULL;
    buf_add(&s->say, "\n");
    setup_say(s, s->old && !s->now.facts.elsewhere ? "Your answers. What was not asked stays as it stands in the file."
                                                   : "Your answers.");
    while (shown != s->last) { /* the first of them lies at the end of the list */
        const struct step *step = s->last;
        while (step->before != shown) {
            step = step->before;
        }
        show_answer(s, step);
        shown = step;
    }
}

static void write_choices(const struct setup *s, struct choices *c)
{
    (void)s;
    choice_add(c, "yes", "write it");
    choice_add(c, "no", "leave, and write nothing");
}

static bool write_offer(struct setup *s, char text[ANSWER])
{
    (void)s;
    snprintf(text, ANSWER, "yes");
    return true;
}

static enum err_code write_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    s->refused = strcmp(answer, "no") == 0;
    return ERR_OK;
}

const struct question write_rows[] = {
    {.title = "Write it",
     .key = true,
     .ask = "Is that right?",
     .more = "back goes to the last question, and from there to those before it. Nothing is written yet.",
     .applies = is_asked,
     .before = write_before,
     .choices = write_choices,
     .offer = write_offer,
     .take = write_take}};
