/* The sheets for folding: two pages side by side, as pdf_fold.h orders them. */
#ifndef PAINT_PDF_FOLDED_H
#define PAINT_PDF_FOLDED_H

#include "page/fonts.h"
#include "page/print.h"
#include "paint/pdf_file.h"
#include "paint/pdf_survey.h"

struct pdf_folded;

struct pdf_folded *pdf_folded_new(struct arena *arena, struct sink sink, struct packer *packer);

/* The next page in reading order, by its packed operators. */
void pdf_folded_take(struct pdf_folded *folded, const struct sheet *sheet,
                     const struct buffer *packed);

/* All pages were taken: puts them on their sheets, and closes the file. Adds the signs of
 * blanks to those of the print. */
void pdf_folded_end(struct pdf_folded *folded, const struct print *print,
                    const struct fonts *fonts, struct pdf_signs *signs);

#endif
