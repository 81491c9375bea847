/* The small words of PDF, written into a buffer: numbers, strings, codes. */
#ifndef PDF_TEXT_H
#define PDF_TEXT_H

#include "base/buffer.h"

#include <stdbool.h>

/* A number rounded to 1/1000, without trailing zeros. One that is not finite, or
 * larger than any paper (32767), ends the program. */
void pdf_number(struct buffer *out, double value);

/* The same, in thousandths: for places that are kept as differences. */
long pdf_thousandths(double value);
void pdf_put_thousandths(struct buffer *out, long value);
void pdf_integer(struct buffer *out, long value);

/* A text string: UTF-16 behind a byte-order mark, as hexadecimal digits. */
void pdf_string(struct buffer *out, const char *text);

/* The text, and a blank where one follows, as a string of codes of two bytes for a font
 * of ours. Not in hexadecimal: packing that took a fifth of a run. A code point that has
 * no code ends the program. */
void pdf_codes(struct buffer *out, const char *text, bool blank_after);

/* An address of the web as a string: bytes outside printing ASCII as %XX. */
void pdf_uri(struct buffer *out, const char *uri);

#endif
