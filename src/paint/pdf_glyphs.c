/* The layout is that of the "glyf" table in the OpenType specification. */
#include "paint/pdf_glyphs.h"

#include <stdbool.h>

enum {
    LONGEST = 512, /* bytes: sixty parts; whole outlines are longer, and not read */
    HEADER = 10,   /* bytes: count of outlines, then a box; the count is -1 for parts */
    WIDE_PLACE = 0x0001,
    ONE_SCALE = 0x0008,
    MORE_PARTS = 0x0020,
    TWO_SCALES = 0x0040,
    MATRIX = 0x0080
};

static unsigned get16(const unsigned char *at)
{
    return (unsigned)at[0] << 8 | at[1];
}

static size_t part_length(unsigned flags)
{
    size_t length = flags & WIDE_PLACE ? 8 : 6;
    if (flags & ONE_SCALE)
        return length + 2;
    if (flags & TWO_SCALES)
        return length + 4;
    return flags & MATRIX ? length + 8 : length;
}

/* Reads what of a glyph can name parts; 0 for one without an outline, a space. */
static size_t read_glyph(const struct pdf_file *file, HPDF_TTFontDefAttr font, unsigned glyph,
                         unsigned char bytes[LONGEST])
{
    HPDF_UINT32 unit = font->header.index_to_loc_format == 0 ? 2 : 1;
    HPDF_UINT32 from = font->glyph_tbl.offsets[glyph] * unit;
    HPDF_UINT32 to = font->glyph_tbl.offsets[glyph + 1] * unit;
    HPDF_UINT length = to > from ? to - from : 0;
    if (length > LONGEST)
        length = LONGEST;
    if (length < HEADER)
        return 0;
    HPDF_Stream_Seek(font->stream, (HPDF_INT)(font->glyph_tbl.base_offset + from),
                     HPDF_SEEK_SET);
    HPDF_Stream_Read(font->stream, bytes, &length);
    pdf_file_check(file);
    return length;
}

/* Marks the parts of one glyph; whether any of them was not marked before. */
static bool keep_parts(HPDF_TTFontDefAttr font, const unsigned char *bytes, size_t length)
{
    bool news = false;
    if (length < HEADER || get16(bytes) != 0xFFFF)
        return false;
    for (size_t at = HEADER; at + 4 <= length;) {
        unsigned flags = get16(bytes + at), part = get16(bytes + at + 2);
        if (part < font->num_glyphs && !font->glyph_tbl.flgs[part]) {
            font->glyph_tbl.flgs[part] = 1;
            news = true;
        }
        if (!(flags & MORE_PARTS))
            break;
        at += part_length(flags);
    }
    return news;
}

void pdf_glyphs_keep_parts(const struct pdf_file *file, HPDF_FontDef def)
{
    HPDF_TTFontDefAttr font = def->attr;
    unsigned char bytes[LONGEST];
    for (bool news = true; news;) {
        news = false;
        for (unsigned i = 0; i < font->num_glyphs; i++)
            if (font->glyph_tbl.flgs[i])
                news |= keep_parts(font, bytes, read_glyph(file, font, i, bytes));
    }
}
