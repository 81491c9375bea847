#include "verdict/radius.h"

#include "drag/drag.h"

#include <stdio.h>

enum { RADIUS_DIGITS = 5 };

struct decimal double_radius(const struct quantity *drum, const struct quantity *cord)
{
    return decimal_add(&drum->exact, &cord->exact);
}

double effective_radius(const struct quantity *drum, const struct quantity *cord)
{
    return drag_radius(drum->base, cord->base);
}

double shop_radius(const struct shop *shop)
{
    return effective_radius(&shop->drum.diameter.q, &shop->cord.diameter.q);
}

struct shown radius_digits(const struct shop *shop)
{
    const struct unit *unit = shop->drum.diameter.q.unit;
    return show_significant(unit_from_base(shop_radius(shop), unit), RADIUS_DIGITS);
}

struct shown radius_words(const struct shop *shop)
{
    struct shown words;
    snprintf(words.text, sizeof words.text, "%.100s\u00a0%s", radius_digits(shop).text,
             shop->drum.diameter.q.unit->shown);
    return words;
}
