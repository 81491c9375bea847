/* Draws prints as PDF files. */
#ifndef PAINT_PDF_H
#define PAINT_PDF_H

#include "base/sink.h"
#include "page/fonts.h"
#include "page/print.h"

/* A print on its way into one file or two, sheet by sheet. */
struct pdf_painter;

/* reading: where the print goes in reading order, with tags, links and outline. folded:
 * where the same pages go as sheets for folding: two pages side by side on a sheet of double
 * width, in saddle-stitch order, blanks added to a multiple of four. Either may be NULL.
 * The bytes are the same for the same print, always, and whether or not the other file is
 * made. The fonts outlive the painter. */
struct pdf_painter *pdf_painter_new(const struct fonts *fonts, const struct sink *reading,
                                    const struct sink *folded);

/* Draws the marks of a sheet, which may then be freed: its size, its label, its areas and
 * the print's tags and outline are looked at last. Every sheet once, in any order. */
void pdf_painter_take(struct pdf_painter *painter, const struct print *print, size_t sheet);

/* All sheets were taken: makes the files whole. */
void pdf_painter_end(struct pdf_painter *painter, const struct print *print);

void pdf_painter_free(struct pdf_painter *painter);

/* All of it at once, for a print whose sheets are all there. */
void pdf_paint(const struct print *print, const struct fonts *fonts, const struct sink *reading,
               const struct sink *folded);

#endif
