/* TrueType files by their bytes: finding a table, and putting tables together. */
#ifndef PAINT_PDF_SFNT_H
#define PAINT_PDF_SFNT_H

#include "base/buffer.h"

#include <stddef.h>
#include <stdint.h>

/* A font file, or a table in one; not owned. */
struct sfnt_bytes {
    const unsigned char *bytes;
    size_t length;
};

struct sfnt_table {
    const char *tag; /* four signs */
    struct sfnt_bytes content;
};

/* A number at a place in a table, high byte first. A place outside of the table ends
 * the program: the file contradicts itself. */
unsigned sfnt_get16(struct sfnt_bytes table, size_t at);
uint32_t sfnt_get32(struct sfnt_bytes table, size_t at);
void sfnt_put16(unsigned char *at, unsigned value);
void sfnt_put32(unsigned char *at, uint32_t value);

/* A piece of a table; one that is not within it ends the program. */
struct sfnt_bytes sfnt_slice(struct sfnt_bytes table, size_t from, size_t length);

/* The table of that tag; empty where the font has none. */
struct sfnt_bytes sfnt_find(struct sfnt_bytes font, const char *tag);

/* Appends a font file of these tables, which are in the order of their tags; the
 * checksums are made anew. Empty tables are left out. */
void sfnt_write(struct buffer *out, const struct sfnt_table *tables, size_t count);

#endif
