/* The commands, their help, and dispatch. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/table.h"

#include "advice/signs.h"
#include "cmd/today.h"
#include "weather/layout.h"
#include "weather/service.h"

#include <stdio.h>
#include <string.h>

enum { COMMANDS_MOST = 16 };

const struct command command_table[] = {
    {"today", FOR_TODAY, cmd_today, "the morning advice for each group of animals",
     "Reads holding.json in this folder (or --holding FILE, or $SUGARLEA_HOLDING); without one, give\n"
     "--weather, --latitude and --animal. A morning in the past is advised by what was known then.\n"
     "NSC limits of goats, sheep, alpacas and cattle are our choice: no published limit exists.\n"
     "Each advice of a holding is added to advice-log.csv beside it (--no-log: not).\n"
     "--quiet prints nothing while turnout, hours, muzzle and foot signs stay as last told by the log, the\n"
     "hours begin less than half an hour apart, no frost and no doubt about old weather is new. An error\n"
     "is always told. --calendar holds this morning and all that the forecast reaches, or --days N.\n"
     "An error's exit code comes before that of --exit-status.\n"},
    {"season", FOR_SEASON, cmd_season, "growth, sugar and advice day by day over a stretch of the record",
     "Growth and sugar are by the full record; the turnout is what each morning would have advised.\n"
     "--plot FILE or --term draws it. Pictures: days (the last year), years (the whole record, a row a\n"
     "year), hours (when in the day the grass holds how much, 31 days; at most 62).\n"},
    {"ration", FOR_RATION, cmd_ration, "what a day's feed adds up to, against the limits of each group",
     "Grass by this morning's advice, hay to fill the day, and what fed_daily names. NSC is WSC + starch.\n"
     "--arithmetic shows every product and sum. A hay counts as it is dry and as it was analysed; soaking\n"
     "is told as a plan and passes nothing.\n"},
    {"outlook", FOR_OUTLOOK, cmd_outlook, "the coming months as probabilities, from every past year's weather",
     "Runs the grass as it stands this morning through each past year of the record: five or more\n"
     "are wanted, two are needed. Days not free are what will be advised if a year comes again.\n"},
    {"hay", FOR_HAY, cmd_hay, "will the hay last, how much to buy, and by when to order",
     "What each group will be advised to eat in each past year's weather, losses of store and feeding\n"
     "divided out, against the stock as counted this morning. Without weather: table values, as if no\n"
     "grass were eaten. Bales are rounded up to whole ones. A year ahead at most.\n"},
    {"review", FOR_REVIEW, cmd_review, "how good past mornings were, against as-yesterday and the usual for the date",
     "Every recorded day is replayed with what its morning knew, and a day and three days ahead, against\n"
     "what the full record gives for it. Without --from the first 300 days are left for the sward to settle.\n"
     "\"Not defined\" stands where nothing of the kind happened or too few days are there to say how sure.\n"},
    {"tune", FOR_TUNE, cmd_tune, "how well the grass tests of the diary agree with the model, and its correction",
     "Holds each grass-nsc and grass-wsc of diary.csv against what was reckoned for that hour, or the day\n"
     "when no time is noted. --apply corrects the paddock's level from then on, in part: the more tests,\n"
     "the more. A result under the laboratory's limit is written as the limit, its note beginning with <.\n"},
    {"weather", FOR_WEATHER, cmd_weather, "what weather there is, how old, and what in it looks wrong",
     "Reads what the holding names, or --weather FILE alone. Layouts are known by their content;\n"
     "--layout NAME and --file-units NAME say what a file does not. --csv writes all days as one table.\n"},
    {"record", FOR_RECORD, cmd_record, "write what you saw or did into the diary: WHAT SUBJECT VALUE",
     "  sugarlea record grass-nsc pump-field 18.2 % --at 06:40 --note \"lab Invented, cut at 6 cm\"\n"
     "  sugarlea record foot-signs grey-pony shifting-weight hot-feet\n"
     "  sugarlea record --undo\n\n"
     "The diary is diary.csv beside the holding file. A later entry of the same kind takes over from its\n"
     "day on. \"sugarlea help signs\" is the look-over of every morning.\n"},
    {"params", FOR_PARAMS, cmd_params, "every number of the model with unit, range and source", ""},
};
const size_t command_rows = sizeof command_table / sizeof command_table[0];

static const char closing[] = "Planning help, not a diagnosis: local rules and your vet come first.\n";

static void list_commands(struct buf *b)
{
    buf_add(b, "sugarlea: how much sugar is in the grass this morning, and what that means for\n"
               "animals prone to laminitis\n\n");
    for (size_t i = 0; i < command_rows; i++) {
        buf_addf(b, "  sugarlea %-8s %s\n", command_table[i].name, command_table[i].what);
    }
    buf_add(b, "  sugarlea help [COMMAND], help signs, --version\n\n"
               "  sugarlea today --weather FILE --latitude 52.1 --animal goat-dry\n\n");
    buf_add(b, closing);
}

static void list_layouts(struct buf *b)
{
    buf_add(b, "\nLayouts, known by their content, or named by --layout:\n");
    for (size_t i = 0; i < weather_layout_count; i++) {
        if (weather_layouts[i].what) {
            buf_addf(b, "  %-18s  %s\n", weather_layouts[i].name, weather_layouts[i].what);
        }
    }
}

static void list_services(struct buf *b)
{
    buf_add(b, "\nServices that a holding may name:\n");
    for (size_t i = 0; i < service_count; i++) {
        buf_addf(b, "  %-19s  %s; %s\n", services[i].name,
                 services[i].kind == SERVICE_RECORDED ? "recorded" : "forecast", services[i].licence);
    }
}

static void list_diary(struct buf *b)
{
    buf_add(b, "\nWHAT, and the VALUE it takes:\n");
    for (size_t i = 0; i < DIARY_WHATS; i++) {
        const struct diary_kind *k = &diary_kinds[i];
        char words[LIMIT_TEXT];
        buf_addf(b, "  %-13s  %s: %s", k->name, diary_subject_names[k->subject], k->what);
        for (size_t u = 0; u < DIARY_UNITS && k->unit[u].name; u++) {
            buf_addf(b, "%s%s", u ? " or " : "; in ", k->unit[u].name);
        }
        buf_addf(b, "%s\n", k->bare ? k->unit[0].name ? " (may be left out)" : "; no value" : "");
        if (k->word[0]) {
            buf_addf(b, "  %-13s  %s\n", "", diary_words_text(k, ~0u, ", ", words, sizeof words));
        }
    }
}

static void describe(const struct command *c, struct buf *b)
{
    buf_addf(b, "sugarlea %s: %s\n\n%s\n", c->name, c->what, c->about);
    for (size_t i = 0; i < option_rows; i++) {
        const struct option_row *o = &option_table[i];
        char left[64];
        if (o->commands & c->bit) {
            snprintf(left, sizeof left, "--%s %s", o->name, o->value ? o->value : "");
            buf_addf(b, "  %s%c%s %-24s %s\n", o->letter ? "-" : "", o->letter ? o->letter : ' ',
                     o->letter ? "," : "  ", left, o->what);
        }
    }
    if (c->bit == FOR_RECORD) {
        list_diary(b);
    }
    if (c->bit == FOR_WEATHER) {
        list_layouts(b);
        list_services(b);
    }
    buf_addf(b, "\n%s", closing);
}

static const struct command *find(const char *name, struct err *e)
{
    const char *names[COMMANDS_MOST];
    for (size_t i = 0; i < command_rows; i++) {
        names[i] = command_table[i].name;
        if (strcmp(name, names[i]) == 0) {
            return &command_table[i];
        }
    }
    const char *near = err_did_you_mean(name, names, command_rows);
    if (near) {
        err_set(e, ERR_USAGE, "there is no command \"%.40s\"; did you mean \"%s\"?", name, near);
    } else {
        err_set(e, ERR_USAGE, "there is no command \"%.40s\"; \"sugarlea help\" lists them", name);
    }
    return NULL;
}

static enum err_code help(const char *name, struct buf *out, struct err *e)
{
    if (!name) {
        list_commands(out);
        return ERR_OK;
    }
    if (strcmp(name, "signs") == 0) {
        for (unsigned i = 0; i < signs_checklist_lines; i++) {
            buf_addf(out, "%s\n", signs_checklist[i]);
        }
        return ERR_OK;
    }
    const struct command *c = find(name, e);
    if (c) {
        describe(c, out);
    }
    return c ? ERR_OK : ERR_USAGE;
}

static enum err_code dispatch(int argc, char **argv, struct buf *out, int *status, struct err *e)
{
    struct options o;
    if (argc < 2 || strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        return help(NULL, out, e);
    }
    if (strcmp(argv[1], "help") == 0) {
        return help(argc > 2 ? argv[2] : NULL, out, e);
    }
    if (strcmp(argv[1], "--version") == 0) {
        buf_addf(out, "sugarlea %s\n", SUGARLEA_VERSION);
        return ERR_OK;
    }
    const struct command *c = find(argv[1], e);
    if (!c) {
        return ERR_USAGE;
    }
    enum err_code code = options_read(argc - 1, argv + 1, c->bit, &o, e);
    if (code != ERR_OK) {
        return code;
    }
    if (o.help) {
        describe(c, out);
        return ERR_OK;
    }
    return c->run(&o, out, status, e);
}

int command_main(int argc, char **argv)
{
    struct buf out;
    struct err e;
    char text[1024];
    int status = 0;
    err_clear(&e);
    buf_init(&out);
    enum err_code code = dispatch(argc, argv, &out, &status, &e);
    if (code == ERR_OK && out.failed) {
        code = err_set(&e, ERR_NOMEM, "out of memory");
    }
    /* an answer is printed even when only its log could not be written */
    bool answered = code == ERR_OK || code == ERR_CREATE || code == ERR_WRITE || code == ERR_AGAIN;
    if (answered && (fwrite(out.text, 1, out.length, stdout) != out.length || fflush(stdout) != 0)) {
        code = err_set(&e, ERR_WRITE, "the answer could not be written to standard output");
    }
    if (code != ERR_OK) {
        err_format(&e, text, sizeof text);
        fprintf(stderr, "sugarlea: %s\n", text);
    }
    buf_release(&out);
    return code != ERR_OK ? (int)code : status;
}
