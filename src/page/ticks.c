#include "page/ticks.h"

#include "page/blocks.h"

static const double LINE = 0.8, BEFORE_WORDS = 4, BETWEEN = 11, PITCH = TICK_SIDE + 4;

/* Where the next box goes. */
struct spot {
    double x, y;
};

static double width_of(const struct flow *flow, const char *words)
{
    return TICK_SIDE + BEFORE_WORDS +
           fonts_width(flow->fonts, FACE_REGULAR, flow->type->body, words);
}

/* The spot for a box of this width, which is moved to the next line if it must be. */
static struct spot place(struct spot *next, double width, double room)
{
    if (next->x > 0 && next->x + width > room)
        *next = (struct spot){0, next->y + PITCH};
    struct spot here = *next;
    next->x += width + BETWEEN;
    return here;
}

double ticks_height(struct flow *flow, const char *const *words, size_t count, double width)
{
    struct spot next = {0};
    for (size_t i = 0; i < count; i++) {
        double taken = width_of(flow, words[i]);
        flow->failed |= taken > width;
        place(&next, taken, width);
    }
    return next.y + TICK_SIDE;
}

void ticks_put(struct flow *flow, const char *const *words, size_t count, struct area area,
               double y, int tag)
{
    struct text_style style = body_style(flow);
    double baseline = (TICK_SIDE + fonts_cap_height(flow->fonts) * style.size) / 2;
    struct spot next = {0};
    for (size_t i = 0; i < count; i++) {
        struct spot at = place(&next, width_of(flow, words[i]), area.width);
        flow_box(flow, area.x + at.x, y + at.y, TICK_SIDE, TICK_SIDE, LINE);
        flow_text(flow, area.x + at.x + TICK_SIDE + BEFORE_WORDS, y + at.y + baseline, &style,
                  tag, words[i]);
        flow->pieces[flow->piece_count - 1].blank_after = true;
    }
}
