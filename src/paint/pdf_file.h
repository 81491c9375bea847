/* A PDF file in the making (PDF 1.7, section 7.5): numbered objects, each written as soon
 * as it is known, and last the table of where they stand. What is written is not held:
 * an object costs the four or eight bytes of its place.
 *
 * Nothing here has a failure of its own: the sink's ends the program. */
#ifndef PAINT_PDF_FILE_H
#define PAINT_PDF_FILE_H

#include "base/buffer.h"
#include "base/memory.h"
#include "base/sink.h"
#include "paint/pdf_pack.h"

#include <stdbool.h>
#include <stdint.h>

/* The number of an object; 0: none. */
typedef uint32_t pdf_ref;

struct pdf_file {
    struct sink sink;
    struct packer *packer; /* not owned */
    struct arena *arena;   /* for what must live until the file is closed */
    struct buffer text;    /* what goes to the sink next */
    size_t handed;         /* bytes that the sink has */
    size_t *places;        /* of the objects: bytes before each, 0 where not yet written */
    size_t place_count;
    struct buffer catalog; /* entries of the catalog: what the file says of itself */
    struct buffer info;
    pdf_ref resources; /* what the operators of every page refer to */
    pdf_ref *pages;    /* in order */
    size_t page_count;
    pdf_ref *branches; /* of the tree of pages */
    size_t branch_count;
};

void pdf_file_open(struct pdf_file *file, struct sink sink, struct packer *packer);

/* Numbers for objects that are written later, in any order; they can be referred to at
 * once. Gives the first of so many in a row. */
pdf_ref pdf_reserve(struct pdf_file *file, size_t count);

/* Begins an object, a dictionary; its entries are appended to what is returned. */
struct buffer *pdf_begin(struct pdf_file *file, pdf_ref object);
void pdf_end(struct pdf_file *file);

/* Hands on what has gathered; within a long object now and then. */
void pdf_spill(struct pdf_file *file);

/* A stream of bytes, which are packed. */
void pdf_stream(struct pdf_file *file, pdf_ref object, const void *bytes, size_t length);

/* One of bytes that are packed already, or with packed false stay as they are; entries:
 * more of its dictionary. */
void pdf_stream_as_is(struct pdf_file *file, pdf_ref object, const struct buffer *bytes,
                      bool packed, const char *entries);

/* The next page, whose number was reserved. Its entries follow, as behind pdf_begin(). */
struct buffer *pdf_begin_page(struct pdf_file *file, pdf_ref page, double width, double height,
                              pdf_ref content);

/* Writes what the file says of itself, and the table of places; then the file is closed. */
void pdf_file_close(struct pdf_file *file);

/* Appends "12 0 R". */
void pdf_refer(struct buffer *out, pdf_ref object);

#endif
