/* The glyphs of a TrueType font that a PDF uses, as a font of their own. They are
 * numbered anew, so that the tables are as long as the glyphs are many. */
#ifndef PDF_SUBSET_H
#define PDF_SUBSET_H

#include "base/buffer.h"
#include "base/memory.h"

/* A font file, or a table in one; not owned. */
struct font_bytes {
    const unsigned char *bytes;
    size_t length;
};

struct subset;

/* The font's bytes outlive the subset. Glyph 0, for what is missing, is in it. */
struct subset *subset_new(struct arena *arena, struct font_bytes font);

/* Takes a glyph in; gives its number in the subset. */
unsigned subset_take(struct subset *subset, unsigned glyph);

/* Takes in what the glyphs are put together from, and writes the font file into an empty
 * buffer: with the tables that an embedded font has to have (PDF 1.7, section 9.9) and no
 * others. Once for each subset. */
void subset_write(struct subset *subset, struct buffer *out);

#endif
