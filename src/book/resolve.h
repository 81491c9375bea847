/* What figures are drawn with: the fonts measure their texts. */
#ifndef BOOK_RESOLVE_H
#define BOOK_RESOLVE_H

#include "book/book.h"
#include "doc/canvas.h"

/* The book's fonts, as a figure asks them. */
struct text_meter book_meter(const struct book *book);

#endif
