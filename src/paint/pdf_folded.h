/* The sheets for folding: two pages side by side, as page/fold.h orders them. */
#ifndef PAINT_PDF_FOLDED_H
#define PAINT_PDF_FOLDED_H

#include "page/fonts.h"
#include "page/print.h"
#include "paint/pdf_file.h"
#include "paint/pdf_fonts.h"

/* packed: by page, in reading order, its packed operators. Adds the signs of what is not the
 * print's to its own. */
void pdf_fold(const struct print *print, const struct buffer *packed, const struct fonts *fonts,
              struct pdf_signs *signs, struct packer *packer, const struct sink *sink);

#endif
