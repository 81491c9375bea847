#include "figures/words.h"

#include "number/show.h"

const char *steps_words(struct arena *arena, const struct shop *shop, int64_t steps)
{
    return arena_text(arena, show_steps(steps, &shop->gauge.step.q.typed).text);
}
