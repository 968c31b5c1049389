/* A ration to be accounted for. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_SCENE_H
#define SUGARLEA_TESTS_SCENE_H

#include "advice/account.h"
#include "support/advice_support.h"

/* A group on flat grass with a bucket and a hay lot. */
struct scene {
    struct animal_group group;
    struct hay_lot lot;
    struct advice_animal animal;
    struct advice_grass grass;
    struct advice advice;
    struct account account;
};

/* Grass of 20 % NSC; hay by its table values. */
void scene_make(struct scene *s, const char *class_id, double weight_kg, const char *hay);
void scene_add_bucket(struct scene *s, const char *feed, double kg);

/* The advice and its account; of what stood in s->animal only foot_signs stays. */
void scene_work_out(struct scene *s);

enum account_state scene_state(const struct scene *s, enum account_rule r);

/* Fails when the sentence of the rule does not say that. */
void scene_tells(const struct scene *s, enum account_rule r, const char *what);

#endif
