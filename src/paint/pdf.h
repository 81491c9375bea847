/* Draws a print as PDF. The files pdf*.c alone include hpdf.h. */
#ifndef PAINT_PDF_H
#define PAINT_PDF_H

#include "base/buffer.h"
#include "page/fonts.h"
#include "page/print.h"

/* The print in reading order. The bytes are the same for the same print, always.
 * A failure of the library ends the program (base/fatal.h). */
void pdf_paint(struct buffer *out, const struct print *print, const struct fonts *fonts);

/* The same pages as sheets for folding: two pages side by side on a sheet of
 * double width, in saddle-stitch order, blanks added to a multiple of four. */
void pdf_paint_folded(struct buffer *out, const struct print *print, const struct fonts *fonts);

#endif
