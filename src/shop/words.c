#include "shop/words.h"

const char *quantity_text(struct arena *arena, const struct quantity *quantity)
{
    char text[QUANTITY_TEXT];
    quantity_show(quantity, text);
    return arena_text(arena, text);
}

static const char *typed_or(struct arena *arena, const struct measure *measure, int celsius)
{
    return given(measure) ? quantity_text(arena, &measure->q)
                          : arena_format(arena, "%d\u00a0°C", celsius);
}

const char *room_text(struct arena *arena, const struct shop *shop)
{
    return typed_or(arena, &shop->run_in.room, RUN_IN_ROOM_CELSIUS);
}

const char *stop_text(struct arena *arena, const struct shop *shop)
{
    return typed_or(arena, &shop->run_in.stop, RUN_IN_STOP_CELSIUS);
}

const char *rise_text(struct arena *arena, const struct shop *shop)
{
    return typed_or(arena, &shop->run_in.rise, RUN_IN_RISE_CELSIUS);
}

const char *band_text(struct arena *arena, const struct band *band)
{
    return arena_format(arena, "%s–%s\u00a0%s", band->from.q.digits, band->to.q.digits,
                        band->to.q.unit->shown);
}
