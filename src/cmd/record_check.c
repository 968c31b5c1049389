/* SPDX-License-Identifier: GPL-3.0-or-later
 * Slips of a hand, found before or right after they are written. */
#include "cmd/record_check.h"

#include "data/diary_weight.h"
#include "data/holding_read.h"

#include <math.h>
#include <string.h>

/* Pounds taken for kilograms are 2.2 times too much, inches for centimetres more; an animal that is
 * weighed now and then gains or loses less than this in between. */
#define WEIGHT_JUMP 1.6

enum err_code record_check_weight(const struct holding *h, const struct diary_entry *entry, struct err *e)
{
    double low, high;
    if (entry->what != DIARY_WEIGHT) {
        return ERR_OK;
    }
    enum species species = h->animal[entry->subject].rules.species;
    holding_weight_range(species, &low, &high);
    if (entry->value >= low && entry->value <= high) {
        return ERR_OK;
    }
    err_set(e, ERR_USAGE, "%g kg is out of range: one of the species (%s) weighs from %g to %g kg; is it another unit?",
            entry->value, species_names[species], low, high);
    return err_at(e, NULL, 0, 0, "value");
}

enum err_code record_check_hay(const struct params *p, const struct diary_entry *entry, struct err *e)
{
    double least = p->limits.hay_nsc_least_pct;
    if (entry->what != DIARY_HAY_TEST || (entry->value >= least && entry->value <= HOLDING_HAY_NSC_HIGH)) {
        return ERR_OK;
    }
    err_set(e, ERR_USAGE,
            "is %g %%, and no hay has been found with so %s: %g to %g %% of dry matter is taken; look for the "
            "decimal point",
            entry->value, entry->value < least ? "little" : "much", least, HOLDING_HAY_NSC_HIGH);
    return err_at(e, NULL, 0, 0, "value");
}

enum err_code record_check_unit(const char *value, const struct diary_entry *entry, struct err *e)
{
    const struct diary_unit *unit = diary_kinds[entry->what].unit;
    const char *name = entry->unit < 0 ? "" : unit[entry->unit].name;
    if ((strcmp(name, "kg") != 0 && strcmp(name, "cm") != 0) || value[strspn(value, "+-.0123456789")]) {
        return ERR_OK;
    }
    double metric = entry->value * unit[1].scale;
    err_set(e, ERR_USAGE,
            "%s of what? With United States units the unit must stand behind it: say \"%s %s\" or \"%.*f %s\"", value,
            value, unit[1].name, metric < 100.0, metric, name);
    return err_at(e, NULL, 0, 0, "value");
}

/* The weight of the group that the entry makes; NaN: none that the species can have. */
static double weight_by(const struct diary_entry *entry, const struct context *c)
{
    const struct animal_group *g = &c->holding.animal[entry->subject];
    double low, high, kg = diary_weight_of(entry, &c->params.limits, g);
    holding_weight_range(g->rules.species, &low, &high);
    return kg >= low && kg <= high ? kg : (double)NAN;
}

static bool jumps(double kg, double before)
{
    return kg > WEIGHT_JUMP * before || kg < before / WEIGHT_JUMP;
}

/* Puts the weights in force on the entry's day into the holding. A diary that cannot be read is told of
 * in the morning. */
static enum err_code weigh_till(struct context *c, const char *path, date_t date, struct err *e)
{
    struct diary d;
    struct err why;
    err_clear(&why);
    enum err_code code = diary_load(path, &c->holding, &c->arena, &d, &why);
    if (code != ERR_OK) {
        return code == ERR_NOMEM ? err_set(e, ERR_NOMEM, "out of memory") : ERR_OK;
    }
    diary_weigh(d.entry, diary_until(&d, date), &c->params.limits, &c->holding);
    return ERR_OK;
}

static void doubt_weight(const struct context *c, const struct diary_entry *entry, enum units units, struct buf *out)
{
    const struct diary_unit *unit = diary_kinds[entry->what].unit;
    const char *id = diary_subject_id(entry, &c->holding);
    double before = c->holding.animal[entry->subject].weight_kg, kg = weight_by(entry, c);
    struct diary_entry other = *entry;
    char was[UNITS_TEXT], is[UNITS_TEXT];
    if (!jumps(kg, before)) {
        return;
    }
    double number = entry->value / unit[entry->unit].scale;
    other.unit = !entry->unit;
    other.value = number * unit[other.unit].scale;
    buf_addf(out, "Is that right? Until then %s weighed %s a head, and now %s.", id,
             units_text(units, AMOUNT_MASS, before, 0, was), units_text(units, AMOUNT_MASS, kg, 0, is));
    double otherwise = weight_by(&other, c);
    if (isnan(otherwise) || jumps(otherwise, before)) {
        buf_add(out, " If not: \"sugarlea record --undo\".\n");
    } else {
        buf_addf(out, " If %.10g %s was meant: \"sugarlea record --undo\", then \"sugarlea record %s %s %.10g %s\".\n",
                 number, unit[other.unit].name, diary_kinds[entry->what].name, id, number, unit[other.unit].name);
    }
}

static void doubt_hay(const struct context *c, const struct diary_entry *entry, enum units units, struct buf *out)
{
    const struct advice_limits *l = &c->params.limits;
    const struct animal_group *g = &c->holding.animal[entry->subject];
    double most = animal_most_kg(&g->rules, g->weight_kg, l->fed_most_times) * g->count / (l->bale_dm_pct / 100.0);
    char given[UNITS_TEXT], eaten[UNITS_TEXT];
    if (strcmp(diary_kinds[entry->what].unit[entry->unit].name, "bales") != 0 && entry->value > most) {
        buf_addf(out,
                 "Is that right? %s is more than %s (%d in all) can eat in a day, %s at the very most. Hay put "
                 "out for many days is well so; a slip goes with \"sugarlea record --undo\".\n",
                 units_text(units, AMOUNT_MASS, entry->value, 0, given), g->id, g->count,
                 units_text(units, AMOUNT_MASS, most, 0, eaten));
    }
}

enum err_code record_doubt(struct context *c, const char *diary, const struct diary_entry *entry, enum units units,
                           struct buf *out, struct err *e)
{
    bool weighed = entry->what == DIARY_WEIGHT || entry->what == DIARY_GIRTH;
    if (!weighed && entry->what != DIARY_HAY_FED) {
        return ERR_OK;
    }
    enum err_code code = weigh_till(c, diary, entry->date, e);
    if (code == ERR_OK && weighed) {
        doubt_weight(c, entry, units, out);
    } else if (code == ERR_OK) {
        doubt_hay(c, entry, units, out);
    }
    return code;
}
