#include "page/fold.h"

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

double fold_shift(const struct fold_side *side, double thickness)
{
    return (double)side->around * thickness;
}
