/* The sheets for folding: two pages side by side, as page/fold.h orders them. */
#ifndef PAINT_PDF_FOLDED_H
#define PAINT_PDF_FOLDED_H

#include "page/fonts.h"
#include "page/print.h"
#include "paint/pdf_file.h"
#include "paint/pdf_survey.h"

struct pdf_folded;

struct pdf_folded *pdf_folded_new(struct arena *arena, struct sink sink, struct packer *packer);

/* A page, by its packed operators; index: its place in reading order. */
void pdf_folded_take(struct pdf_folded *folded, const struct sheet *sheet, size_t index,
                     const struct buffer *packed);

/* All pages were taken: puts them on their sheets, and makes the file whole. Adds the signs
 * of what is not the print's to its own. */
void pdf_folded_end(struct pdf_folded *folded, const struct print *print,
                    const struct fonts *fonts, struct pdf_signs *signs);

void pdf_folded_free(struct pdf_folded *folded); /* what is not the arena's */

#endif
