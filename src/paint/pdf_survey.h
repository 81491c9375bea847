/* A look over a print before it is drawn: is it sound, which signs does it use. */
#ifndef PAINT_PDF_SURVEY_H
#define PAINT_PDF_SURVEY_H

#include "page/print.h"

#include <stdint.h>

/* The signs of a print by face, one bit for each code point below U+FFFF. */
struct pdf_signs {
    bool used[FACE_COUNT];
    uint8_t bits[FACE_COUNT][65536 / 8];
};

/* The signs of a face in order, owned by the arena; *count of them. */
const uint32_t *pdf_signs_list(struct arena *arena, const struct pdf_signs *signs,
                               enum face face, size_t *count);

/* Adds the signs of a sheet to what is there. */
void pdf_survey_signs(struct pdf_signs *signs, const struct sheet *sheet);

/* Each ends the program if a number is not finite, or an index leads nowhere: of a sheet,
 * before it is drawn; and of what holds the sheets together, once all are there. */
void pdf_survey_sheet(const struct print *print, size_t index);
void pdf_survey_whole(const struct print *print);

#endif
