/* The logical structure: which marks of which page belong to which tag, and the
 * tree of tags for readers that listen (PDF 1.7, section 14.7 and 14.8). */
#ifndef PAINT_PDF_TAGS_H
#define PAINT_PDF_TAGS_H

#include "page/print.h"
#include "paint/pdf_file.h"

struct pdf_tags;

/* NULL for a print without tags; all others take NULL for "no tags are wanted". */
struct pdf_tags *pdf_tags_new(struct arena *arena, const struct print *print);

/* Opens a run of marked content on a sheet and remembers it; -1 is decoration.
 * Sheets come in order. The run is closed with EMC. */
void pdf_tags_open(struct pdf_tags *tags, struct buffer *out, int tag, size_t sheet);

/* Ties a link's annotation to the nearest link tag around a tag, if there is one:
 * gives the annotation's key in the tree, or -1. */
int pdf_tags_tie(struct pdf_tags *tags, int tag, size_t sheet, HPDF_Dict annotation);

/* Writes the tree and marks the file as tagged. */
void pdf_tags_write(struct pdf_tags *tags, struct pdf_file *file, const HPDF_Page *pages);

#endif
