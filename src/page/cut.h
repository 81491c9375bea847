/* Where the flow is cut into sheets: over the whole of it, as well as it can be. */
#ifndef PAGE_CUT_H
#define PAGE_CUT_H

#include "page/layout.h"

/* What one sheet holds: the strips from the end of the one before. */
struct cut {
    size_t end;     /* the strip that the next sheet begins with */
    double squeeze; /* share of every loose gap that is taken away, 0 to layout.give */
    bool sideways;
};

/* The part of a strip's gap that may be squeezed. */
double cut_loose(const struct strip *strip);

/* Height that a strip takes as the first of a sheet. */
double cut_height_as_first(const struct strip *strip);

/* Cuts the strips from first to before end, first < end. Of the ways to cut it takes one
 * that parts what belongs together least, then one with few sheets, no bare ones among
 * them, and little taken from the gaps. A strip that is too tall for any sheet has one of
 * its own. The cuts are the flow's, until flow_end(). */
const struct cut *cut_sheets(struct flow *flow, const struct layout *layout, size_t first,
                             size_t end, size_t *count);

#endif
