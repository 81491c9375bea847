#include "paint/pdf_fold.h"

size_t fold_side_count(size_t pages)
{
    return (pages + 3) / 4 * 2;
}

/* In a stapled booklet the two pages of a side add up to one more than there are,
 * blanks counted, and the odd one is on the right. */
struct fold_side fold_side(size_t pages, size_t side)
{
    size_t all = (pages + 3) / 4 * 4;
    if (side % 2 == 0)
        return (struct fold_side){all - side, 1 + side};
    return (struct fold_side){1 + side, all - side};
}

double fold_shift(size_t side, double thickness)
{
    size_t sheet = side / 2;
    return (double)sheet * thickness;
}
