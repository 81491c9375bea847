/* Where on a sheet the column of text stands. */
#ifndef PAGE_LAYOUT_H
#define PAGE_LAYOUT_H

#include "page/flow.h"
#include "page/sizes.h"

/* A kind of sheet: the paper, and what stays blank at its edges. */
struct layout {
    double width, height; /* upright */
    struct margins margins;
    double give; /* share of the gaps that may go where a sheet then holds more; 0: none */
};

struct layout layout_booklet(const struct paper *paper);
/* A card, upright or on its side. hole: of its punched hole, from the top edge to the
 * middle; 0: none. What is around it stays blank. */
struct layout layout_card(const struct paper *paper, double hole);
struct layout layout_card_lying(const struct paper *paper, double hole);

/* Gives the flow the column of this layout; turned sheets only where allowed. */
void layout_apply(const struct layout *layout, struct flow *flow, bool turning);

/* Left edge of the column. Sheets of even index are right-hand pages, with the
 * fold at their left. */
double layout_left(const struct layout *layout, size_t sheet, bool sideways);

/* Is the sheet turned? */
bool sheet_is_sideways(const struct layout *layout, const struct sheet *sheet);

#endif
