/* Sheets that are folded into one another: the order of their pages is arithmetic, from the
 * outer sheet of a gathering inward; the marks are what the binder sees. */
#include "layout/fold.h"

#include "doc/canvas.h"
#include "layout/drawing.h"

#include <math.h>

size_t fold_sheets(const struct fold *fold)
{
    return (fold->pages + 3) / 4;
}

size_t fold_gatherings(const struct fold *fold)
{
    size_t sheets = fold_sheets(fold);
    if (sheets == 0 || fold->most == 0)
        return sheets > 0;
    return (sheets + fold->most - 1) / fold->most;
}

size_t fold_sheets_of(const struct fold *fold, size_t gathering)
{
    size_t sheets = fold_sheets(fold), gatherings = fold_gatherings(fold);
    return gatherings ? sheets / gatherings + (gathering < sheets % gatherings) : 0;
}

/* In a folded gathering the two pages of a side add up to one more than it has, blanks
 * counted, and the odd one is on the right. */
struct fold_side fold_side(const struct fold *fold, size_t side)
{
    size_t gathering = 0, before = 0, sheets;
    while (sheets = fold_sheets_of(fold, gathering), side / 2 >= before + sheets) {
        before += sheets;
        gathering++;
    }
    size_t within = side - 2 * before, low = 4 * before + 1 + within;
    size_t high = 4 * (before + sheets) - within;
    struct fold_side pages = {low, high, gathering, within / 2};
    if (side % 2 == 0) {
        pages.left = high;
        pages.right = low;
    }
    return pages;
}

/* ---- marks ---- */

static const double MARGIN = 14 * MM, PITCH = 8 * MM, SMALL = 6.5;

/* The stair begins and ends so far from the paper's edges. */
static const double STAIR = 30 * MM, MOST_STEP = 12 * MM, BAR_WIDTH = 4;

struct sheet fold_notes(struct arena *arena, const struct fonts *fonts, double width,
                        double height)
{
    const struct text_style title = {.face = FACE_BOLD, .size = 12}, small = {.size = SMALL};
    struct sheet sheet = {.width = width, .height = height};
    struct drawing drawing = {.arena = arena, .fonts = fonts, .sheet = &sheet, .tag = -1};
    drawing_text(&drawing, MARGIN, MARGIN + 4 * MM, ALIGN_LEFT, &title, "Notes");
    for (double y = MARGIN + 4 * MM + 1.5 * PITCH; y <= height - MARGIN; y += PITCH)
        drawing_line(&drawing, MARGIN, y, width - 2 * MARGIN, 0, 0.4);
    drawing_text(&drawing, MARGIN, height - MARGIN + 5 * MM, ALIGN_LEFT, &small,
                 "To fold and staple: print at 100 %, on both sides, flip on the short edge.");
    return sheet;
}

bool fold_is_marked(const struct fold *fold, size_t side)
{
    return fold_gatherings(fold) > 1 && side % 2 == 0 && fold_side(fold, side).around == 0;
}

struct sheet fold_mark(struct arena *arena, const struct fonts *fonts, const struct fold *fold,
                       size_t gathering, double width, double height)
{
    const struct text_style bold = {.face = FACE_BOLD, .size = SMALL};
    struct sheet sheet = {.width = width, .height = height};
    struct drawing drawing = {.arena = arena, .fonts = fonts, .sheet = &sheet, .tag = -1};
    size_t count = fold_gatherings(fold);
    double step = fmin(MOST_STEP, (height - 2 * STAIR) / (double)count);
    double y = STAIR + step * (double)gathering;
    struct piece bar =
        decoration(PIECE_BOX, width / 2 - BAR_WIDTH / 2, y, BAR_WIDTH, 0.7 * step, 0);
    bar.filled = true;
    sheet_put(arena, &sheet, bar);
    drawing_text(&drawing, width / 2 + BAR_WIDTH, y + 0.35 * step + 2.2, ALIGN_LEFT, &bold,
                 arena_format(arena, "%zu of %zu", gathering + 1, count));
    return sheet;
}

/* Of unequal gatherings: "8, 7 and 7". */
const char *fold_words(struct arena *arena, const struct fold *fold)
{
    size_t sheets = fold_sheets(fold), count = fold_gatherings(fold);
    if (count < 2)
        return arena_format(arena, sheets == 1 ? "%zu sheet" : "%zu sheets", sheets);
    size_t first = fold_sheets_of(fold, 0);
    const char *text =
        arena_format(arena, "%zu sheets in %zu gatherings of %zu", sheets, count, first);
    for (size_t i = 1; i < count && first != fold_sheets_of(fold, count - 1); i++)
        text = arena_format(arena, "%s%s%zu", text, i + 1 < count ? ", " : " and ",
                            fold_sheets_of(fold, i));
    return text;
}
