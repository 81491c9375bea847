#include "shop/words.h"

const char *quantity_text(struct arena *arena, const struct quantity *quantity)
{
    char text[QUANTITY_TEXT];
    quantity_show(quantity, text);
    return arena_text(arena, text);
}

const char *band_text(struct arena *arena, const struct band *band)
{
    return arena_format(arena, "%s–%s\u00a0%s", band->from.q.digits, band->to.q.digits,
                        band->to.q.unit->shown);
}
