/* The marks of a sheet as the operators of a page. */
#ifndef PDF_DRAW_H
#define PDF_DRAW_H

#include "base/buffer.h"
#include "layout/print.h"
#include "pdf/tags.h"

/* Appends the sheet's marks, its lower left corner at the origin. With tags every
 * mark is said to be part of its tag or decoration. tags: NULL where the file has none. */
void pdf_draw_sheet(struct buffer *out, const struct sheet *sheet, struct pdf_tags *tags);

#endif
