#include "verdict/typed.h"

#include "verdict/state.h"

#include <stdio.h>

static bool refused(struct quantity_fault *fault, const char *why)
{
    fault->offset = 0;
    snprintf(fault->message, sizeof fault->message, "%s", why);
    return false;
}

bool pull_allowed(const struct shop *shop, const struct quantity *pull, size_t taken,
                  struct quantity_fault *fault)
{
    if (taken >= MOST_PULLS)
        return refused(fault, "there are too many pulls; judge them in two series");
    if (pull->exact.negative)
        return refused(fault, "a pull is below zero; zero the gauge and write the pull");
    if (shop && decimal_compare(&pull->exact, &shop->gauge.capacity.q.exact) > 0)
        return refused(fault,
                       "this is more than the gauge can read; if the gauge ran to its end, it "
                       "reads too little, and the pull is too high to read: unload, or take a "
                       "larger gauge or a larger drum. Else look for a slip of the pen, or "
                       "correct gauge.capacity in the settings");
    return true;
}

bool band_read(const struct shop *shop, const char *text, const struct band **band,
               struct quantity_fault *fault)
{
    struct quantity speed;
    *band = NULL;
    if (!quantity_parse(text, KIND_SPEED, &speed, fault))
        return false;
    *band = shop_band_at(shop, speed.base);
    if (*band || !shop_has_limits(shop))
        return true;
    fault->offset = 0;
    snprintf(fault->message, sizeof fault->message,
             "%s lies in no speed band; give a speed that the limits cover", text);
    return false;
}
