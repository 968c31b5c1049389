/* Files, environment, exit codes and cautions, in words. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/reference.h"

#define COUNT(table) (sizeof(table) / sizeof(table)[0])

const struct reference reference_files[] = {
    {"holding.json",
     "The holding: its place, weather, paddocks, animals and hay. Looked for in this folder when neither "
     "--holding nor SUGARLEA_HOLDING names another. Written by sugarlea setup, which keeps the one before as "
     "holding.json.old."},
    {"diary.csv", "The diary, beside the holding file: what was seen and done, written by sugarlea record or by hand."},
    {"advice-log.csv",
     "Beside the holding file: each advice that was given, one row a group and day. --no-log leaves it "
     "as it is."},
    {"tuning.json", "Beside the holding file: what grass tests say of each paddock, written by sugarlea tune --apply."},
    {"~/.cache/sugarlea/", "Kept answers of weather services. Deleting the folder is always safe."},
    {"~/.config/sugarlea/daily.conf", "What the daily timer works on: lines such as SUGARLEA_HOLDING=farm/holding.json "
                                      "and SUGARLEA_SHEET=farm/sheet.html, which begin in your own folder."},
    {SUGARLEA_DATADIR "/models/",
     "Every number of the model, with unit, range and source, and METHOD.md. A folder models "
     "beside the program comes before it."},
    {SUGARLEA_DATADIR "/plots/", "How gnuplot is to draw the pictures."},
    {SUGARLEA_LIBEXECDIR "/sugarlea-fetch", "The program that asks the weather services; none other goes to the "
                                            "network."},
};
const size_t reference_file_count = COUNT(reference_files);

const struct reference reference_environment[] = {
    {"SUGARLEA_HOLDING", "The holding file. --holding comes before it, holding.json in this folder after it."},
    {"SUGARLEA_UNITS", "us: all text as with --units us, which comes before it."},
    {"SUGARLEA_CONTACT", "An address of yours, told to weather services with each question; met-norway answers nobody "
                         "without."},
    {"SUGARLEA_KEY_SERVICE", "Your key for a service, such as SUGARLEA_KEY_OPEN_METEO_FORECAST for "
                             "open-meteo-forecast. It is never shown."},
    {"SUGARLEA_URL_SERVICE",
     "Another base address for a service, in the same spelling; \"url\" of the holding file comes "
     "after it."},
    {"SUGARLEA_MODELS", "The folder of the model files."},
    {"SUGARLEA_PLOTS", "The folder of the gnuplot files."},
    {"SUGARLEA_FETCH", "The program that asks the weather services."},
    {"XDG_CACHE_HOME", "Where kept weather goes: the folder sugarlea in it (an absolute path; else ~/.cache)."},
    {"HOME", "The folder ~ of this page."},
    {"NO_COLOR", "When set and not empty: no colour, as with --no-color."},
    {"TERM", "dumb: no colour."},
    {"TZ", "The time zone where no holding says one."},
    {"SOURCE_DATE_EPOCH", "Seconds since 1970, taken as now: the same answer on every day, for tests."},
    {"PATH, TMPDIR, XDG_DATA_HOME, FONTCONFIG_FILE, FONTCONFIG_PATH, LD_LIBRARY_PATH",
     "Handed on to gnuplot, with HOME and XDG_CACHE_HOME and nothing else."},
};
const size_t reference_environment_count = COUNT(reference_environment);

/* As in base/err.h. */
const struct reference reference_exits[] = {
    {"0", "Done."},
    {"10, 11, 12, 13", "With --exit-status: the strictest turnout of all groups is free, timed, brief, none; "
                       "foot signs that reach no animal count as none."},
    {"64", "The command line is wrong."},
    {"65", "A weather file or the diary is wrong."},
    {"66", "A file or the weather needed is missing, or the weather is too old for advice."},
    {"69", "No weather service answered, and nothing usable is kept."},
    {"70", "A fault of the program."},
    {"71", "Out of memory."},
    {"73", "A file cannot be made."},
    {"74", "Reading or writing failed half-way."},
    {"75", "Somebody else holds the file: try again."},
    {"78", "A holding or model file is wrong."},
};
const size_t reference_exit_count = COUNT(reference_exits);

const char reference_cautions[] =
    "It plans grazing. It never diagnoses and names no dose. Local rules and your vet come first.\n\n"
    "An animal with foot signs is off grass, and the vet is rung, that day or at once: \"sugarlea help signs\" is the "
    "look-over of every morning.\n\n"
    "The sugar is an estimate: where no test of your own grass stands in the diary, a paddock may hold a good deal "
    "more. NSC limits of goats, sheep, alpacas and cattle are our choice: no "
    "published limit exists.\n\n"
    "Hay runs short: more hay, never less of it a head.\n";

const char reference_closing[] = "Planning help, not a diagnosis: local rules and your vet come first.\n";
