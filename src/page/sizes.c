#include "page/sizes.h"

#define MM (72 / 25.4)
#define IN 72.0

static const struct paper papers[] = {
    [PAPER_A6] = {"A6", 105 * MM, 148 * MM, {11 * MM, 16 * MM, 12 * MM, 15 * MM}, 6 * MM, 8},
    [PAPER_A5] = {"A5", 148 * MM, 210 * MM, {13 * MM, 18 * MM, 13 * MM, 16 * MM}, 8 * MM, 10},
    [PAPER_HALF_LETTER] = {"half letter",
                           5.5 * IN,
                           8.5 * IN,
                           {13 * MM, 18 * MM, 12.5 * MM, 15.5 * MM},
                           8 * MM,
                           10},
};

const struct paper *paper_of(enum paper_size size)
{
    return &papers[size];
}
