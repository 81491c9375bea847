/* Areas of a page that lead somewhere. */
#ifndef PAINT_PDF_LINKS_H
#define PAINT_PDF_LINKS_H

#include "page/print.h"
#include "paint/pdf_file.h"
#include "paint/pdf_tags.h"

/* Writes the hot areas of one sheet, each an object; gives the first, the others follow. To
 * be called in order of sheets, once all are drawn; pages: by sheet. */
pdf_ref pdf_links_write(struct pdf_file *file, const struct print *print, size_t sheet,
                        const pdf_ref *pages, struct pdf_tags *tags);

/* A place in the file: "[12 0 R/XYZ null 300 null]", y counted downward. */
void pdf_put_place(struct buffer *out, pdf_ref page, const struct sheet *sheet, double y);

#endif
