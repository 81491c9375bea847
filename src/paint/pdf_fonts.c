/* The dictionaries of a font, and the subset of its file (pdf_subset.h). libharu could
 * make them too: it would read every file for every PDF, sign by sign through the
 * C library's streams, write a ToUnicode map that readers complain of, and tables for
 * all 65536 codes.
 *
 * Codes are code points, not glyph numbers: two signs that share a glyph (a space
 * and a no-break space) are still told apart when the text is copied. */
#include "paint/pdf_fonts.h"

#include "paint/pdf_subset.h"

const char *const pdf_face_names[FACE_COUNT] = {"R", "B", "O", "M"};

/* A face on its way into the file. */
struct face_use {
    const struct fonts *fonts;
    enum face face;
    struct face_facts facts;
    const char *name;      /* of the subset: six letters, plus sign, name */
    const uint32_t *signs; /* in order */
    size_t count;          /* at least one: the blank */
};

/* Six letters that tell subsets of one font apart (PDF 1.7, section 9.6.4): a number
 * made of the signs in it. */
static const char *name_subset(struct arena *arena, const struct face_use *use)
{
    uint32_t number = 0;
    char tag[7] = {0};
    for (size_t i = 0; i < use->count; i++)
        number = number * 31 + use->signs[i];
    for (int i = 0; i < 6; i++, number /= 26)
        tag[i] = (char)('A' + number % 26);
    return arena_format(arena, "%s+%s", tag, use->facts.name);
}

static struct face_use use_face(struct pdf_file *file, const struct fonts *fonts,
                                enum face face, const struct pdf_signs *signs)
{
    struct face_use use = {.fonts = fonts, .face = face, .facts = fonts_facts(fonts, face)};
    use.signs = pdf_signs_list(file->arena, signs, face, &use.count);
    use.name = name_subset(file->arena, &use);
    return use;
}

/* The advances in thousandths of the size, by code: 32[318 401]176[500]... */
static void put_widths(struct buffer *out, const struct face_use *use)
{
    buffer_text(out, "/W[");
    for (size_t i = 0; i < use->count; i++) {
        bool follows = i > 0 && use->signs[i] == use->signs[i - 1] + 1;
        if (!follows)
            buffer_print(out, "%s%u[", i > 0 ? "]" : "", use->signs[i]);
        buffer_print(out, "%d ", fonts_advance(use->fonts, use->face, use->signs[i]));
    }
    buffer_text(out, "]]");
}

/* From codes to glyphs of the subset, which takes them in. */
static HPDF_Dict glyph_map(struct pdf_file *file, const struct face_use *use,
                           struct subset *subset)
{
    size_t length = 2 * ((size_t)use->signs[use->count - 1] + 1);
    unsigned char *bytes = arena_get(file->arena, length);
    for (size_t i = 0; i < use->count; i++)
        sfnt_put16(bytes + 2 * (size_t)use->signs[i],
                   subset_take(subset, fonts_glyph(use->fonts, use->face, use->signs[i])));
    return pdf_stream(file, bytes, length);
}

/* The ranges of the map from codes to Unicode, one for each row of 256 in use. */
static void put_ranges(struct buffer *out, const struct face_use *use)
{
    enum { AT_MOST = 100 }; /* ranges in one list, says the CMap specification */
    int count = 0;
    struct buffer ranges = {0};
    for (size_t i = 0; i < use->count; i++) {
        uint32_t row = use->signs[i] >> 8;
        if (i == 0 || row != use->signs[i - 1] >> 8) {
            buffer_print(&ranges, "<%02X00><%02XFF><%02X00>\n", row, row, row);
            count++;
        }
        if (count == AT_MOST || (i + 1 == use->count && count > 0)) {
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

static HPDF_Dict font_program(struct pdf_file *file, struct subset *subset)
{
    struct buffer bytes = {0}, packed = {0};
    char entries[32];
    subset_write(subset, &bytes);
    packer_add(file->packer, &packed, bytes.bytes, bytes.length);
    snprintf(entries, sizeof entries, "/Length1 %zu", bytes.length);
    HPDF_Dict stream = pdf_stream_packed(file, &packed, entries);
    buffer_free(&packed);
    buffer_free(&bytes);
    return stream;
}

static HPDF_Dict descriptor(struct pdf_file *file, const struct face_use *use,
                            struct subset *subset, struct buffer *text)
{
    enum { NOT_SYMBOLIC = 32, SLANTED = 64 }; /* PDF 1.7, table 123 */
    const struct face_facts *facts = &use->facts;
    HPDF_Dict object = pdf_object(file), program = font_program(file, subset);
    buffer_print(text, "/Type/FontDescriptor/FontName/%s/Flags %d", use->name,
                 NOT_SYMBOLIC | (facts->slant ? SLANTED : 0));
    buffer_print(text, "/FontBBox[%d %d %d %d]", facts->left, facts->bottom, facts->right,
                 facts->top);
    buffer_print(text, "/ItalicAngle %d/Ascent %d/Descent %d/CapHeight %d/StemV 0/FontFile2 ",
                 facts->slant, facts->ascent, facts->descent, facts->cap_height);
    pdf_refer(text, pdf_number_of(program));
    pdf_object_set(file, object, text);
    return object;
}

static struct subset *new_subset(struct arena *arena, const struct face_use *use)
{
    struct sfnt_bytes font;
    font.bytes = fonts_bytes(use->fonts, use->face, &font.length);
    return subset_new(arena, font);
}

static HPDF_Dict cid_font(struct pdf_file *file, const struct face_use *use,
                          struct buffer *text)
{
    struct subset *subset = new_subset(file->arena, use);
    HPDF_Dict object = pdf_object(file), map = glyph_map(file, use, subset);
    HPDF_Dict about = descriptor(file, use, subset, text);
    buffer_print(text,
                 "/Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo"
                 "<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor ",
                 use->name);
    pdf_refer(text, pdf_number_of(about));
    buffer_text(text, "/CIDToGIDMap ");
    pdf_refer(text, pdf_number_of(map));
    put_widths(text, use);
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
    pdf_refer(&text, pdf_number_of(descendant));
    buffer_text(&text, "]/ToUnicode ");
    pdf_refer(&text, pdf_number_of(unicode_map(file, use)));
    pdf_object_set(file, object, &text);
    buffer_free(&text);
    return object;
}

void pdf_fonts_embed(struct pdf_file *file, const struct fonts *fonts,
                     const struct pdf_signs *signs)
{
    struct buffer text = {0};
    file->doing = "embedding a font";
    for (int face = 0; face < FACE_COUNT; face++) {
        if (!signs->used[face])
            continue;
        struct face_use use = use_face(file, fonts, (enum face)face, signs);
        buffer_print(&text, "/%s ", pdf_face_names[face]);
        pdf_refer(&text, pdf_number_of(font(file, &use)));
    }
    pdf_object_set(file, file->fonts, &text);
    buffer_free(&text);
}
