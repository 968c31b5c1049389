/* Errors as values below, as one sentence at the edge.
 *
 * A function that can fail returns an enum err_code and takes a struct err * as
 * its last parameter, which it fills before it returns anything but ERR_OK. Only
 * src/cmd prints. A message says what is wrong, where, what is allowed, and what
 * to do next.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ERR_H
#define SUGARLEA_ERR_H

#include <stddef.h>

/* The values are the program's exit codes (BSD sysexits). */
enum err_code {
    ERR_OK = 0,
    ERR_USAGE = 64,   /* the command line is wrong */
    ERR_DATA = 65,    /* a data file is wrong */
    ERR_NOINPUT = 66, /* a file or the weather needed is missing */
    ERR_NETWORK = 69, /* no answer from outside and nothing usable kept */
    ERR_BUG = 70,     /* our fault */
    ERR_NOMEM = 71,
    ERR_CREATE = 73, /* cannot create an output file */
    ERR_WRITE = 74,  /* reading or writing failed half-way */
    ERR_AGAIN = 75,  /* someone else holds the file: try again */
    ERR_CONFIG = 78  /* a holding or model file is wrong */
};

struct err {
    enum err_code code;
    char file[256];  /* "" when no file is concerned; shortened in front when longer */
    size_t line;     /* 1-based; 0 unknown */
    size_t column;   /* 1-based, in bytes; 0 unknown */
    char field[128]; /* column name, option or JSON path; "" unknown */
    char what[512];  /* the sentence, without place */
};

void err_clear(struct err *e);

/* Fills e (which may be NULL) with code and a printf-style sentence; control
 * characters from outside, and what is no UTF-8, are shown as '?'. Returns code, so that a caller can
 * `return err_set(...)`. Place and field are kept as they are: use err_at after. */
enum err_code err_set(struct err *e, enum err_code code, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* Adds the place; file or field may be NULL (left as they are). Returns e->code
 * (ERR_BUG when e is NULL). */
enum err_code err_at(struct err *e, const char *file, size_t line, size_t column, const char *field);

/* Writes "file:line:column: field: what" (parts that are unknown left out) into
 * text, cut to size, always closed. */
void err_format(const struct err *e, char *text, size_t size);

/* The candidate nearest to word by edit distance when it is near enough to be a
 * slip (at most a third of its letters), else NULL. Candidates are n strings. */
const char *err_did_you_mean(const char *word, const char *const *candidates, size_t n);

#endif
