/* Areas of a page that lead somewhere. */
#ifndef PAINT_PDF_LINKS_H
#define PAINT_PDF_LINKS_H

#include "page/print.h"
#include "paint/pdf_file.h"
#include "paint/pdf_tags.h"

/* Puts the hot areas of one sheet on its page; to be called in order of sheets. */
void pdf_links_add(struct pdf_file *file, const struct print *print, size_t sheet,
                   const HPDF_Page *pages, struct pdf_tags *tags);

/* A place in the file: "[12 0 R/XYZ null 300 null]", y counted downward. */
void pdf_put_place(struct buffer *out, HPDF_Page page, const struct sheet *sheet, double y);

#endif
