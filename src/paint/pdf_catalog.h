/* What a file says of itself as a whole: title, outline, page labels, wishes. */
#ifndef PAINT_PDF_CATALOG_H
#define PAINT_PDF_CATALOG_H

#include "page/print.h"
#include "paint/pdf_file.h"

enum pdf_flip { PDF_FLIP_LONG_EDGE, PDF_FLIP_SHORT_EDGE };

/* Title, language, and how to show and print it. A date is given only if the
 * environment has SOURCE_DATE_EPOCH (base/source_date.h). */
void pdf_catalog_describe(struct pdf_file *file, const char *title, enum pdf_flip flip);

/* The tree of titles, as a run of the file (pdf_outline.c). */
void pdf_catalog_outline(struct pdf_file *file, const struct print *print);

/* The page numbers as printed, so that a viewer shows the same. */
void pdf_catalog_labels(struct pdf_file *file, const struct print *print);

#endif
