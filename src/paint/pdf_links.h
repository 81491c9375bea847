/* Areas of a page that lead somewhere. */
#ifndef PAINT_PDF_LINKS_H
#define PAINT_PDF_LINKS_H

#include "page/print.h"
#include "paint/pdf_file.h"
#include "paint/pdf_tags.h"

/* The hot areas of all sheets as a run of the file, in order; gives the first. Ties them to
 * their tags. Once all sheets are drawn. */
pdf_ref pdf_links_run(struct pdf_file *file, const struct print *print, struct pdf_tags *tags);

/* A place in the file: "[12 0 R/XYZ null 300 null]", y counted downward. */
void pdf_put_place(struct buffer *out, const struct pdf_file *file, const struct print *print,
                   size_t sheet, double y);

#endif
