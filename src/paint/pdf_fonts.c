/* libharu reads the font file, names the subset and writes its outlines. The
 * dictionaries around it are made here and not by HPDF_GetFont(): that one writes
 * a ToUnicode map that readers complain of, and tables for all 65536 codes.
 *
 * Codes are code points, not glyph numbers: two signs that share a glyph (a space
 * and a no-break space) are still told apart when the text is copied. */
#include "paint/pdf_fonts.h"

#include "paint/pdf_glyphs.h"
#include "paint/pdf_sfnt.h"

#include <string.h>

const char *const pdf_face_names[FACE_COUNT] = {"R", "B", "O"};

/* A face on its way into the file. */
struct face_use {
    HPDF_FontDef def;
    const char *name; /* of the subset: six letters, plus sign, name */
    const struct pdf_signs *signs;
    enum face face;
    uint32_t last; /* the highest sign in use */
};

static bool uses(const struct face_use *use, uint32_t point)
{
    return pdf_signs_have(use->signs, use->face, point);
}

static struct face_use load_face(struct pdf_file *file, const char *font_file,
                                 const struct pdf_signs *signs, enum face face)
{
    const char *name = HPDF_LoadTTFontFromFile(file->doc, font_file, HPDF_TRUE);
    pdf_file_check(file);
    struct face_use use = {.signs = signs, .face = face, .last = 0xFFFF};
    use.def = HPDF_GetFontDef(file->doc, name);
    pdf_file_check(file);
    /* libharu adds the style behind a comma, which is not part of the font's name. */
    const char *full = ((HPDF_TTFontDefAttr)use.def->attr)->base_font;
    use.name = arena_slice(file->arena, full, strcspn(full, ","));
    while (use.last > ' ' && !uses(&use, use.last))
        use.last--;
    return use;
}

/* The advances in thousandths of the size, by code: 32[318 401] 176[500] ...
 * Asking for one also tells libharu to keep that glyph. */
static void put_widths(struct buffer *out, const struct face_use *use)
{
    buffer_text(out, "/W[");
    for (uint32_t point = ' '; point <= use->last; point++) {
        if (!uses(use, point))
            continue;
        buffer_print(out, "%u[", point);
        for (; uses(use, point); point++)
            buffer_print(out, "%d ", HPDF_TTFontDef_GetCharWidth(use->def, (HPDF_UINT16)point));
        buffer_text(out, "]");
    }
    buffer_text(out, "]");
}

static HPDF_Dict glyph_map(struct pdf_file *file, const struct face_use *use)
{
    struct buffer bytes = {0};
    for (uint32_t point = 0; point <= use->last; point++) {
        HPDF_UINT16 glyph =
            uses(use, point) ? HPDF_TTFontDef_GetGlyphid(use->def, (HPDF_UINT16)point) : 0;
        unsigned char pair[2] = {(unsigned char)(glyph >> 8), (unsigned char)glyph};
        buffer_add(&bytes, pair, sizeof pair);
    }
    HPDF_Dict stream = pdf_stream(file, bytes.bytes, bytes.length);
    buffer_free(&bytes);
    return stream;
}

static bool uses_row(const struct face_use *use, uint32_t row)
{
    for (uint32_t point = row << 8; point < (row + 1) << 8; point++)
        if (uses(use, point))
            return true;
    return false;
}

/* The ranges of the map from codes to Unicode, one for each row of 256 in use. */
static void put_ranges(struct buffer *out, const struct face_use *use)
{
    enum { AT_MOST = 100 }; /* ranges in one list, says the CMap specification */
    int count = 0;
    struct buffer ranges = {0};
    for (uint32_t row = 0; row <= use->last >> 8; row++) {
        if (uses_row(use, row)) {
            buffer_print(&ranges, "<%02X00><%02XFF><%02X00>\n", row, row, row);
            count++;
        }
        if (count == AT_MOST || (row == use->last >> 8 && count > 0)) {
            buffer_print(out, "%d beginbfrange\n%sendbfrange\n", count, ranges.bytes);
            ranges.length = 0;
            count = 0;
        }
    }
    buffer_free(&ranges);
}

static HPDF_Dict unicode_map(struct pdf_file *file, const struct face_use *use)
{
    struct buffer text = {0};
    buffer_text(&text, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                       "/CIDSystemInfo <</Registry (Adobe)/Ordering (UCS)/Supplement 0>> def\n"
                       "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                       "1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n");
    put_ranges(&text, use);
    buffer_text(&text, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    HPDF_Dict stream = pdf_stream(file, text.bytes, text.length);
    buffer_free(&text);
    return stream;
}

/* The font file with the glyphs that libharu kept: after the widths were asked for. */
static void read_subset(struct pdf_file *file, const struct face_use *use, struct buffer *out)
{
    HPDF_Stream stream = HPDF_MemStream_New(file->doc->mmgr, 65536);
    pdf_glyphs_keep_parts(file, use->def);
    HPDF_TTFontDef_SaveFontData(use->def, stream);
    pdf_file_check(file);
    for (HPDF_UINT i = 0; i < HPDF_MemStream_GetBufCount(stream); i++) {
        HPDF_UINT length = 0;
        const HPDF_BYTE *bytes = HPDF_MemStream_GetBufPtr(stream, i, &length);
        buffer_add(out, bytes, length);
    }
    HPDF_Stream_Free(stream);
}

static HPDF_Dict font_program(struct pdf_file *file, const struct face_use *use)
{
    const HPDF_TTFontDefAttr attr = use->def->attr;
    struct buffer subset = {0}, trimmed = {0};
    read_subset(file, use, &subset);
    sfnt_trim(&trimmed,
              &(struct sfnt){(const unsigned char *)subset.bytes, subset.length,
                             attr->glyph_tbl.flgs, attr->num_glyphs, attr->num_h_metric});
    HPDF_Dict stream = pdf_stream(file, trimmed.bytes, trimmed.length);
    HPDF_Dict_AddNumber(stream, "Length1", (HPDF_INT32)trimmed.length);
    buffer_free(&subset);
    buffer_free(&trimmed);
    return stream;
}

static HPDF_Dict descriptor(struct pdf_file *file, const struct face_use *use,
                            struct buffer *text)
{
    const HPDF_FontDef def = use->def;
    HPDF_Dict object = pdf_object(file), program = font_program(file, use);
    buffer_print(text, "/Type/FontDescriptor/FontName/%s/Flags %u/FontBBox[", use->name,
                 def->flags);
    const float box[] = {def->font_bbox.left, def->font_bbox.bottom, def->font_bbox.right,
                         def->font_bbox.top};
    for (size_t i = 0; i < sizeof box / sizeof *box; i++)
        buffer_print(text, "%d ", (int)box[i]);
    buffer_print(text, "]/ItalicAngle %d/Ascent %d/Descent %d/CapHeight %d/StemV %d/FontFile2 ",
                 def->italic_angle, def->ascent, def->descent, def->cap_height, def->stemv);
    pdf_refer(text, program);
    pdf_object_set(file, object, text);
    return object;
}

static HPDF_Dict cid_font(struct pdf_file *file, const struct face_use *use,
                          struct buffer *text)
{
    HPDF_Dict object = pdf_object(file);
    struct buffer widths = {0};
    put_widths(&widths, use);
    HPDF_Dict about = descriptor(file, use, text);
    buffer_print(text,
                 "/Type/Font/Subtype/CIDFontType2/BaseFont/%s/DW %d/CIDSystemInfo"
                 "<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor ",
                 use->name, use->def->missing_width);
    pdf_refer(text, about);
    buffer_text(text, "/CIDToGIDMap ");
    pdf_refer(text, glyph_map(file, use));
    buffer_add(text, widths.bytes, widths.length);
    buffer_free(&widths);
    pdf_object_set(file, object, text);
    return object;
}

static HPDF_Dict font(struct pdf_file *file, const struct face_use *use)
{
    struct buffer text = {0};
    HPDF_Dict object = pdf_object(file), descendant = cid_font(file, use, &text);
    buffer_print(&text,
                 "/Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[",
                 use->name);
    pdf_refer(&text, descendant);
    buffer_text(&text, "]/ToUnicode ");
    pdf_refer(&text, unicode_map(file, use));
    pdf_object_set(file, object, &text);
    buffer_free(&text);
    return object;
}

HPDF_Dict pdf_fonts_embed(struct pdf_file *file, const struct fonts *fonts,
                          const struct pdf_signs *signs)
{
    struct buffer text = {0};
    HPDF_Dict resources = pdf_object(file);
    file->doing = "embedding a font";
    for (int face = 0; face < FACE_COUNT; face++) {
        if (!signs->used[face])
            continue;
        struct face_use use =
            load_face(file, fonts_file(fonts, (enum face)face), signs, (enum face)face);
        buffer_print(&text, "/%s ", pdf_face_names[face]);
        pdf_refer(&text, font(file, &use));
    }
    if (text.length)
        pdf_object_set(file, resources, &text);
    buffer_free(&text);
    return resources;
}

void pdf_fonts_share(struct pdf_file *file, HPDF_Page page, HPDF_Dict resources)
{
    HPDF_Dict own = HPDF_Page_GetInheritableItem(page, "Resources", HPDF_OCLASS_DICT);
    HPDF_Dict_Add(own, "Font", resources);
    pdf_file_check(file);
}
