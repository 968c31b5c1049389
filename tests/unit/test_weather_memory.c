/* Weather of every layout, read with memory that runs out at each place in turn: the inputs kept for
 * fuzzing that hold weather, and what is made of them. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/file.h"
#include "support/starve.h"
#include "support/sward_support.h"
#include "weather/quality.h"
#include "weather/weather.h"

enum { FILE_MOST = 20000 };

/* Hours of no zone are taken to be of one, as each holding has one. */
static const struct weather_hints hints = {.timezone = "Europe/London", .longitude = -2.7};

struct kept { /* its first byte is the fuzzer's */
    struct file_view view;
    const char *layout; /* that it was read as, with memory enough */
};

static enum err_code read_kept(const struct kept *k, struct arena *a, struct weather_set *set, struct err *e)
{
    return weather_read_bytes(k->view.data + 1, k->view.size - 1, "w", &hints, a, set, e);
}

static bool read_weather(struct arena *a, void *context)
{
    struct kept *k = context;
    struct weather_set set;
    struct err e = {0};
    enum err_code code = read_kept(k, a, &set, &e);
    if (code != ERR_OK && code != ERR_NOMEM) {
        fail_msg("with less memory: %s", e.what);
    }
    assert_true(code == ERR_OK || strstr(e.what, "memory"));
    assert_true(code != ERR_OK || strcmp(set.layout, k->layout) == 0);
    return code == ERR_OK;
}

struct morning {
    const struct weather_site *site;
    struct site place;
    enum err_code enough; /* what it comes to with memory enough */
};

/* Merged, doubted and completed, as a morning finds it. */
static enum err_code make_ready(const struct morning *m, struct arena *a, struct err *e)
{
    struct weather_days all = {0}, copy;
    struct weather_report report;
    struct quality quality = {0};
    enum err_code code = weather_merge(&all, &m->site->days, a, e);
    code = code == ERR_OK ? quality_check(&all, &m->place, &support_params()->quality, a, &quality, e) : code;
    if (code == ERR_OK && !weather_days_copy(&copy, &all, a)) {
        return ERR_NOMEM;
    }
    code = code == ERR_OK ? weather_complete(&all, &m->place, &support_params()->limits, a, &report, e) : code;
    return code == ERR_OK ? weather_merge(&all, &copy, a, e) : code;
}

static bool ready(struct arena *a, void *context)
{
    const struct morning *m = context;
    struct err e = {0};
    enum err_code code = make_ready(m, a, &e);
    assert_true(code == m->enough || code == ERR_NOMEM);
    return code != ERR_NOMEM;
}

static void follow(const struct weather_site *site)
{
    struct morning m = {.site = site, .place = site->place};
    struct arena a;
    struct err e = {0};
    m.place.latitude = isnan(m.place.latitude) ? 52.2 : m.place.latitude;
    arena_init(&a);
    m.enough = make_ready(&m, &a, &e);
    arena_release(&a);
    assert_true(starve(ready, &m) > 2);
}

/* Starves the reading of each file of a folder that holds weather, and what a morning makes of it; how many
 * layouts were among them. */
static size_t starve_folder(const char *folder)
{
    const char *seen[64];
    size_t layouts = 0;
    DIR *d = opendir(folder);
    assert_non_null(d);
    for (const struct dirent *f; (f = readdir(d)) != NULL;) {
        char path[512];
        struct kept k;
        struct arena a;
        struct weather_set set;
        struct err e = {0};
        snprintf(path, sizeof path, "%s/%s", folder, f->d_name);
        if (f->d_name[0] == '.' || file_view(path, FILE_MOST, &k.view, &e) != ERR_OK) {
            continue;
        }
        arena_init(&a);
        bool good = k.view.size > 0 && read_kept(&k, &a, &set, &e) == ERR_OK;
        k.layout = good ? set.layout : "";
        size_t i = 0;
        while (i < layouts && strcmp(seen[i], k.layout) != 0) {
            i++;
        }
        if (good && i == layouts) {
            assert_true(layouts < sizeof seen / sizeof seen[0]);
            seen[layouts++] = set.layout;
        }
        if (good) {
            assert_true(starve(read_weather, &k) > 2);
            follow(&set.site[0]);
        }
        arena_release(&a);
        file_unview(&k.view);
    }
    closedir(d);
    return layouts;
}

static void a_file_is_read_whole_or_not(void **state)
{
    (void)state;
    size_t tables = starve_folder("tests/fuzz/corpus/csv"), answers = starve_folder("tests/fuzz/corpus/json");
    print_message("# %zu layouts of tables, %zu of answers\n", tables, answers);
    assert_true(tables >= 5 && answers >= 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_file_is_read_whole_or_not)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
