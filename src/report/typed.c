/* Each answers whether what was typed may stand; why not is a sentence of its own. */
#include "report/typed.h"

#include <math.h>

/* As a limit of the settings. */
#define LEAST_LOCK_ADDED "-1000 N.m"
#define MOST_LOCK_ADDED  "1000 N.m"

bool conditions_read(enum pull_column column, const char *text,
                     struct pull_conditions *conditions, struct quantity_fault *fault)
{
    int word = text[0] ? column_word(&pull_columns[column], text, fault) : -1;
    bool good = !text[0] || word >= 0;
    if (column == PULL_LOCK)
        conditions->lock = word < 0 ? LOCK_UNSAID : (enum lock)word;
    else if (column == PULL_WARMTH)
        conditions->warmth = (enum said_warmth)(word + 1);
    else
        conditions->other_way = word == 1;
    if (!good)
        quantity_wrong_too(fault, ": %s", pull_columns[column].meaning);
    return good;
}

bool pull_allowed(const struct shop *shop, const struct quantity *pull, size_t taken,
                  struct quantity_fault *fault)
{
    if (taken >= MOST_PULLS)
        return quantity_wrong(fault, 0, "there are too many pulls; judge them in two series");
    if (pull->exact.negative)
        return quantity_wrong(fault, 0,
                              "a pull is below zero; zero the gauge and write the pull");
    if (shop && decimal_compare(&pull->exact, &shop->gauge.capacity.q.exact) > 0)
        return quantity_wrong(
            fault, 0,
            "this is more than the gauge can read; if the gauge ran to its end, it "
            "reads too little, and the pull is too high to read: unload, or take a "
            "larger gauge or a larger drum. Else look for a slip of the pen, or "
            "correct gauge.capacity in the settings");
    return true;
}

bool lock_added_read(const struct band *band, const char *text, double *added,
                     struct quantity_fault *fault)
{
    struct quantity typed;
    if (!quantity_parse(text, KIND_TORQUE, &typed, fault))
        return false;
    *added = typed.base;
    if (band && fabs(*added) > band->high.q.base)
        return quantity_wrong(
            fault, 0,
            "this is more than the high limit, %s %s, and no lock adds that; look "
            "for a slip of the pen",
            band->high.q.digits, band->high.q.unit->symbol);
    return quantity_between(&typed, LEAST_LOCK_ADDED, MOST_LOCK_ADDED) ||
           quantity_wrong(fault, 0, "what locking adds must lie between %s and %s",
                          LEAST_LOCK_ADDED, MOST_LOCK_ADDED);
}

bool places_allowed(const struct quantity angles[2], struct quantity_fault *fault)
{
    return fabs(angles[1].base - angles[0].base) <= NUT_FAR_APART ||
           quantity_wrong(
               fault, 0,
               "the two places lie more than %g degrees apart: no straight line goes "
               "through them; count both from one mark, or take two places nearer to each "
               "other",
               NUT_FAR_APART);
}

bool band_read(const struct shop *shop, const char *text, const struct band **band,
               struct quantity_fault *fault)
{
    struct quantity speed;
    *band = NULL;
    if (!quantity_parse(text, KIND_SPEED, &speed, fault))
        return false;
    *band = shop_band_at(shop, speed.base);
    return *band || !shop_has_limits(shop) ||
           quantity_wrong(fault, 0,
                          "%s %s lies in no speed band; give a speed that the limits cover",
                          speed.digits, speed.unit->symbol);
}
