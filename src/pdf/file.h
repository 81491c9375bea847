/* A PDF file in the making: the thin layer over libharu, which numbers the objects, keeps
 * the pages in their tree, and writes it all with the table of places. What an object holds
 * is given as PDF text (pdf/text.h); libharu has no calls for most of it: tags, links
 * that belong to a tag, page labels, compact fonts, packing at a level of our own.
 *
 * Every failure of the library ends the program (base/fatal.h). */
#ifndef PDF_FILE_H
#define PDF_FILE_H

#include "base/buffer.h"

#include <stdbool.h>
#include <stdint.h>

/* Packs streams (PDF 1.7, section 7.4.4: FlateDecode), any number, one behind the other. */
struct packer;

struct packer *packer_new(void);
void packer_free(struct packer *packer);

/* Appends the bytes, packed. The same bytes give the same, always. */
void packer_add(struct packer *packer, struct buffer *out, const struct buffer *bytes);

struct pdf_file;

/* The number of an object. */
typedef uint32_t pdf_ref;

/* The packer outlives the file. */
struct pdf_file *pdf_file_new(struct packer *packer);
void pdf_file_free(struct pdf_file *file);

/* So many objects in a row, dictionaries, still empty: they can be referred to at once.
 * Gives the first. */
pdf_ref pdf_objects(struct pdf_file *file, size_t count);

/* Gives an object its entries, without the double angle brackets, behind those that it has
 * from libharu. Once for each object; the text is copied, and the buffer emptied. */
void pdf_object_set(struct pdf_file *file, pdf_ref object, struct buffer *entries);

/* A stream of the given bytes, which are packed; entries: more of its dictionary. */
pdf_ref pdf_stream(struct pdf_file *file, const struct buffer *bytes, const char *entries);

/* The same of bytes that are packed already. */
pdf_ref pdf_stream_packed(struct pdf_file *file, const struct buffer *packed,
                          const char *entries);

/* The next page: its size in points, its resources, and its operators, packed. */
pdf_ref pdf_page(struct pdf_file *file, double width, double height, pdf_ref resources,
                 const struct buffer *packed);

/* Saves the file into the sink: with its title, its language, and how to show and print it.
 * catalog: more entries of the dictionary at its root. A date is given only if the environment
 * has SOURCE_DATE_EPOCH (base/file.h). */
void pdf_file_save(struct pdf_file *file, const char *title, bool flip_short_edge,
                   const struct buffer *catalog, const struct sink *sink);

#endif
