/* The logical structure: which marks of which page belong to which tag, and the
 * tree of tags for readers that listen (PDF 1.7, section 14.7 and 14.8). */
#ifndef PDF_TAGS_H
#define PDF_TAGS_H

#include "layout/print.h"
#include "pdf/file.h"

struct pdf_tags;

/* Owned by the arena. */
struct pdf_tags *pdf_tags_new(struct arena *arena, const struct print *print);

/* The next sheet begins, the first of all being sheet 0. */
void pdf_tags_next_sheet(struct pdf_tags *tags);

/* Opens a run of marked content on the sheet and remembers it; tag -1 is decoration. The run
 * is closed with EMC. */
void pdf_tags_open(struct pdf_tags *tags, struct buffer *out, int tag);

/* Ties a link's annotation to the nearest link tag around a tag: gives its key in the tree, or
 * -1 where there is no such tag. Once all sheets are drawn. */
long pdf_tags_tie(struct pdf_tags *tags, int tag, size_t sheet, pdf_ref annotation);

/* Appends to a page's entries what ties it to the tree; nothing where it has no marks. */
void pdf_tags_put_page(const struct pdf_tags *tags, struct buffer *out, size_t sheet);

/* The tree, as objects of the file, and its entries of the catalog. pages: by sheet. Once all
 * links are tied. */
void pdf_tags_write(struct pdf_tags *tags, struct pdf_file *file, const pdf_ref *pages,
                    struct buffer *catalog);

#endif
