/* The commands, their help, and dispatch. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/table.h"

#include "cmd/help.h"
#include "cmd/today.h"

#include <stdio.h>
#include <string.h>

const struct command command_table[] = {
    {"setup", FOR_SETUP, cmd_setup, "write a holding file by questions in plain words, then the first advice",
     "Asks one thing at a time: Enter takes what stands in brackets, ? explains, back goes back, quit leaves. Nothing "
     "is written before the end. A holding that is there is gone through again, and kept with .old behind its name. "
     "Options answer questions "
     "beforehand. --short asks the dozen that matter most and shows what it assumed; run it again without for the "
     "rest. "
     "--no-input asks nothing, lists what it assumed, and replaces no file without --replace.\n"
     "  sugarlea setup\n"
     "  sugarlea setup --no-input --replace --latitude 52 --longitude -2 --animal pony\n"},
    {"today", FOR_TODAY, cmd_today, "the morning advice for each group of animals",
     "Reads holding.json in this folder (or --holding FILE, or $SUGARLEA_HOLDING); \"sugarlea setup\" writes one. "
     "Without one, give --weather, --latitude and --animal. A morning in the past is advised by what was known then. "
     "Sugar means NSC: sugars, fructan and starch. For goats, sheep, alpacas and cattle its limits are our choice: no "
     "published limit exists. Each advice of a holding is added to advice-log.csv beside it (--no-log: not). --quiet "
     "prints nothing while turnout, hours, muzzle and foot signs stay as last told by the log. Hours that begin within "
     "half an hour of those count as the same. A frost that is new is told, and so are weather that has grown old and "
     "any error. --calendar holds this morning and all that the forecast reaches, or --days N. An "
     "error's exit code comes before that of --exit-status.\n"
     "  sugarlea today\n"
     "  sugarlea today --date 2025-04-20 --no-log\n"
     "  sugarlea today --weather weather.csv --latitude 52.3 --animal goat-dry\n"
     "  sugarlea today --quiet --calendar grazing.ics\n"},
    {"sheet", FOR_SHEET, cmd_sheet, "the same as one page for the phone and the stable door",
     "What to do with each group, the next days as far as the forecast reaches (five at most, or --days N), the "
     "look-over of every morning, the sugar of each paddock, and what is due. The page is HTML that fetches nothing, "
     "runs nothing and holds no coordinates; it prints on A4. Where \"sugarlea today\" refuses so does this, and an "
     "older page stays as it was.\n"
     "  sugarlea sheet -o sheet.html\n"},
    {"season", FOR_SEASON, cmd_season, "growth, sugar and advice day by day over a stretch of the record",
     "Growth and sugar are by the full record; the turnout is what each morning would have advised, "
     "\"with muzzle\" where the hours need one (--csv: 1 in the last columns). --plot FILE or "
     "--term draws it. Pictures: days (the last year), years (the whole record, a row a year), hours (when in the day "
     "the grass holds how much, 31 days; at most 62). Without a holding --csv also takes a file of many sites, or with "
     "--list many files: a country at once, a column more for the site, on all cores; each has the animal, grass and "
     "soil of the options, and the place that its file says (--latitude for files that do not). Sites that have no "
     "rows are named, and the others go on.\n"
     "  sugarlea season --from 2025-04-01 --to 2025-04-22\n"
     "  sugarlea season --paddock old-bank --picture hours --term\n"},
    {"ration", FOR_RATION, cmd_ration, "what a day's feed adds up to, against the limits of each group",
     "Grass by this morning's advice, hay to fill the day, and what fed_daily names. NSC is WSC + starch. --arithmetic "
     "shows every product and sum. A hay counts as it is dry and as it was analysed; soaking is told as a plan and "
     "passes nothing.\n"
     "  sugarlea ration\n"
     "  sugarlea ration --arithmetic\n"},
    {"outlook", FOR_OUTLOOK, cmd_outlook, "the coming months as probabilities, from every past year's weather",
     "Runs the grass as it stands this morning through each past year of the record: five or more are wanted, two are "
     "needed. Days not free are what will be advised if a year comes again.\n"
     "  sugarlea outlook --months 4\n"},
    {"hay", FOR_HAY, cmd_hay, "will the hay last, how much to buy, and by when to order",
     "What each group will be advised to eat in each past year's weather, losses of store and feeding divided out, "
     "against the stock as counted this morning. Without weather: table values, as if no grass were eaten. Bales are "
     "rounded up to whole ones. A year ahead at most.\n"
     "  sugarlea hay\n"
     "  sugarlea hay --until 2025-10-31 --arithmetic\n"},
    {"review", FOR_REVIEW, cmd_review, "how good past mornings were, against as-yesterday and the usual for the date",
     "Every recorded day is replayed with what its morning knew, and a day and three days ahead, against what the full "
     "record gives for it. Without --from the first days of the record are left for the sward to settle (min_days of "
     "\"sugarlea params\"). \"Not defined\" stands where nothing of the kind happened or too few days are there to say "
     "how sure.\n"
     "  sugarlea review --from 2025-02-01\n"},
    {"tune", FOR_TUNE, cmd_tune, "how well the grass tests of the diary agree with the model, and its correction",
     "Holds each grass-nsc and grass-wsc of diary.csv against what was reckoned for that hour, or the day when no time "
     "is noted. --apply corrects the paddock's level from then on, in part: the more tests, the more. A result under "
     "the laboratory's limit is written as the limit, its note beginning with <. Tests that lie so far off that a "
     "wrong "
     "unit is likelier are marked doubtful; --apply refuses them until they are mended or --insist is said.\n"
     "  sugarlea tune\n"
     "  sugarlea tune --apply\n"
     "  sugarlea tune --undo\n"},
    {"round", FOR_ROUND, cmd_round, "many holdings in one go: whom to ring first, and why",
     "Looks at each holding.json below the folder: its diary, its morning, its hay. Ranked by the reasons below; of "
     "two "
     "holdings with the same one, by their next ones, then by date, name and path. Behind how many days there is "
     "the name of the number that says so, which \"sugarlea params\" shows. Hay is reckoned by table values, as if no "
     "grass were eaten; where that runs out, by past years of "
     "weather, if there are some. Nothing is written beside any holding. No service is asked without --fetch, and then "
     "only where what is kept is not new enough: neighbours share it. Links to folders, and folders named .something, "
     "are "
     "passed over. An error in one holding stops no other, and ends with 0; no holding at all with 66.\n"
     "  sugarlea round .\n"
     "  sugarlea round . --csv --jobs 2\n"},
    {"weather", FOR_WEATHER, cmd_weather, "what weather there is, how old, and what in it looks wrong",
     "Reads what the holding names, or --weather FILE alone. Layouts are known by their content; --layout LAYOUT and "
     "--file-units UNITS say what a file does not. --csv writes all days as one table.\n"
     "  sugarlea weather\n"
     "  sugarlea weather --weather weather.csv --csv\n"},
    {"record", FOR_RECORD, cmd_record, "write what you saw or did into the diary: WHAT SUBJECT VALUE",
     "The diary is diary.csv beside the holding file. A later entry of the same kind takes over from its day on. A lot "
     "of hay is named by the \"id\" of its entry under \"stock\"; without one by its feed, where several are of it "
     "with "
     "a number: grass-hay-mature-2. "
     "\"sugarlea help signs\" is the look-over of every morning.\n"
     "  sugarlea record grass-nsc pump-field 18.2 % --date 2025-04-22 --at 06:40\n"
     "  sugarlea record foot-signs grey-pony shifting-weight hot-feet\n"
     "  sugarlea record weight grey-pony 279 kg --note \"by the scales\"\n"
     "  sugarlea record --undo\n"},
    {"params", FOR_PARAMS, cmd_params, "every number of the model with unit, range and source",
     "They stand in the files of the folder models, each with where it comes from.\n"
     "  sugarlea params\n"},
};
const size_t command_rows = sizeof command_table / sizeof command_table[0];

const struct command *command_find(const char *name)
{
    for (size_t i = 0; i < command_rows; i++) {
        if (strcmp(name, command_table[i].name) == 0) {
            return &command_table[i];
        }
    }
    return NULL;
}

enum err_code command_unknown(const char *name, struct err *e)
{
    const char *names[COMMANDS_MOST];
    for (size_t i = 0; i < command_rows; i++) {
        names[i] = command_table[i].name;
    }
    const char *near = err_did_you_mean(name, names, command_rows);
    if (near) {
        return err_set(e, ERR_USAGE, "there is no command \"%.40s\"; did you mean \"%s\"?", name, near);
    }
    return err_set(e, ERR_USAGE, "there is no command \"%.40s\"; \"sugarlea help\" lists them", name);
}

static enum err_code dispatch(int argc, char **argv, struct buf *out, int *status, struct err *e)
{
    struct options o;
    if (argc < 2) {
        help_first(out);
        return ERR_OK;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        return help(0, NULL, out, e);
    }
    if (strcmp(argv[1], "help") == 0) {
        return help((size_t)argc - 2, argv + 2, out, e);
    }
    if (strcmp(argv[1], "--version") == 0) {
        buf_addf(out, "sugarlea %s\n", SUGARLEA_VERSION);
        return ERR_OK;
    }
    const struct command *c = command_find(argv[1]);
    if (!c) {
        return command_unknown(argv[1], e);
    }
    enum err_code code = options_read(argc - 1, argv + 1, c->bit, &o, e);
    if (code != ERR_OK) {
        return code;
    }
    if (o.help) {
        help_command(c, out);
        return ERR_OK;
    }
    return c->run(&o, out, status, e);
}

enum err_code command_say(struct buf *out, struct err *e)
{
    if (out->failed) {
        err_clear(e); /* of a file beside it */
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    bool said = fwrite(out->text, 1, out->length, stdout) == out->length && fflush(stdout) == 0;
    buf_clear(out);
    if (!said) {
        err_clear(e);
        return err_set(e, ERR_WRITE, "the answer could not be written to standard output");
    }
    return ERR_OK;
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
    /* an answer is printed even when a file beside it could not be written */
    if (code == ERR_OK || code == ERR_CREATE || code == ERR_WRITE || code == ERR_AGAIN) {
        enum err_code said = command_say(&out, &e);
        code = said != ERR_OK ? said : code;
    }
    if (code != ERR_OK) {
        err_format(&e, text, sizeof text);
        fprintf(stderr, "sugarlea: %s\n", text);
    }
    buf_release(&out);
    return code != ERR_OK ? (int)code : status;
}
