/* The one family, its four faces, and how wide text is in them. Measures as
 * libharu does (each advance floored to 1/1000 em), so that paper and plan agree.
 * fonts.c is the only file that includes FreeType. */
#ifndef LAYOUT_FONTS_H
#define LAYOUT_FONTS_H

#include "base/diag.h"
#include "layout/print.h"

#include <stdint.h>

struct fonts;

/* Reads DejaVu Sans Condensed (regular, bold, oblique) and DejaVu Sans Mono from a folder. A
 * missing or damaged file is a fault that names it and the Debian package; then NULL. Only the
 * very files that the project has tested are taken (length and CRC-32): with others, lines and
 * pages would break elsewhere. */
struct fonts *fonts_load(struct arena *arena, struct diags *diags, const char *folder);
void fonts_free(struct fonts *fonts); /* NULL is allowed */

/* What a PDF says of a face; lengths in thousandths of the em. */
struct face_facts {
    const char *name;                /* as PostScript knows it */
    int left, bottom, right, top;    /* a box that holds every glyph */
    int ascent, descent, cap_height; /* of the baseline; a depth is below 0 */
    int slant;                       /* degrees, to the left above 0 */
};

struct face_facts fonts_facts(const struct fonts *fonts, enum face face);

/* The font file, owned by the fonts. */
const unsigned char *fonts_bytes(const struct fonts *fonts, enum face face, size_t *length);

/* The number of a sign's glyph in the file, 0 where the face lacks it; the advance in
 * thousandths of the em, floored. */
unsigned fonts_glyph(const struct fonts *fonts, enum face face, uint32_t point);
int fonts_advance(const struct fonts *fonts, enum face face, uint32_t point);

/* Width in the unit of size. A sign that the face lacks counts as nothing:
 * compose_check() has found it before. */
double fonts_width(const struct fonts *fonts, enum face face, double size, const char *text);
double fonts_width_of(const struct fonts *fonts, enum face face, double size, const char *text,
                      size_t length);
bool fonts_has(const struct fonts *fonts, enum face face, uint32_t point);

/* Heights above and depth below the baseline, as shares of the size. */
double fonts_ascent(const struct fonts *fonts);
double fonts_descent(const struct fonts *fonts);
double fonts_cap_height(const struct fonts *fonts);

#endif
