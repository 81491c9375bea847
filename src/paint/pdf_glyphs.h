/* Glyphs that are put together from other glyphs, in a font that libharu loaded. */
#ifndef PAINT_PDF_GLYPHS_H
#define PAINT_PDF_GLYPHS_H

#include "paint/pdf_file.h"

/* libharu keeps the parts of a glyph in use, but not the parts of those parts: an
 * accent on a letter could go missing. This keeps parts of any depth. */
void pdf_glyphs_keep_parts(const struct pdf_file *file, HPDF_FontDef def);

#endif
