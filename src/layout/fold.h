/* Which two pages share a side of a sheet in a booklet whose sheets are folded once, into
 * one another, and what such sheets have beside the pages. A thick booklet is made of several
 * gatherings, that come one after the other. */
#ifndef LAYOUT_FOLD_H
#define LAYOUT_FOLD_H

#include "layout/fonts.h"
#include "layout/print.h"

struct fold {
    size_t pages;
    size_t most; /* sheets in one gathering; 0: all are in one */
};

/* Sheets of paper, of four pages each: the last ones of the last may be blank. */
size_t fold_sheets(const struct fold *fold);

/* Gatherings, as few as may be and as equal as can be: the first ones have a sheet more.
 * gathering: from 0. */
size_t fold_gatherings(const struct fold *fold);
size_t fold_sheets_of(const struct fold *fold, size_t gathering);

/* One side of a sheet. For each sheet around it its outer edges stand out by one thickness of
 * paper: moved back by as much toward the fold, all pages lie alike once the edges are trimmed,
 * or left as they are. Page numbers from 1; a number above the count of pages is a blank. */
struct fold_side {
    size_t left, right;
    size_t gathering; /* from 0 */
    size_t around;    /* sheets of the gathering that lie around this one */
};

/* Sides are counted from 0: front of the first gathering's outer sheet, its back, front of
 * the next sheet inward, ... side < 2 * fold_sheets(). */
struct fold_side fold_side(const struct fold *fold, size_t side);

/* What a blank page shows: a heading, lines to write on, how the sheets are printed. */
struct sheet fold_notes(struct arena *arena, const struct fonts *fonts, double width,
                        double height);

/* Where there is more than one gathering: on the front of the outer sheet of each, over the
 * whole paper, a bar across the fold and a number beside it. Each bar is lower than the one
 * before, so that the backs of the gatherings in their order show a stair. */
bool fold_is_marked(const struct fold *fold, size_t side);
struct sheet fold_mark(struct arena *arena, const struct fonts *fonts, const struct fold *fold,
                       size_t gathering, double width, double height);

/* "20 sheets in 2 gatherings of 10", "22 sheets in 3 gatherings of 8, 7 and 7". */
const char *fold_words(struct arena *arena, const struct fold *fold);

#endif
