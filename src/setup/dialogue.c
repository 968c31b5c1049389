/* Puts the questions of the table one by one, keeps what was answered, and goes back.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json_scan.h"
#include "out/text.h"
#include "setup/question.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { WRONG_MOST = 5, /* answers in a row, where nobody sits */ OPTION_NAME = 64 };

void setup_say(struct setup *s, const char *format, ...)
{
    char text[ANSWER];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    text_wrap(&(struct page){&s->say, s->job->io.width, false}, "  ", text);
}

static void flush(struct setup *s)
{
    s->job->io.write(s->job->io.with, s->say.text);
    buf_clear(&s->say);
}

static void show_choices(struct setup *s, const struct choices *c)
{
    char lead[ANSWER];
    size_t widest = 0, n = c->shown ? c->shown : c->n;
    for (size_t i = 0; i < n; i++) {
        size_t width = json_scan_letters(c->row[i].word, strlen(c->row[i].word));
        widest = width > widest ? width : widest;
    }
    for (size_t i = 0; i < n; i++) {
        const char *word = c->row[i].word;
        size_t pad = widest - json_scan_letters(word, strlen(word));
        snprintf(lead, sizeof lead, "  %2zu  %s%*s  ", i + 1, word, (int)pad, "");
        text_wrap(&(struct page){&s->say, s->job->io.width, false}, lead, c->row[i].what);
    }
}

static void show(struct setup *s, bool more)
{
    const struct question *q = question_at(s->question);
    const struct page page = {&s->say, s->job->io.width, s->job->io.colour};
    struct choices c = {0};
    if (q->before && !more) {
        q->before(s);
    }
    buf_add(&s->say, "\n");
    text_bold(&page, q->title);
    buf_add(&s->say, "\n");
    text_wrap(&page, "  ", more && q->more ? q->more : q->ask);
    if (q->choices && !more) {
        q->choices(s, &c);
        show_choices(s, &c);
    }
}

/* What Enter stands for; false: nothing. */
static bool offered(struct setup *s, char text[ANSWER])
{
    const struct question *q = question_at(s->question);
    if (s->retry) {
        snprintf(text, ANSWER, "%s", s->retry);
        return true;
    }
    return q->offer && q->offer(s, text);
}

/* A question that lost a part is not put, and nothing is assumed unsaid. */
static enum err_code said_whole(const struct setup *s, struct err *e)
{
    return s->say.failed ? err_set(e, ERR_NOMEM, "out of memory") : ERR_OK;
}

static void prompt(struct setup *s)
{
    char text[ANSWER];
    if (offered(s, text)) {
        buf_add(&s->say, "  [");
        buf_add_clean(&s->say, text, strlen(text), ANSWER);
        buf_add(&s->say, "] > ");
    } else {
        buf_add(&s->say, "  > ");
    }
    flush(s);
}

/* The words of the table in place of numbers and beginnings. */
static enum err_code translate(const struct setup *s, const char *answer, char out[ANSWER], struct err *e)
{
    const struct question *q = question_at(s->question);
    struct choices c = {0};
    char copy[ANSWER], *rest = NULL;
    const char *word = NULL;
    snprintf(out, ANSWER, "%s", answer);
    if (!q->choices || strcmp(answer, AS_IT_IS) == 0) {
        return ERR_OK;
    }
    q->choices(s, &c);
    if (!c.several) {
        if (!choose(&c, answer, &word, e)) {
            return ERR_USAGE;
        }
        snprintf(out, ANSWER, "%s", word);
        return ERR_OK;
    }
    size_t used = 0;
    snprintf(copy, sizeof copy, "%s", answer);
    out[0] = 0;
    for (char *one = strtok_r(copy, ", ;+", &rest); one && used < ANSWER; one = strtok_r(NULL, ", ;+", &rest)) {
        if (!choose(&c, one, &word, e)) {
            return ERR_USAGE;
        }
        used += (size_t)snprintf(out + used, ANSWER - used, "%s%s", used ? "," : "", word);
    }
    return used ? ERR_OK : err_set(e, ERR_USAGE, "name one or more of them, with commas between");
}

static bool begin_step(struct setup *s, const char *answer, const char *word, struct step **step)
{
    *step = arena_alloc(s->job->arena, 1, sizeof **step);
    const char *kept = arena_strdup(s->job->arena, answer), *understood = arena_strdup(s->job->arena, word);
    cJSON *copy = cJSON_Duplicate(s->now.root, true);
    if (!*step || !kept || !understood || !copy) {
        cJSON_Delete(copy);
        return false;
    }
    **step =
        (struct step){.before = s->last, .question = s->question, .state = s->now, .answer = kept, .word = understood};
    (*step)->state.root = s->now.root;
    s->now.root = copy;
    return true;
}

static enum err_code accept(struct setup *s, const char *answer, enum answered by, struct err *e)
{
    char word[ANSWER];
    struct step *step;
    enum err_code code = translate(s, answer, word, e);
    if (code != ERR_OK) {
        return code;
    }
    if (!begin_step(s, answer, word, &step)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    step->by = by;
    s->next = s->question + 1;
    code = question_at(s->question)->take(s, word, e);
    code = code == ERR_OK || s->failed ? tree_check(s, e) : code;
    if (code != ERR_OK) {
        cJSON_Delete(s->now.root);
        s->now = step->state;
        return code;
    }
    s->last = step;
    s->question = s->next;
    s->retry = NULL;
    return ERR_OK;
}

/* To the last question that was asked; false: there is none. */
static bool go_back(struct setup *s)
{
    const struct step *step = s->last;
    while (step && step->by != BY_SOMEBODY) {
        step = step->before;
    }
    if (!step) {
        return false;
    }
    bool there = false;
    while (!there) {
        struct step *last = s->last;
        there = last == step;
        cJSON_Delete(s->now.root);
        s->now = last->state;
        s->question = last->question;
        s->used[last->question] = false;
        s->retry = last->answer;
        s->last = last->before;
    }
    return true;
}

static char *trim(char *line)
{
    line += strspn(line, " \t\r");
    size_t n = strlen(line);
    while (n && strchr(" \t\r", line[n - 1])) {
        line[--n] = 0;
    }
    return line;
}

static bool has_control(const char *line)
{
    for (const unsigned char *c = (const unsigned char *)line; *c; c++) {
        if ((*c < 0x20 && *c != '\t') || *c == 0x7f) {
            return true;
        }
    }
    return false;
}

static enum err_code read_line(struct setup *s, char line[ANSWER], char **answer, struct err *e)
{
    enum setup_line got = s->job->io.read(s->job->io.with, line, ANSWER);
    *answer = trim(line);
    bool left = got == SETUP_LINE_END || strcasecmp(*answer, "quit") == 0 || strcasecmp(*answer, "exit") == 0;
    if (!s->job->io.terminal && got == SETUP_LINE) {
        buf_add_clean(&s->say, *answer, strlen(*answer), ANSWER);
        buf_add(&s->say, "\n");
    }
    if (left) {
        buf_add(&s->say, "\n");
        flush(s);
        return err_set(e, ERR_NOINPUT, "the questions were left at \"%s\": nothing was written",
                       question_at(s->question)->title);
    }
    if (got == SETUP_LINE_LONG || has_control(*answer)) {
        setup_say(s, got == SETUP_LINE_LONG ? "That line is too long." : "That holds a control character.");
        *answer = NULL;
    }
    return ERR_OK;
}

enum outcome { DONE, AGAIN, WRONG, FAILED };

static enum outcome handle(struct setup *s, const char *answer, struct err *e)
{
    char enter[ANSWER];
    if (strcmp(answer, "?") == 0) {
        show(s, true);
        return AGAIN;
    }
    if (strcasecmp(answer, "back") == 0) {
        if (!go_back(s)) {
            setup_say(s, "This is the first question; \"quit\" leaves.");
            return AGAIN;
        }
        return DONE;
    }
    if (!answer[0]) {
        if (!offered(s, enter)) {
            setup_say(s, "This one needs an answer; ? explains more.");
            return WRONG;
        }
        answer = enter;
    }
    enum err_code code = accept(s, answer, BY_SOMEBODY, e);
    if (code == ERR_OK || code == ERR_NOMEM || code == ERR_BUG) {
        return code == ERR_OK ? DONE : FAILED;
    }
    setup_say(s, "That will not do: %s.", e->what);
    err_clear(e);
    return WRONG;
}

static enum err_code converse(struct setup *s, struct err *e)
{
    enum outcome outcome = AGAIN;
    unsigned wrong = 0;
    show(s, false);
    while (outcome == AGAIN || outcome == WRONG) {
        char line[ANSWER], *answer;
        prompt(s);
        enum err_code code = said_whole(s, e);
        code = code == ERR_OK ? read_line(s, line, &answer, e) : code;
        if (code != ERR_OK) {
            return code;
        }
        outcome = answer ? handle(s, answer, e) : WRONG;
        wrong += outcome == WRONG;
        if (wrong == WRONG_MOST && !s->job->io.terminal) {
            flush(s);
            return err_set(e, ERR_USAGE, "%d answers to \"%s\" would not do: nothing was written", WRONG_MOST,
                           question_at(s->question)->title);
        }
    }
    return outcome == DONE ? ERR_OK : e->code;
}

/* The answer that the command line gives to the question; NULL none, or none any more. */
static const char *given(struct setup *s)
{
    const char *option = question_at(s->question)->option;
    for (size_t i = 0; option && i < s->job->givens; i++) {
        if (strcmp(s->job->given[i].option, option) == 0 && !s->used[s->question]) {
            s->used[s->question] = s->job->given[i].text != NULL;
            return s->job->given[i].text;
        }
    }
    return NULL;
}

static enum err_code blame_option(const struct setup *s, enum err_code code, struct err *e)
{
    struct err plain = {.code = ERR_USAGE};
    char name[OPTION_NAME];
    snprintf(name, sizeof name, "--%s", question_at(s->question)->option);
    if (code == ERR_NOINPUT || code == ERR_DATA || code == ERR_NOMEM || code == ERR_BUG) {
        return code; /* of a file, which the message names */
    }
    memcpy(plain.what, e->what, sizeof plain.what);
    *e = plain;
    return err_at(e, NULL, 0, 0, name);
}

static enum err_code take_given(struct setup *s, const char *answer, struct err *e)
{
    enum err_code code = accept(s, answer, BY_OPTION, e);
    return code == ERR_OK ? code : blame_option(s, code, e);
}

static enum err_code take_default(struct setup *s, struct err *e)
{
    const struct question *q = question_at(s->question);
    char text[ANSWER], name[OPTION_NAME];
    snprintf(name, sizeof name, "%s%s", q->option ? "--" : "", q->option ? q->option : q->title);
    if (!offered(s, text)) {
        err_set(e, ERR_USAGE, "is needed: %s", q->ask);
        return err_at(e, NULL, 0, 0, name);
    }
    if (!q->quiet && !q->leads_on && s->job->no_input) {
        buf_addf(&s->say, "  %-22s  %s\n", name, text);
    }
    return accept(s, text, ASSUMED, e);
}

/* Does the default stand for an answer? */
static bool is_assumed(struct setup *s)
{
    const struct question *q = question_at(s->question);
    char enter[ANSWER];
    bool key = q->key && !(q->spare && q->spare(s));
    return s->job->no_input || (s->job->brief && !key && !s->retry && offered(s, enter));
}

static enum err_code next(struct setup *s, struct err *e)
{
    const struct question *q = question_at(s->question);
    if (q->again || (q->applies && !q->applies(s))) {
        s->question = q->again ? q->again : s->question + 1;
        return ERR_OK;
    }
    const char *answer = given(s);
    enum err_code code = answer ? take_given(s, answer, e) : is_assumed(s) ? take_default(s, e) : converse(s, e);
    flush(s);
    return code == ERR_OK ? said_whole(s, e) : code;
}

static enum err_code finish(struct setup *s, char *path, struct buf *text, struct err *e)
{
    struct holding h;
    if (s->now.facts.elsewhere) {
        setup_free_name(path, false, path);
    }
    tidy_json(s->now.root, text);
    return text->failed ? err_set(e, ERR_NOMEM, "out of memory")
                        : holding_parse(text->text, text->length, path, s->p, s->job->arena, &h, e);
}

enum err_code setup_ask(const struct setup_job *job, char *path, struct buf *text, struct err *e)
{
    struct setup s = {.job = job, .p = job->params, .path = path};
    s.now.facts = (struct facts){.look = -1, .kind = -1, .stage = -1, .bales = NAN};
    buf_init(&s.say);
    enum err_code code = start_begin(&s, e);
    while (code == ERR_OK && s.question < QUESTIONS) {
        code = next(&s, e);
    }
    if (code == ERR_OK && s.refused) {
        code = err_set(e, ERR_NOINPUT, "you said no: nothing was written");
    }
    code = code == ERR_OK ? finish(&s, path, text, e) : code;
    for (const struct step *step = s.last; step; step = step->before) {
        cJSON_Delete(step->state.root);
    }
    cJSON_Delete(s.now.root);
    cJSON_Delete(s.old);
    buf_release(&s.say);
    return code;
}
