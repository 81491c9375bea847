/* Numbers of sheets in small Roman figures: "iv". */
#ifndef PAGE_ROMAN_H
#define PAGE_ROMAN_H

#include "base/buffer.h"

/* number: above 0. */
void roman_write(struct buffer *out, long number);

/* 0 unless the text is one, of at most 3999, as it is properly written. */
long roman_read(const char *text);

#endif
