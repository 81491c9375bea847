/* A PDF file in the making: libharu keeps its objects, their numbers, the pages and the
 * table of places, and saves it; what libharu has no call for (tags, links by tag, page
 * labels, compact fonts) is written here as the text of an object.
 *
 * Streams are packed before libharu gets them. Objects that are many (tags, links) are not
 * kept at all: a run of them is made while the file is saved, one after the other.
 *
 * Every failure of the library ends the program (base/fatal.h). */
#ifndef PAINT_PDF_FILE_H
#define PAINT_PDF_FILE_H

#include "base/buffer.h"
#include "base/memory.h"
#include "base/sink.h"
#include "paint/pdf_pack.h"

#include <hpdf.h>
#include <stdint.h>

/* The number of an object. */
typedef uint32_t pdf_ref;

/* Appends the entries of an object of a run, or of a page; called for index 0, 1, ... */
typedef void pdf_writer(void *with, size_t index, struct buffer *out);

struct pdf_run {
    pdf_writer *write;
    void *with;
    size_t count;
};

enum { PDF_MOST_RUNS = 8 };

struct pdf_file {
    HPDF_Doc doc;
    struct sink sink;
    struct packer *packer; /* not owned */
    struct arena *arena;   /* for what must live until the file is saved */
    const char *doing;     /* for the message, should the library fail */
    struct buffer catalog; /* entries that libharu's own catalog has not */
    struct buffer text;    /* of the object that is written */
    HPDF_Dict fonts;       /* by the names that operators use */
    HPDF_Dict resources;   /* of every page: those fonts */
    HPDF_Page *pages;
    size_t page_count, pages_written;
    pdf_writer *write_page; /* what libharu's own pages have not; NULL: nothing */
    void *write_page_with;
    struct pdf_run runs[PDF_MOST_RUNS];
    size_t run_count, run_objects; /* objects of all runs */
    /* while the file is saved */
    HPDF_Dict walker;       /* the object of a run that is now written */
    size_t run, run_index;  /* which it is */
    size_t objects_written; /* of all runs */
    struct buffer ready;    /* what goes to the sink next */
};

void pdf_file_open(struct pdf_file *file, struct sink sink, struct packer *packer);

/* Makes sure that there is a page of this index, and all before it. */
HPDF_Page pdf_file_page(struct pdf_file *file, size_t index);
void pdf_page_size(HPDF_Page page, double width, double height); /* points */

/* Gives a page its packed operators. */
void pdf_fill_page(struct pdf_file *file, HPDF_Page page, const struct buffer *packed);

/* A numbered object, a dictionary, still empty: it can be referred to at once. */
HPDF_Dict pdf_object(struct pdf_file *file);

/* Gives an object its entries, as PDF text without the double angle brackets;
 * the text is copied and the buffer emptied for its next use. */
void pdf_object_set(struct pdf_file *file, HPDF_Dict object, struct buffer *entries);

/* Puts entries under a key of a dictionary, as a dictionary of their own. */
void pdf_add_dict(struct pdf_file *file, HPDF_Dict to, const char *key, const char *entries);

/* A numbered stream of the given bytes, which are packed. */
HPDF_Dict pdf_stream(struct pdf_file *file, const void *bytes, size_t length);

/* The same of bytes that are packed already; entries: more of its dictionary. */
HPDF_Dict pdf_stream_packed(struct pdf_file *file, const struct buffer *packed,
                            const char *entries);

/* So many objects in a row, made while the file is saved; gives the number of the first. All
 * other objects have to be there: these come last. */
pdf_ref pdf_run(struct pdf_file *file, size_t count, pdf_writer *write, void *with);

/* Saves the file into the sink. */
void pdf_file_save(struct pdf_file *file);

void pdf_file_free(struct pdf_file *file);

/* Appends "12 0 R". */
void pdf_refer(struct buffer *out, pdf_ref object);
pdf_ref pdf_number_of(const void *object); /* of libharu */

#endif
