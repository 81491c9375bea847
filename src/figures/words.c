#include "figures/words.h"

#include "number/show.h"

const char *quantity_words(struct arena *arena, const struct quantity *quantity)
{
    char text[QUANTITY_TEXT];
    quantity_show(quantity, text);
    return arena_text(arena, text);
}

const char *steps_words(struct arena *arena, const struct shop *shop, int64_t steps)
{
    return arena_text(arena, show_steps(steps, &shop->gauge.step.q.typed).text);
}

const char *band_words(struct arena *arena, const struct band *band)
{
    return arena_format(arena, "%s–%s\u00a0%s", band->from.q.digits, band->to.q.digits,
                        band->to.q.unit->shown);
}
