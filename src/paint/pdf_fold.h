/* Which two pages share a side of a sheet in a booklet that is folded once and
 * stapled through the fold. Pure arithmetic: no paper, no PDF. */
#ifndef PAINT_PDF_FOLD_H
#define PAINT_PDF_FOLD_H

#include <stddef.h>

/* Page numbers from 1; a number above the count of pages is a blank. */
struct fold_side {
    size_t left, right;
};

/* Sides of paper for so many pages: two a sheet, four pages a sheet. */
size_t fold_side_count(size_t pages);

/* The pages on a side, counted from 0: front of the outer sheet, its back, front
 * of the next sheet inward, ... side < fold_side_count(pages). */
struct fold_side fold_side(size_t pages, size_t side);

/* How far both pages of a side are moved toward the fold, in the unit of thickness. For
 * each sheet around it a sheet's outer edges stand out by one thickness of paper; moved
 * back by as much, all pages lie alike once the edges are trimmed, or left as they are.
 * The outer sheet stays. */
double fold_shift(size_t side, double thickness);

#endif
