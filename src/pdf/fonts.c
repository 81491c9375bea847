#include "pdf/fonts.h"

#include "base/memory.h"
#include "base/utf8.h"
#include "pdf/subset.h"

/* The dictionaries of a font, and the subset of its file (pdf_subset.h). libharu could
 * make them too: it would read every file for every PDF, sign by sign through the
 * C library's streams, write a ToUnicode map that readers complain of, and tables for
 * all 65536 codes.
 *
 * Codes are code points, not glyph numbers: two signs that share a glyph (a space
 * and a no-break space) are still told apart when the text is copied. */

const char *const pdf_face_names[FACE_COUNT] = {"R", "B", "O", "M"};

/* ---- which signs are used ---- */

static void add_sign(struct pdf_signs *signs, enum face face, uint32_t point)
{
    signs->bits[face][point / 8] |= (uint8_t)(1u << point % 8);
}

static void add_text(struct pdf_signs *signs, enum face face, const char *text)
{
    signs->used[face] = true;
    add_sign(signs, face, ' '); /* drawn where a blank follows a text */
    for (uint32_t point; (point = utf8_next(&text)) != 0;)
        if (point < 0xFFFF)
            add_sign(signs, face, point);
}

void pdf_signs_add(struct pdf_signs *signs, const struct sheet *sheet)
{
    for (size_t i = 0; i < sheet->piece_count; i++)
        if (sheet->pieces[i].kind == PIECE_TEXT)
            add_text(signs, sheet->pieces[i].face, sheet->pieces[i].text);
}

/* The signs of a face in order, owned by the arena; *count of them. */
static const uint32_t *list_signs(struct arena *arena, const struct pdf_signs *signs,
                                  enum face face, size_t *count)
{
    const uint8_t *bits = signs->bits[face];
    uint32_t *list = NULL;
    *count = 0;
    for (uint32_t byte = 0; byte < sizeof signs->bits[face]; byte++)
        for (uint32_t rest = bits[byte]; rest; rest &= rest - 1)
            *ARENA_PUSH(arena, list, *count) = byte * 8 + (uint32_t)__builtin_ctz(rest);
    return list;
}

/* ---- a face as dictionaries and streams ---- */

/* A face on its way into the file. */
struct face_use {
    struct pdf_file *file;
    struct arena *arena;
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

/* From codes to glyphs of the subset, which takes them in: two bytes a code. */
static pdf_ref glyph_map(const struct face_use *use, struct subset *subset)
{
    size_t length = 2 * ((size_t)use->signs[use->count - 1] + 1);
    unsigned char *bytes = arena_get(use->arena, length);
    for (size_t i = 0; i < use->count; i++) {
        unsigned glyph = subset_take(subset, fonts_glyph(use->fonts, use->face, use->signs[i]));
        bytes[2 * use->signs[i]] = (unsigned char)(glyph >> 8);
        bytes[2 * use->signs[i] + 1] = (unsigned char)glyph;
    }
    return pdf_stream(use->file, &(struct buffer){.bytes = (char *)bytes, .length = length},
                      "");
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

static pdf_ref unicode_map(const struct face_use *use)
{
    struct buffer text = {0};
    buffer_text(&text, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                       "/CIDSystemInfo <</Registry (Adobe)/Ordering (UCS)/Supplement 0>> def\n"
                       "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                       "1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n");
    put_ranges(&text, use);
    buffer_text(&text, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    pdf_ref stream = pdf_stream(use->file, &text, "");
    buffer_free(&text);
    return stream;
}

static pdf_ref font_program(const struct face_use *use, struct subset *subset)
{
    struct buffer bytes = {0};
    subset_write(subset, &bytes);
    pdf_ref stream =
        pdf_stream(use->file, &bytes, arena_format(use->arena, "/Length1 %zu", bytes.length));
    buffer_free(&bytes);
    return stream;
}

static pdf_ref descriptor(const struct face_use *use, struct subset *subset,
                          struct buffer *text)
{
    enum { NOT_SYMBOLIC = 32, SLANTED = 64 }; /* PDF 1.7, table 123 */
    const struct face_facts *facts = &use->facts;
    pdf_ref object = pdf_objects(use->file, 1), program = font_program(use, subset);
    buffer_print(text, "/Type/FontDescriptor/FontName/%s/Flags %d", use->name,
                 NOT_SYMBOLIC | (facts->slant ? SLANTED : 0));
    buffer_print(text, "/FontBBox[%d %d %d %d]", facts->left, facts->bottom, facts->right,
                 facts->top);
    buffer_print(text, "/ItalicAngle %d/Ascent %d/Descent %d/CapHeight %d/StemV 0/FontFile2 ",
                 facts->slant, facts->ascent, facts->descent, facts->cap_height);
    pdf_refer(text, program);
    pdf_object_set(use->file, object, text);
    return object;
}

static pdf_ref cid_font(const struct face_use *use, struct buffer *text)
{
    struct font_bytes font;
    font.bytes = fonts_bytes(use->fonts, use->face, &font.length);
    struct subset *subset = subset_new(use->arena, font);
    pdf_ref object = pdf_objects(use->file, 1), map = glyph_map(use, subset);
    pdf_ref about = descriptor(use, subset, text);
    buffer_print(text,
                 "/Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo"
                 "<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor ",
                 use->name);
    pdf_refer(text, about);
    buffer_text(text, "/CIDToGIDMap ");
    pdf_refer(text, map);
    put_widths(text, use);
    pdf_object_set(use->file, object, text);
    return object;
}

static pdf_ref font(const struct face_use *use)
{
    struct buffer text = {0};
    pdf_ref object = pdf_objects(use->file, 1), descendant = cid_font(use, &text);
    buffer_print(&text,
                 "/Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[",
                 use->name);
    pdf_refer(&text, descendant);
    buffer_text(&text, "]/ToUnicode ");
    pdf_refer(&text, unicode_map(use));
    pdf_object_set(use->file, object, &text);
    buffer_free(&text);
    return object;
}

struct pdf_embedded pdf_fonts_embed(struct pdf_file *file, const struct fonts *fonts,
                                    const struct pdf_signs *signs)
{
    struct pdf_embedded made = {.faces = pdf_objects(file, 2)};
    made.resources = made.faces + 1;
    struct arena *arena = arena_new();
    struct buffer text = {0};
    for (enum face face = 0; face < FACE_COUNT; face++) {
        if (!signs->used[face])
            continue;
        struct face_use use = {.file = file,
                               .arena = arena,
                               .fonts = fonts,
                               .face = face,
                               .facts = fonts_facts(fonts, face)};
        use.signs = list_signs(arena, signs, face, &use.count);
        use.name = name_subset(arena, &use);
        buffer_print(&text, "/%s ", pdf_face_names[face]);
        pdf_refer(&text, font(&use));
    }
    pdf_object_set(file, made.faces, &text);
    buffer_text(&text, "/Font ");
    pdf_refer(&text, made.faces);
    pdf_object_set(file, made.resources, &text);
    buffer_free(&text);
    arena_free(arena);
    return made;
}
