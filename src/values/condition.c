#include "values/condition.h"

#include <string.h>

static bool with_limits(const struct shop *shop)
{
    return shop_has_limits(shop);
}

static bool without_limits(const struct shop *shop)
{
    return !shop_has_limits(shop);
}

/* Without limits the steady pull is read: it is what later drags are compared with. */
static bool if_starting(const struct shop *shop)
{
    return shop_has_limits(shop) && shop->limits.torque == TORQUE_STARTING;
}

static bool if_running(const struct shop *shop)
{
    return !if_starting(shop);
}

static bool in_celsius(const struct shop *shop)
{
    return !shop_in_fahrenheit(shop);
}

static const struct condition conditions[] = {
    {"with-limits", "limits are on file", with_limits},
    {"without-limits", "no limit is on file", without_limits},
    {"in-celsius", "run-in.room is in degrees Celsius, or left out", in_celsius},
    {"in-fahrenheit", "run-in.room is in degrees Fahrenheit", shop_in_fahrenheit},
    {"if-running", "the limits are for the running drag, or there are none", if_running},
    {"if-starting", "the limits are for the starting drag", if_starting},
};

enum { CONDITIONS = sizeof conditions / sizeof conditions[0] };

const struct condition *condition_at(size_t index)
{
    return index < CONDITIONS ? &conditions[index] : NULL;
}

const char *condition_take(const struct shop *shop, const char *text)
{
    for (size_t i = 0; i < CONDITIONS; i++) {
        size_t length = strlen(conditions[i].name);
        if (text[0] == '{' && strncmp(text + 1, conditions[i].name, length) == 0 &&
            text[1 + length] == '}')
            return !shop || conditions[i].holds(shop) ? text + length + 2 : NULL;
    }
    return text;
}
