/* The logical structure: which marks of which page belong to which tag, and the
 * tree of tags for readers that listen (PDF 1.7, section 14.7 and 14.8). */
#ifndef PAINT_PDF_TAGS_H
#define PAINT_PDF_TAGS_H

#include "page/print.h"
#include "paint/pdf_file.h"

struct pdf_tags;

struct pdf_tags *pdf_tags_new(struct arena *arena);
void pdf_tags_free(struct pdf_tags *tags); /* what is not the arena's */

/* To be called once for each sheet, before its runs: whose tags they are. Sheets come in any
 * order, but for those that a tag has marks on: they are in reading order. */
void pdf_tags_sheet(struct pdf_tags *tags, const struct print *print, size_t sheet);

/* Opens a run of marked content on the sheet and remembers it; tag -1 is decoration. The run
 * is closed with EMC. */
void pdf_tags_open(struct pdf_tags *tags, struct buffer *out, int tag);

/* The nearest link tag around a tag, or -1. */
int pdf_tags_link(const struct pdf_tags *tags, int tag);

/* Ties a link's annotation to the nearest link tag around a tag, if there is one. Their keys
 * in the tree follow those of the sheets. Once all sheets are drawn. */
void pdf_tags_tie(struct pdf_tags *tags, int tag, size_t sheet, pdf_ref annotation);

/* Appends to a page's entries what ties it to the tree; nothing where it has no marks. */
void pdf_tags_put_page(const struct pdf_tags *tags, struct buffer *out, size_t sheet);

/* The tree as runs of the file, which is marked as tagged. Once all links are tied. */
void pdf_tags_run(struct pdf_tags *tags, struct pdf_file *file);

#endif
