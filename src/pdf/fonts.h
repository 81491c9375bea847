/* The faces of a print as fonts of a PDF: embedded, reduced to the characters used. */
#ifndef PDF_FONTS_H
#define PDF_FONTS_H

#include "layout/fonts.h"
#include "layout/print.h"
#include "pdf/file.h"

#include <stdint.h>

/* The characters of a print by face, one bit for each code point below U+FFFF. */
struct pdf_characters {
    bool used[FACE_COUNT];
    uint8_t bits[FACE_COUNT][65536 / 8];
};

/* Adds the characters of a sheet to what is there. */
void pdf_characters_add(struct pdf_characters *characters, const struct sheet *sheet);

/* What the faces are called in the operators of a page. */
extern const char *const pdf_face_names[FACE_COUNT];

struct pdf_embedded {
    pdf_ref faces;     /* a dictionary of them by their names */
    pdf_ref resources; /* those of a page that has nothing but them */
};

/* Embeds the faces in use. A text is shown in them by its code points, two bytes each. */
struct pdf_embedded pdf_fonts_embed(struct pdf_file *file, const struct fonts *fonts,
                                    const struct pdf_characters *characters);

#endif
