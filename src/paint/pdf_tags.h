/* The logical structure: which marks of which page belong to which tag, and the
 * tree of tags for readers that listen (PDF 1.7, section 14.7 and 14.8). */
#ifndef PAINT_PDF_TAGS_H
#define PAINT_PDF_TAGS_H

#include "page/print.h"
#include "paint/pdf_file.h"

struct pdf_tags;

/* The print outlives the tags; its own may grow meanwhile. */
struct pdf_tags *pdf_tags_new(struct arena *arena, const struct print *print);
void pdf_tags_free(struct pdf_tags *tags); /* what is not the arena's */

/* Opens a run of marked content on a sheet and remembers it; tag -1 is decoration.
 * Sheets come in order. The run is closed with EMC. */
void pdf_tags_open(struct pdf_tags *tags, struct buffer *out, int tag, size_t sheet);

/* Ties a link's annotation to the nearest link tag around a tag, if there is one:
 * gives the annotation's key in the tree, or -1. Once all sheets are drawn. */
long pdf_tags_tie(struct pdf_tags *tags, int tag, size_t sheet, pdf_ref annotation);

/* Appends to a page's entries what ties it to the tree; nothing where it has no marks. */
void pdf_tags_put_page(const struct pdf_tags *tags, struct buffer *out, size_t sheet);

/* Writes the tree and marks the file as tagged; pages: by sheet. */
void pdf_tags_write(struct pdf_tags *tags, struct pdf_file *file, const pdf_ref *pages);

#endif
