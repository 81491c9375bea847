/* Part of book_read(): fills the places of figures. The fonts measure their texts. */
#ifndef BOOK_FIGURES_H
#define BOOK_FIGURES_H

#include "book.h"
#include "tree/canvas.h"

void book_make_figures(struct book *book);
/* The book's fonts, as a figure asks them. */
struct text_meter book_meter(const struct book *book);

void book_check_figures(struct book *book); /* their names alone */

/* Measures a text in the book's fonts: what a struct text_meter asks for. */
double book_text_width(const void *with, bool bold, double size, const char *text);

#endif
