/* Addresses of services, and their keys. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/service.h"

#include "base/file.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define KEY_LEAST 8 /* shorter ones could not be told from other text and cut out of messages */
#define KEY_LETTERS "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~"

double service_round(double degrees)
{
    return round(degrees * 100) / 100;
}

/* The value of SUGARLEA_WHAT_NAME; NULL when it is not set or empty. */
static const char *setting(const struct service *s, const char *what, char *name, size_t size)
{
    snprintf(name, size, "SUGARLEA_%s_%s", what, s->name);
    for (char *c = name; *c; c++) {
        *c = (char)(*c == '-' ? '_' : toupper((unsigned char)*c));
    }
    const char *value = getenv(name);
    return value && value[0] ? value : NULL;
}

const char *service_base(const struct service *s, const char *set)
{
    char name[96];
    const char *value = setting(s, "URL", name, sizeof name);
    return value ? value : set && set[0] ? set : s->base;
}

/* Text from outside: what is not plain is escaped, so that it stays one field. */
static bool add_escaped(struct buf *b, const char *text, const char *allowed)
{
    for (const unsigned char *c = (const unsigned char *)text; *c; c++) {
        if (strchr(KEY_LETTERS, *c) || strchr(allowed, *c)) {
            buf_add_char(b, (char)*c);
        } else {
            buf_addf(b, "%%%02X", *c);
        }
    }
    return text[0] != '\0';
}

static bool add_number(struct buf *b, double x, int decimals)
{
    buf_add_number(b, x, decimals);
    return isfinite(x);
}

static bool add_date(struct buf *b, date_t date, bool hyphens)
{
    if (date == DATE_NONE) {
        return false;
    }
    struct date_parts p = date_split(date);
    buf_addf(b, hyphens ? "%04d-%02d-%02d" : "%04d%02d%02d", p.year, p.month, p.day);
    return true;
}

/* Adds the field of this name; false when it is not known. */
static bool add_field(struct buf *b, const struct service_ask *ask, const char *name, size_t n)
{
    static const char *const names[] = {"lat", "lon", "elev", "from", "to", "from8", "to8", "station", "grid"};
    size_t i = 0;
    while (i < sizeof names / sizeof names[0] && (strlen(names[i]) != n || strncmp(names[i], name, n) != 0)) {
        i++;
    }
    switch (i) {
    case 0:
        return add_number(b, service_round(ask->place.latitude), 2);
    case 1:
        return add_number(b, service_round(ask->place.longitude), 2);
    case 2:
        return add_number(b, ask->place.elevation_m, 0);
    case 3:
    case 5:
        return add_date(b, ask->from, i == 3);
    case 4:
    case 6:
        return add_date(b, ask->to, i == 4);
    case 7:
        return add_escaped(b, ask->station ? ask->station : "", "");
    default:
        return add_escaped(b, ask->grid ? ask->grid : "", "/,");
    }
}

static void expand(struct buf *b, const struct service_ask *ask, const char *text)
{
    size_t part = 0; /* where the part in brackets began in b */
    bool known = true;
    for (; *text; text++) {
        if (*text == '{') {
            size_t n = strcspn(text, "}");
            known = add_field(b, ask, text + 1, n - 1) && known;
            text += n;
        } else if (*text == '[') {
            part = b->length;
            known = true;
        } else if (*text == ']') {
            b->length = known ? b->length : part;
            b->text[b->length] = '\0';
        } else {
            buf_add_char(b, *text);
        }
    }
}

void service_url(const struct service *s, const struct service_ask *ask, const char *base, const char *key,
                 struct buf *url)
{
    size_t n = strlen(base);
    while (n && base[n - 1] == '/') {
        n--;
    }
    buf_clear(url);
    buf_add_bytes(url, base, n);
    expand(url, ask, ask->grid && s->then ? s->then : s->path);
    if (key && key[0] && s->key_field[0]) {
        buf_addf(url, "%s%s=%s", strchr(url->text, '?') ? "&" : "?", s->key_field, key);
    }
}

static enum err_code check_key(const char *key, size_t n, const char *from, struct err *e)
{
    if (n < KEY_LEAST || n >= SERVICE_KEY || strspn(key, KEY_LETTERS) < n) {
        return err_set(e, ERR_CONFIG, "the key in %s is no key: %d to %d letters, digits and -._~ are allowed", from,
                       KEY_LEAST, SERVICE_KEY - 1);
    }
    return ERR_OK;
}

static enum err_code key_of_file(const char *path, char key[SERVICE_KEY], struct err *e)
{
    struct file_view view;
    enum err_code code = file_view(path, 4096, &view, e);
    if (code != ERR_OK) {
        return code;
    }
    size_t n = 0;
    while (n < view.size && n < SERVICE_KEY && !strchr("\r\n \t", view.data[n])) {
        n++;
    }
    memcpy(key, view.data, n < SERVICE_KEY ? n : 0);
    key[n < SERVICE_KEY ? n : 0] = '\0';
    file_unview(&view);
    return check_key(key, strlen(key), path, e);
}

enum err_code service_key(const struct service *s, const char *key_file, char key[SERVICE_KEY], struct err *e)
{
    char name[96];
    const char *value = setting(s, "KEY", name, sizeof name);
    key[0] = '\0';
    if (!value) {
        return key_file && key_file[0] ? key_of_file(key_file, key, e) : ERR_OK;
    }
    enum err_code code = check_key(value, strlen(value), name, e);
    if (code == ERR_OK) {
        snprintf(key, SERVICE_KEY, "%s", value);
    }
    return code;
}

void service_hide_key(char *text, size_t n, const char *key)
{
    size_t length = strlen(key);
    char *end = text + n, *found = text;
    while (length && (found = memmem(found, (size_t)(end - found), key, length))) {
        memset(found, '*', length);
        found += length;
    }
}
