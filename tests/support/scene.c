/* SPDX-License-Identifier: GPL-3.0-or-later
 * Animal, grass, hay and bucket from the shipped models. */
#include "support/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

void scene_make(struct scene *s, const char *class_id, double weight_kg, const char *hay)
{
    const struct params *p = support_params();
    const double none = (double)NAN;
    *s = (struct scene){.grass = advice_flat_grass(20.0)};
    s->group = (struct animal_group){
        .rules = *params_animal(p, class_id), .weight_kg = weight_kg, .girth_cm = none, .length_cm = none};
    s->lot = (struct hay_lot){.feed = params_feed(p, hay),
                              .nsc_pct = none,
                              .starch_pct = none,
                              .ndf_pct = none,
                              .dm_pct = none,
                              .energy_mj_kg = none,
                              .soaked_h = none,
                              .water_c = none};
    s->lot.contents = *s->lot.feed;
}

void scene_add_bucket(struct scene *s, const char *feed, double kg)
{
    s->group.fed[s->group.feds++] = (struct fed){params_feed(support_params(), feed), kg};
}

void scene_work_out(struct scene *s)
{
    s->animal = (struct advice_animal){.rules = &s->group.rules,
                                       .weight_kg = s->group.weight_kg,
                                       .history = s->group.history,
                                       .feds = s->group.feds,
                                       .fed = s->group.fed,
                                       .foot_signs = s->animal.foot_signs};
    advice_give_hay(&s->animal, &s->lot);
    advise(&s->grass, &s->animal, &support_params()->limits, &s->advice);
    account_make(&s->advice, &s->animal, &s->grass, &s->group, &s->lot, support_params(), &s->account);
}

enum account_state scene_state(const struct scene *s, enum account_rule r)
{
    return s->account.verdict[r].state;
}

void scene_tells(const struct scene *s, enum account_rule r, const char *what)
{
    char text[640];
    if (!strstr(account_verdict_text(&s->account, r, SHOW_METRIC, text, sizeof text), what)) {
        fail_msg("\"%s\" does not say \"%s\"", text, what);
    }
}
