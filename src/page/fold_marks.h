/* What the sheets for folding have beside the booklet's pages. */
#ifndef PAGE_FOLD_MARKS_H
#define PAGE_FOLD_MARKS_H

#include "page/fold.h"
#include "page/print.h"

/* What a blank page shows: a heading, lines to write on, how the sheets are printed. */
struct sheet fold_notes(struct arena *arena, double width, double height);

/* Where there is more than one gathering: on the front of the outer sheet of each, over the
 * whole paper, a bar across the fold and a number beside it. Each bar is lower than the one
 * before, so that the backs of the gatherings in their order show a stair. */
bool fold_is_marked(const struct fold *fold, size_t side);
struct sheet fold_mark(struct arena *arena, const struct fold *fold, size_t gathering,
                       double width, double height);

/* "20 sheets in 2 gatherings of 10", "22 sheets in 3 gatherings of 8, 7 and 7". */
const char *fold_words(struct arena *arena, const struct fold *fold);

#endif
