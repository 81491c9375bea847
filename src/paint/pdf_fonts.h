/* The faces of a print as fonts of a PDF: embedded, reduced to the signs used. */
#ifndef PAINT_PDF_FONTS_H
#define PAINT_PDF_FONTS_H

#include "page/fonts.h"
#include "paint/pdf_file.h"
#include "paint/pdf_survey.h"

/* What the faces are called in the operators of a page. */
extern const char *const pdf_face_names[FACE_COUNT];

/* Embeds the faces in use, as the resources that every page shares. A text is shown in
 * them by its code points, two bytes each. */
void pdf_fonts_embed(struct pdf_file *file, const struct fonts *fonts,
                     const struct pdf_signs *signs);

#endif
