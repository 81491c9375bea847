#include "page/fold_marks.h"

#include "tree/points.h"

#include <math.h>

static const double MARGIN = 14 * MM, PITCH = 8 * MM;

/* The stair begins and ends so far from the paper's edges. */
static const double STAIR = 30 * MM, MOST_STEP = 12 * MM, BAR_WIDTH = 4;

static struct piece words(double x, double y, enum face face, double size, const char *text)
{
    return (struct piece){.kind = PIECE_TEXT,
                          .tag = -1,
                          .x = x,
                          .y = y,
                          .face = face,
                          .size = size,
                          .height = size,
                          .text = text};
}

static void put(struct arena *arena, struct sheet *sheet, struct piece piece)
{
    *ARENA_PUSH(arena, sheet->pieces, sheet->piece_count) = piece;
}

struct sheet fold_notes(struct arena *arena, double width, double height)
{
    struct sheet sheet = {.width = width, .height = height};
    put(arena, &sheet, words(MARGIN, MARGIN + 4 * MM, FACE_BOLD, 12, "Notes"));
    for (double y = MARGIN + 4 * MM + 1.5 * PITCH; y <= height - MARGIN; y += PITCH)
        put(arena, &sheet, decoration(PIECE_LINE, MARGIN, y, width - 2 * MARGIN, 0, 0.4));
    put(arena, &sheet,
        words(MARGIN, height - MARGIN + 5 * MM, FACE_REGULAR, 6.5,
              "To fold and staple: print at 100 %, on both sides, flip on the short edge."));
    return sheet;
}

bool fold_is_marked(const struct fold *fold, size_t side)
{
    return fold_gatherings(fold) > 1 && side % 2 == 0 && fold_side(fold, side).around == 0;
}

struct sheet fold_mark(struct arena *arena, const struct fold *fold, size_t gathering,
                       double width, double height)
{
    struct sheet sheet = {.width = width, .height = height};
    size_t count = fold_gatherings(fold);
    double step = fmin(MOST_STEP, (height - 2 * STAIR) / (double)count);
    double y = STAIR + step * (double)gathering;
    put(arena, &sheet,
        (struct piece){.kind = PIECE_BOX,
                       .tag = -1,
                       .x = width / 2 - BAR_WIDTH / 2,
                       .y = y,
                       .width = BAR_WIDTH,
                       .height = 0.7 * step,
                       .filled = true});
    put(arena, &sheet,
        words(width / 2 + BAR_WIDTH, y + 0.35 * step + 2.2, FACE_BOLD, 6.5,
              arena_format(arena, "%zu of %zu", gathering + 1, count)));
    return sheet;
}

/* "10", or "8, 7 and 7". */
static const char *sizes(struct arena *arena, const struct fold *fold)
{
    size_t count = fold_gatherings(fold), first = fold_sheets_of(fold, 0);
    const char *text = arena_format(arena, "%zu", first);
    if (first == fold_sheets_of(fold, count - 1))
        return text;
    for (size_t i = 1; i < count; i++)
        text = arena_format(arena, "%s%s%zu", text, i + 1 < count ? ", " : " and ",
                            fold_sheets_of(fold, i));
    return text;
}

const char *fold_words(struct arena *arena, const struct fold *fold)
{
    size_t sheets = fold_sheets(fold), count = fold_gatherings(fold);
    if (count < 2)
        return arena_format(arena, sheets == 1 ? "%zu sheet" : "%zu sheets", sheets);
    return arena_format(arena, "%zu sheets in %zu gatherings of %s", sheets, count,
                        sizes(arena, fold));
}
