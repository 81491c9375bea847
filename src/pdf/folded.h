/* The sheets for folding: two pages side by side, as layout/fold.h orders them. */
#ifndef PDF_FOLDED_H
#define PDF_FOLDED_H

#include "layout/fonts.h"
#include "layout/print.h"
#include "pdf/file.h"
#include "pdf/fonts.h"

/* packed: by page, in reading order, its packed operators. Adds the signs of what is not the
 * print's to its own. */
void pdf_fold(const struct print *print, const struct buffer *packed, const struct fonts *fonts,
              struct pdf_signs *signs, struct packer *packer, const struct sink *sink);

#endif
