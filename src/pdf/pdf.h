/* Draws prints as PDF files. */
#ifndef PDF_PDF_H
#define PDF_PDF_H

#include "base/buffer.h"
#include "layout/fonts.h"
#include "layout/print.h"

/* reading: where the print goes in reading order, with tags, links and outline. folded:
 * where the same pages go as sheets for folding: two pages side by side on a sheet of double
 * width, in saddle-stitch order, blanks added to a multiple of four. Either may be NULL.
 * The bytes are the same for the same print, always, and whether or not the other file is
 * made. */
void pdf_paint(const struct print *print, const struct fonts *fonts, const struct sink *reading,
               const struct sink *folded);

#endif
