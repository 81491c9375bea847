/* The sheet with a drum to make. */
#include "book_aids.h"

#include "figures/drum_drawing.h"

struct aid book_drum_aid(struct arena *arena, const struct shop *shop,
                         const struct text_meter *meter, enum paper_size booklet)
{
    struct aid aid = {.title = "A drum to make"};
    struct figure_ask ask = {.arena = arena, .shop = shop, .meter = meter};
    struct canvas canvas = canvas_new(arena, meter, 0);
    drum_drawing_put(&ask, &canvas, aid_figure_width(booklet), aid_figure_height(booklet));
    *ARENA_PUSH(arena, aid.words, aid.word_count) = canvas.figure->caption;
    aid.figure = canvas.figure;
    return aid;
}
