/* The small words of PDF, written into a buffer. */
#ifndef PDF_TEXT_H
#define PDF_TEXT_H

#include "base/buffer.h"

#include <stdbool.h>

/* Appends as printf does, for %s, %d, %u, %zu and %f alone: %f is a number rounded to 1/1000,
 * without trailing zeros; one that is not finite, or larger than any paper (32767), ends the
 * program. A reference to an object is "%u 0 R". */
void pdf_print(struct buffer *out, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* A number of %f in thousandths: for places that are kept as differences. */
long pdf_thousandths(double value);

/* A text string: UTF-16 behind a byte-order mark, as hexadecimal digits. */
void pdf_string(struct buffer *out, const char *text);

/* The text, and a blank where one follows, as a string of codes of two bytes for a font
 * of ours. Not in hexadecimal: packing that took a fifth of a run. A code point that has
 * no code ends the program. */
void pdf_codes(struct buffer *out, const char *text, bool blank_after);

/* An address of the web as a string: bytes outside printing ASCII as %XX. */
void pdf_uri(struct buffer *out, const char *uri);

#endif
