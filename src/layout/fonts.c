/* The faces are four files, pinned by their lengths and sums. The advance of a code point is
 * looked up in its face once, and kept in a table by code point. */
#include "layout/fonts.h"

#include "base/fatal.h"
#include "base/file.h"
#include "base/utf8.h"

#include <errno.h>
#include <ft2build.h>
#include <math.h>
#include <string.h>
#include <zlib.h>
#include FT_ADVANCES_H
#include FT_FREETYPE_H
#include FT_TRUETYPE_TABLES_H

/* The PDF library draws no code point above this one. */
enum { LAST_POINT = 0xFFFF, POINT_COUNT = LAST_POINT + 1 };

/* What a slot of the table of advances holds; an advance is stored behind these. */
enum { UNKNOWN = 0, MISSING = 1, ADVANCE_ZERO = 2 };

struct one_face {
    const char *name;
    const unsigned char *bytes; /* the file, mapped */
    size_t length;
    FT_Face face;
    uint16_t *advances; /* by code point, filled as they are asked for; 1/1000 em */
};

struct fonts {
    FT_Library library;
    struct one_face faces[FACE_COUNT];
    double ascent, descent, cap_height;
};

/* By length and CRC-32 (ISO 3309): enough against another version and against damage. */
static const struct {
    const char *file;
    size_t length;
    unsigned long crc;
} pinned[FACE_COUNT] = {
    [FACE_REGULAR] = {"DejaVuSansCondensed.ttf", 682828, 0x173b2dd5},
    [FACE_BOLD] = {"DejaVuSansCondensed-Bold.ttf", 667844, 0x3887d4fa},
    [FACE_OBLIQUE] = {"DejaVuSansCondensed-Oblique.ttf", 601448, 0x7c1978ce},
    [FACE_MONO] = {"DejaVuSansMono.ttf", 343140, 0xaf544837},
};

/* It brings the monospaced face with it, from fonts-dejavu-core. */
static const char package[] = "fonts-dejavu-extra";

/* Shows a face's file; false after a fault. */
static bool read_face(struct arena *arena, struct diags *diags, const char *folder,
                      enum face face, struct one_face *one)
{
    one->name = arena_format(arena, "%s/%s", folder, pinned[face].file);
    struct place at = {.file = one->name};
    if (!file_map(one->name, &one->bytes, &one->length))
        return fault(
            diags, at,
            "the font cannot be read (%s); install the Debian package %s, or give the right "
            "folder with --fonts",
            strerror(errno), package);
    if (one->length == pinned[face].length &&
        crc32_z(0, one->bytes, one->length) == pinned[face].crc)
        return true;
    return fault(
        diags, at,
        "this is not the font file that was tested; take the one of the Debian package %s, "
        "version 2.37",
        package);
}

static void unmap(struct fonts *fonts)
{
    for (int i = 0; i < FACE_COUNT; i++)
        file_unmap(fonts->faces[i].bytes, fonts->faces[i].length);
}

struct fonts *fonts_load(struct arena *arena, struct diags *diags, const char *folder)
{
    struct fonts *fonts = arena_get(arena, sizeof *fonts);
    bool good = true;
    for (int i = 0; i < FACE_COUNT; i++)
        good &= read_face(arena, diags, folder, (enum face)i, &fonts->faces[i]);
    if (!good) {
        unmap(fonts);
        return NULL;
    }
    if (FT_Init_FreeType(&fonts->library) != 0)
        fatal("FreeType does not start");
    for (int i = 0; i < FACE_COUNT; i++) {
        struct one_face *one = &fonts->faces[i];
        one->advances = arena_get(arena, POINT_COUNT * sizeof *one->advances);
        if (FT_New_Memory_Face(fonts->library, one->bytes, (FT_Long)one->length, 0,
                               &one->face) != 0)
            fatal("FreeType does not open %s", one->name);
        if (!FT_Get_Postscript_Name(one->face)) /* opened without memory for the name */
            fatal_no_memory();
    }
    FT_Face regular = fonts->faces[FACE_REGULAR].face;
    double em = regular->units_per_EM;
    if (FT_Load_Char(regular, 'H', FT_LOAD_NO_SCALE) != 0)
        fatal("the font %s has no letter H", fonts->faces[FACE_REGULAR].name);
    fonts->ascent = regular->ascender / em;
    fonts->descent = -regular->descender / em;
    fonts->cap_height = (double)regular->glyph->metrics.horiBearingY / em;
    return fonts;
}

void fonts_free(struct fonts *fonts)
{
    if (!fonts)
        return;
    for (int i = 0; i < FACE_COUNT; i++)
        FT_Done_Face(fonts->faces[i].face);
    FT_Done_FreeType(fonts->library);
    unmap(fonts);
}

/* The slot of a code point; looked up in the font the first time only. */
static uint16_t slot_of(const struct one_face *one, uint32_t point)
{
    if (point > LAST_POINT)
        return MISSING;
    uint16_t *slot = &one->advances[point];
    if (*slot == UNKNOWN) {
        FT_UInt glyph = FT_Get_Char_Index(one->face, point);
        FT_Fixed advance;
        *slot = MISSING;
        if (glyph != 0 && FT_Get_Advance(one->face, glyph, FT_LOAD_NO_SCALE, &advance) == 0)
            *slot = (uint16_t)(ADVANCE_ZERO + advance * 1000 / one->face->units_per_EM);
    }
    return *slot;
}

bool fonts_has(const struct fonts *fonts, enum face face, uint32_t point)
{
    return slot_of(&fonts->faces[face], point) != MISSING;
}

int fonts_advance(const struct fonts *fonts, enum face face, uint32_t point)
{
    uint16_t slot = slot_of(&fonts->faces[face], point);
    return slot >= ADVANCE_ZERO ? slot - ADVANCE_ZERO : 0;
}

double fonts_width_of(const struct fonts *fonts, enum face face, double size, const char *text,
                      size_t length)
{
    const char *end = text + length;
    long sum = 0;
    while (text < end) {
        uint32_t point = (unsigned char)*text;
        if (point < 0x80) /* most are ASCII */
            text++;
        else
            point = utf8_next(&text);
        sum += fonts_advance(fonts, face, point);
    }
    return (double)sum * size / 1000;
}

double fonts_width(const struct fonts *fonts, enum face face, double size, const char *text)
{
    return fonts_width_of(fonts, face, size, text, strlen(text));
}

unsigned fonts_glyph(const struct fonts *fonts, enum face face, uint32_t point)
{
    return FT_Get_Char_Index(fonts->faces[face].face, point);
}

const unsigned char *fonts_bytes(const struct fonts *fonts, enum face face, size_t *length)
{
    *length = fonts->faces[face].length;
    return fonts->faces[face].bytes;
}

static int thousandths_down(FT_Face face, FT_Pos length)
{
    return (int)floor(1000.0 * (double)length / face->units_per_EM);
}

struct face_facts fonts_facts(const struct fonts *fonts, enum face face)
{
    FT_Face at = fonts->faces[face].face;
    const TT_Postscript *post = FT_Get_Sfnt_Table(at, FT_SFNT_POST);
    return (struct face_facts){.name = FT_Get_Postscript_Name(at),
                               .left = thousandths_down(at, at->bbox.xMin),
                               .bottom = thousandths_down(at, at->bbox.yMin),
                               .right = -thousandths_down(at, -at->bbox.xMax),
                               .top = -thousandths_down(at, -at->bbox.yMax),
                               .ascent = thousandths_down(at, at->ascender),
                               .descent = thousandths_down(at, at->descender),
                               .cap_height = (int)(1000 * fonts->cap_height),
                               .slant = post ? (int)(post->italicAngle / 65536) : 0};
}

double fonts_ascent(const struct fonts *fonts)
{
    return fonts->ascent;
}

double fonts_descent(const struct fonts *fonts)
{
    return fonts->descent;
}

double fonts_cap_height(const struct fonts *fonts)
{
    return fonts->cap_height;
}
