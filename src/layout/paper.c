/* The papers, and the columns on them. Sheets of even index are right-hand pages. */
#include "layout/paper.h"

#include "doc/canvas.h"

#define IN 72.0

static const struct paper papers[PAPER_SIZES] = {
    [PAPER_A6] = {"A6",
                  105 * MM,
                  148 * MM,
                  {11 * MM, 16 * MM, 12 * MM, 15 * MM},
                  6 * MM,
                  8,
                  "an A6 pouch, 111 \u00d7 154 mm"},
    [PAPER_A5] = {"A5",
                  148 * MM,
                  210 * MM,
                  {13 * MM, 18 * MM, 13 * MM, 16 * MM},
                  8 * MM,
                  10,
                  "an A5 pouch, 154 \u00d7 216 mm"},
    [PAPER_HALF_LETTER] =
        {"half letter",
         5.5 * IN,
         8.5 * IN,
         {13 * MM, 18 * MM, 12.5 * MM, 15.5 * MM},
         8 * MM,
         10,
         "a letter pouch, 9 \u00d7 11.5 in; cut the film 3 mm outside the card"},
};

static const struct stock a4 = {"A4", 210 * MM, 297 * MM},
                          letter = {"letter", 8.5 * IN, 11 * IN};

const struct stock *stock_of(enum paper_size size)
{
    return size == PAPER_HALF_LETTER ? &letter : &a4;
}

const struct paper *paper_of(enum paper_size size)
{
    return &papers[size];
}

double layout_left(const struct layout *layout, size_t sheet, bool sideways)
{
    if (sideways)
        return layout->margins.outer;
    return sheet % 2 == 0 ? layout->margins.inner : layout->margins.outer;
}
