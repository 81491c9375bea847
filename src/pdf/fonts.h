/* The faces of a print as fonts of a PDF: embedded, reduced to the signs used. */
#ifndef PDF_FONTS_H
#define PDF_FONTS_H

#include "layout/fonts.h"
#include "layout/print.h"
#include "pdf/file.h"

#include <stdint.h>

/* The signs of a print by face, one bit for each code point below U+FFFF. */
struct pdf_signs {
    bool used[FACE_COUNT];
    uint8_t bits[FACE_COUNT][65536 / 8];
};

/* Adds the signs of a sheet to what is there. */
void pdf_signs_add(struct pdf_signs *signs, const struct sheet *sheet);

/* What the faces are called in the operators of a page. */
extern const char *const pdf_face_names[FACE_COUNT];

struct pdf_embedded {
    pdf_ref faces;     /* a dictionary of them by their names */
    pdf_ref resources; /* those of a page that has nothing but them */
};

/* Embeds the faces in use. A text is shown in them by its code points, two bytes each. */
struct pdf_embedded pdf_fonts_embed(struct pdf_file *file, const struct fonts *fonts,
                                    const struct pdf_signs *signs);

#endif
