/* The card on paper as it is bought: crop marks, check bars, what to do. */
#ifndef PAGE_CARD_SHEET_H
#define PAGE_CARD_SHEET_H

#include "page/compose.h"

/* Fronts on the first sheet, backs on the second, two cards where two fit. The card's
 * own sheets are copied as they are now. */
struct print *card_sheet_compose(struct arena *arena, const struct print *card,
                                 const struct card_ask *ask, const struct fonts *fonts,
                                 const struct imprint *imprint);

/* Draws the line to cut along, round at the corners, on each of the card's sheets. */
void card_edge_add(struct arena *arena, struct print *card);

/* Draws on each side where a hole of 6 mm is to be punched: in the middle, so far from the
 * top edge. 0: nothing. */
void card_hole_add(struct arena *arena, struct print *card, double hole);

#endif
