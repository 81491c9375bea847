/* What figures are drawn with: the fonts measure their texts. */
#ifndef BOOK_FIGURES_H
#define BOOK_FIGURES_H

#include "book.h"
#include "tree/canvas.h"

/* The book's fonts, as a figure asks them. */
struct text_meter book_meter(const struct book *book);

#endif
