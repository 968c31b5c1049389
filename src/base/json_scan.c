/* Recursive descent over the text, bounded by LIMIT_JSON_DEPTH.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json_scan.h"

#include "base/hash.h"
#include "base/limits.h"
#include "base/num.h"

#include <assert.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct key { /* a key of an object that is still open */
    uint64_t hash;
    size_t start, length;
};

struct scan {
    const char *text;
    size_t size, at;
    const char *fault;
    struct key *key; /* stack of keys; each object owns its top part */
    size_t keys, capacity;
};

static bool scan_value(struct scan *s, int depth);

static bool fail(struct scan *s, const char *fault)
{
    if (!s->fault) {
        s->fault = fault;
    }
    return false;
}

static char peek(const struct scan *s)
{
    return s->at < s->size ? s->text[s->at] : 0;
}

static void skip_space(struct scan *s)
{
    const char *c = s->text + s->at, *end = s->text + s->size;
    while (c < end && (*c == ' ' || *c == '\n' || *c == '\t' || *c == '\r')) {
        c++;
    }
    s->at = (size_t)(c - s->text);
}

size_t json_scan_utf8(const unsigned char *s, size_t room)
{
    assert(room > 0);
    static const uint32_t least[5] = {0, 0, 0x80, 0x800, 0x10000};
    size_t n = s[0] < 0x80 ? 1 : (s[0] & 0xe0) == 0xc0 ? 2 : (s[0] & 0xf0) == 0xe0 ? 3 : (s[0] & 0xf8) == 0xf0 ? 4 : 0;
    if (n < 2 || n > room) {
        return n > room ? 0 : n;
    }
    uint32_t code = s[0] & (0x7fu >> n);
    for (size_t i = 1; i < n; i++) {
        if ((s[i] & 0xc0) != 0x80) {
            return 0;
        }
        code = code << 6 | (s[i] & 0x3f);
    }
    return code < least[n] || code > 0x10ffff || (code >= 0xd800 && code < 0xe000) ? 0 : n;
}

size_t json_scan_letters(const char *text, size_t n)
{
    size_t letters = 0;
    for (size_t at = 0; at < n; letters++) {
        size_t length = json_scan_utf8((const unsigned char *)text + at, n - at);
        at += length ? length : 1;
    }
    return letters;
}

static bool goes_on(char c) /* a letter that began before */
{
    return ((unsigned char)c & 0xc0) == 0x80;
}

size_t json_scan_cut(const char *text, size_t most)
{
    size_t n = strnlen(text, most), at = n;
    while (at && n - at < 3 && goes_on(text[at])) {
        at--;
    }
    return goes_on(text[at]) ? n : at;
}

bool json_scan_control(const unsigned char *s, size_t n)
{
    assert(n >= 1 && n <= 4);
    if (n == 1) {
        return s[0] < 0x20 || s[0] == 0x7f;
    }
    return (n == 2 && s[0] == 0xc2 && s[1] < 0xa0) ||
           (n == 3 && s[0] == 0xe2 &&
            ((s[1] == 0x80 && s[2] >= 0xa8 && s[2] <= 0xae) || (s[1] == 0x81 && s[2] >= 0xa6 && s[2] <= 0xa9)));
}

static bool is_hex(char c)
{
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

static bool scan_escape(struct scan *s)
{
    char c = ++s->at < s->size ? s->text[s->at] : 0;
    if (c == 'u') {
        if (s->size - s->at < 5) {
            return fail(s, "an escape is cut short");
        }
        for (int i = 1; i <= 4; i++) {
            if (!is_hex(s->text[s->at + i])) {
                return fail(s, "\\u must be followed by four hexadecimal digits");
            }
        }
        if (memcmp(s->text + s->at + 1, "0000", 4) == 0) {
            return fail(s, "a text holds the character NUL");
        }
        s->at += 5;
        return true;
    }
    if (!c || !strchr("\"\\/bfnrt", c)) {
        return fail(s, "an unknown escape in a text");
    }
    s->at++;
    return true;
}

/* Over the characters of a text that need no second look: ASCII but for quote and backslash. */
static void pass_plain(struct scan *s)
{
    const unsigned char *text = (const unsigned char *)s->text;
    size_t at = s->at;
    while (at < s->size && text[at] >= 0x20 && text[at] < 0x80 && text[at] != '"' && text[at] != '\\') {
        at++;
    }
    s->at = at;
}

static bool scan_string(struct scan *s)
{
    s->at++;
    for (pass_plain(s); s->at < s->size && s->text[s->at] != '"'; pass_plain(s)) {
        unsigned char c = (unsigned char)s->text[s->at];
        if (c == '\\') {
            if (!scan_escape(s)) {
                return false;
            }
            continue;
        }
        size_t n = json_scan_utf8((const unsigned char *)s->text + s->at, s->size - s->at);
        if (c < 0x20) {
            return fail(s, "a line break or control character inside a text (is a closing quote missing?)");
        }
        if (!n) {
            return fail(s, "bytes that are not UTF-8");
        }
        s->at += n;
    }
    if (s->at >= s->size) {
        return fail(s, "the file ends inside a text: it is cut short");
    }
    s->at++;
    return true;
}

static bool belongs_to_number(char c)
{
    return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+' || c == 'e' || c == 'E';
}

static bool scan_number(struct scan *s)
{
    size_t start = s->at;
    double value;
    if (peek(s) == '-') {
        s->at++;
    }
    size_t first = s->at;
    while (s->at < s->size && belongs_to_number(s->text[s->at])) {
        s->at++;
    }
    bool zero_led =
        s->at > first + 1 && s->text[first] == '0' && s->text[first + 1] >= '0' && s->text[first + 1] <= '9';
    if (zero_led || s->at == first || s->text[first] < '0' || s->text[first] > '9' || s->text[s->at - 1] == '.' ||
        !num_parse(s->text + start, s->at - start, '.', &value)) {
        s->at = start;
        return fail(s, "not a number");
    }
    return true;
}

static bool scan_word(struct scan *s)
{
    static const char *const words[] = {"true", "false", "null"};
    for (size_t i = 0; i < 3; i++) {
        size_t n = strlen(words[i]);
        if (s->size - s->at >= n && memcmp(s->text + s->at, words[i], n) == 0) {
            s->at += n;
            return true;
        }
    }
    return fail(s, s->at >= s->size ? "the file ends too early: it is cut short" : "a value was expected here");
}

const char json_scan_no_memory[] = "out of memory";

static bool push_key(struct scan *s, size_t start, size_t length)
{
    if (s->keys == s->capacity) {
        size_t capacity = s->capacity ? 2 * s->capacity : 256;
        struct key *more = realloc(s->key, capacity * sizeof *more);
        if (!more) {
            return fail(s, json_scan_no_memory);
        }
        s->key = more;
        s->capacity = capacity;
    }
    assert(s->keys < s->capacity);
    s->key[s->keys++] = (struct key){hash_fnv1a(HASH_START, s->text + start, length), start, length};
    return true;
}

static int compare_keys(const void *a, const void *b)
{
    const struct key *x = a, *y = b;
    if (x->hash != y->hash) {
        return x->hash < y->hash ? -1 : 1;
    }
    return x->start < y->start ? -1 : x->start > y->start;
}

/* Most objects have a handful of keys, and qsort is dear for those. */
static void sort_keys(struct key *k, size_t n)
{
    enum { FEW = 12 };
    if (n > FEW) {
        qsort(k, n, sizeof *k, compare_keys);
        return;
    }
    for (size_t i = 1; i < n; i++) {
        struct key one = k[i];
        size_t j = i;
        for (; j > 0 && compare_keys(&k[j - 1], &one) > 0; j--) {
            k[j] = k[j - 1];
        }
        k[j] = one;
    }
}

/* Drops the keys above `base`, after a look for two that are the same. */
static bool pop_keys(struct scan *s, size_t base)
{
    assert(base <= s->keys);
    size_t n = s->keys - base;
    s->keys = base;
    if (n < 2) {
        return true;
    }
    struct key *k = s->key + base;
    sort_keys(k, n);
    for (size_t i = 1; i < n; i++) {
        if (k[i].hash == k[i - 1].hash && k[i].length == k[i - 1].length &&
            memcmp(s->text + k[i].start, s->text + k[i - 1].start, k[i].length) == 0) {
            s->at = k[i].start - 1;
            return fail(s, "the same entry stands twice in one object");
        }
    }
    return true;
}

static bool scan_member(struct scan *s, int depth)
{
    skip_space(s);
    if (peek(s) != '"') {
        return fail(s, s->at >= s->size ? "the file ends too early: it is cut short"
                                        : "an entry name in double quotes was expected here");
    }
    size_t start = s->at + 1;
    if (!scan_string(s) || !push_key(s, start, s->at - 1 - start)) {
        return false;
    }
    skip_space(s);
    if (peek(s) != ':') {
        return fail(s, "a colon was expected here");
    }
    s->at++;
    return scan_value(s, depth + 1);
}

/* The members of an object or the elements of an array, after the opening sign. */
static bool scan_list(struct scan *s, int depth, char close)
{
    assert(close == '}' || close == ']');
    size_t base = s->keys;
    s->at++;
    skip_space(s);
    if (peek(s) == close) {
        s->at++;
        return true;
    }
    for (;;) {
        if (close == '}' ? !scan_member(s, depth) : !scan_value(s, depth + 1)) {
            return false;
        }
        skip_space(s);
        char c = peek(s);
        s->at += c == ',' || c == close;
        if (c == close) {
            return pop_keys(s, base);
        }
        if (c != ',') {
            return fail(s, s->at >= s->size ? "the file ends too early: it is cut short"
                                            : "a comma or a closing bracket was expected here");
        }
    }
}

static bool scan_value(struct scan *s, int depth)
{
    skip_space(s);
    if (depth > LIMIT_JSON_DEPTH) {
        return fail(s, "brackets are nested too deep");
    }
    char c = peek(s);
    if (c == '{' || c == '[') {
        return scan_list(s, depth, c == '{' ? '}' : ']');
    }
    if (c == '"') {
        return scan_string(s);
    }
    return c == '-' || (c >= '0' && c <= '9') ? scan_number(s) : scan_word(s);
}

const char *json_scan(const char *text, size_t size, size_t *at)
{
    struct scan s = {.text = text, .size = size};
    if (scan_value(&s, 0)) {
        skip_space(&s);
        if (s.at < size) {
            fail(&s, "something stands after the end of the JSON value");
        }
    }
    assert(s.fault != NULL || s.at == size);
    free(s.key);
    *at = s.at < size ? s.at : size;
    return s.fault;
}

/* Moves to the value of member `name` (or of index i, when name is NULL) of the
 * list at s->at. False, and s->at as before, when there is none. */
static bool step_into(struct scan *s, const char *name, size_t name_length, size_t index)
{
    size_t before = s->at;
    char open = peek(s);
    if (open != (name ? '{' : '[')) {
        return false;
    }
    s->at++;
    for (size_t i = 0;; i++) {
        skip_space(s);
        if (peek(s) == '}' || peek(s) == ']' || s->at >= s->size) {
            break;
        }
        size_t start = s->at + 1;
        bool match = !name && i == index;
        assert(start <= s->size);
        if (name) {
            scan_string(s);
            match = s->at - 1 - start == name_length && memcmp(s->text + start, name, name_length) == 0;
            skip_space(s);
            s->at++; /* the colon */
        }
        skip_space(s);
        if (match) {
            return true;
        }
        if (!scan_value(s, 0)) {
            break;
        }
        skip_space(s);
        s->at += peek(s) == ',';
    }
    s->at = before;
    return false;
}

size_t json_scan_find(const char *text, size_t size, const char *path)
{
    assert(path != NULL);
    struct scan s = {.text = text, .size = size};
    skip_space(&s);
    while (*path) {
        bool found;
        if (*path == '[') {
            char *end;
            size_t index = strtoul(path + 1, &end, 10);
            found = step_into(&s, NULL, 0, index);
            path = *end == ']' ? end + 1 : end + strlen(end);
        } else {
            path += *path == '.';
            size_t length = strcspn(path, ".[");
            found = step_into(&s, path, length, 0);
            path += length;
        }
        if (!found) {
            break;
        }
    }
    free(s.key);
    return s.at;
}

void json_scan_place(const char *text, size_t at, size_t *line, size_t *column)
{
    assert(line != NULL && column != NULL);
    size_t start = 0;
    *line = 1;
    for (size_t i = 0; i < at; i++) {
        if (text[i] == '\n') {
            ++*line;
            start = i + 1;
        }
    }
    *column = at - start + 1;
}
