/* TrueType files by their bytes: leaving out what a PDF does not read. */
#ifndef PAINT_PDF_SFNT_H
#define PAINT_PDF_SFNT_H

#include "base/buffer.h"

#include <stddef.h>

/* A font file, and which of its glyphs still have an outline in it. */
struct sfnt {
    const unsigned char *bytes;
    size_t length;
    const unsigned char *kept; /* for each glyph: not 0 if it is in use */
    size_t glyph_count;
    size_t full_metrics; /* how many glyphs have an advance of their own in hmtx */
};

/* Appends the font with the tables that an embedded font has to have (PDF 1.7,
 * section 9.9) and no others, and without the metrics of glyphs not in use. A
 * file that contradicts itself ends the program. */
void sfnt_trim(struct buffer *out, const struct sfnt *font);

#endif
