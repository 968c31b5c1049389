/* The commands. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_TODAY_H
#define SUGARLEA_CMD_TODAY_H

#include "base/buf.h"
#include "cmd/options.h"

/* Writes the answer into out; *status is the exit code of --exit-status (0 else). */
enum err_code cmd_today(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_sheet(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_ration(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_season(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_hay(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_outlook(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_review(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_tune(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_weather(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_record(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_round(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_setup(const struct options *o, struct buf *out, int *status, struct err *e);
enum err_code cmd_params(const struct options *o, struct buf *out, int *status, struct err *e);

/* The i-th word that --picture takes; NULL past the last (in season.c). */
const char *season_picture(size_t i);

struct context;
struct today_view;
/* The exit code by --exit-status: 10 free, 11 timed, 12 brief, 13 none, the strictest turnout of all
 * groups that morning, foot signs that reach no group counted as none; 0 without the option or without animals. */
int today_status(const struct options *o, const struct today_view *v);

/* Loads what the options name and finds the advice of the morning (in today.c): the same
 * for every command that tells of it. c has been through context_init; of v only on_sheet is set. */
enum err_code today_find(struct context *c, const struct options *o, struct today_view *v, struct err *e);

/* Adds the advice, as told, to advice-log.csv beside the holding, unless there is none or --no-log was said. The
 * errors of file_append. */
enum err_code today_note(const struct options *o, const struct today_view *v, struct err *e);

/* Prints the answer, and only then does so. The errors of command_say, too. */
enum err_code today_tell(const struct options *o, const struct today_view *v, struct buf *out, struct err *e);

#endif
