/* A PDF file in the making: libharu keeps its objects, their numbers, the pages
 * and compression; what libharu has no call for (tags, links by tag, page labels,
 * compact fonts) is written here as the text of an object.
 *
 * Every failure of the library ends the program (base/fatal.h). */
#ifndef PAINT_PDF_FILE_H
#define PAINT_PDF_FILE_H

#include "base/buffer.h"
#include "base/memory.h"

#include <hpdf.h>

struct pdf_file {
    HPDF_Doc doc;
    struct arena *arena; /* for what must live until the file is saved */
    const char *doing;   /* for the message, should the library fail */
};

void pdf_file_open(struct pdf_file *file, size_t page_count);

/* Failures of low calls are only noted by the library: look once a page. */
void pdf_file_check(const struct pdf_file *file);

/* A page of the given size in points. Pages come out in the order of the calls. */
HPDF_Page pdf_file_add_page(struct pdf_file *file, double width, double height);

/* Gives a page its operators, and empties the buffer for the next page. */
void pdf_file_fill_page(struct pdf_file *file, HPDF_Page page, struct buffer *content);

/* Appends the finished file to out and closes it. */
void pdf_file_save(struct pdf_file *file, struct buffer *out);

/* A numbered object, a dictionary, still empty: it can be referred to at once. */
HPDF_Dict pdf_object(struct pdf_file *file);

/* Gives an object its entries, as PDF text without the double angle brackets;
 * the text is copied and the buffer emptied for its next use. */
void pdf_object_set(struct pdf_file *file, HPDF_Dict object, struct buffer *entries);

/* Puts entries under a key of a dictionary, as a dictionary of their own. */
void pdf_add_dict(struct pdf_file *file, HPDF_Dict to, const char *key, const char *entries);

/* A numbered, compressed stream of the given bytes. */
HPDF_Dict pdf_stream(struct pdf_file *file, const void *bytes, size_t length);

/* Appends "12 0 R" for a numbered object. */
void pdf_refer(struct buffer *out, const void *object);

#endif
