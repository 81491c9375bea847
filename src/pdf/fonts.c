/* The dictionaries of a font, and the subset of its file (pdf/subset.h). libharu could
 * make them too: it would read every file for every PDF, character by character through the
 * C library's streams, write a ToUnicode map that readers complain of, and tables for
 * all 65536 codes.
 *
 * Codes are code points, not glyph numbers: two characters that share a glyph (a space
 * and a no-break space) are still told apart when the text is copied. */
#include "pdf/fonts.h"

#include "base/memory.h"
#include "base/utf8.h"
#include "pdf/subset.h"
#include "pdf/text.h"

const char *const pdf_face_names[FACE_COUNT] = {"R", "B", "O", "M"};

/* ---- which characters are used ---- */

void pdf_characters_add(struct pdf_characters *characters, const struct sheet *sheet)
{
    for (size_t i = 0; i < sheet->piece_count; i++) {
        const struct piece *piece = &sheet->pieces[i];
        if (piece->kind != PIECE_TEXT)
            continue;
        uint8_t *bits = characters->bits[piece->face];
        const char *text = piece->text;
        characters->used[piece->face] = true;
        bits[' ' / 8] |= 1u << ' ' % 8; /* drawn where a blank follows a text */
        for (uint32_t point; (point = utf8_next(&text)) != 0;)
            if (point < 0xFFFF)
                bits[point / 8] |= (uint8_t)(1u << point % 8);
    }
}

/* ---- a face as dictionaries and streams ---- */

/* A face on its way into the file. */
struct embedding {
    struct pdf_file *file;
    struct arena *arena;
    const struct fonts *fonts;
    enum face face;
    const uint32_t *points; /* code points of its characters in order */
    size_t count;           /* at least one: the blank */
};

static void list_points(struct embedding *face, const struct pdf_characters *characters)
{
    const uint8_t *bits = characters->bits[face->face];
    uint32_t *list = NULL;
    for (uint32_t byte = 0; byte < sizeof characters->bits[0]; byte++)
        for (uint32_t rest = bits[byte]; rest; rest &= rest - 1)
            *ARENA_PUSH(face->arena, list, face->count) =
                byte * 8 + (uint32_t)__builtin_ctz(rest);
    face->points = list;
}

/* The face's name behind six letters that tell subsets of one font apart (PDF 1.7, section
 * 9.6.4): a number made of the characters in it. */
static const char *name_subset(const struct embedding *face, const char *name)
{
    uint32_t number = 0;
    char tag[7] = {0};
    for (size_t i = 0; i < face->count; i++)
        number = number * 31 + face->points[i];
    for (int i = 0; i < 6; i++, number /= 26)
        tag[i] = (char)('A' + number % 26);
    return arena_format(face->arena, "%s+%s", tag, name);
}

/* The advances in thousandths of the size, by code: 32[318 401]176[500]... */
static void put_widths(struct buffer *out, const struct embedding *face)
{
    buffer_text(out, "/W[");
    for (size_t i = 0; i < face->count; i++) {
        bool follows = i > 0 && face->points[i] == face->points[i - 1] + 1;
        if (!follows)
            pdf_print(out, "%s%u[", i > 0 ? "]" : "", face->points[i]);
        pdf_print(out, "%d ", fonts_advance(face->fonts, face->face, face->points[i]));
    }
    buffer_text(out, "]]");
}

/* From codes to glyphs of the subset, which takes them in: two bytes a code. */
static pdf_ref glyph_map(const struct embedding *face, struct subset *subset)
{
    size_t length = 2 * ((size_t)face->points[face->count - 1] + 1);
    unsigned char *bytes = arena_get(face->arena, length);
    for (size_t i = 0; i < face->count; i++) {
        uint32_t point = face->points[i];
        unsigned glyph = subset_take(subset, fonts_glyph(face->fonts, face->face, point));
        bytes[2 * point] = (unsigned char)(glyph >> 8);
        bytes[2 * point + 1] = (unsigned char)glyph;
    }
    return pdf_stream(face->file, &(struct buffer){.bytes = (char *)bytes, .length = length},
                      "");
}

/* The ranges of the map from codes to Unicode, one for each row of 256 in use. */
static void put_ranges(struct buffer *out, const struct embedding *face)
{
    enum { AT_MOST = 100 }; /* ranges in one list, says the CMap specification */
    int count = 0;
    struct buffer ranges = {0};
    for (size_t i = 0; i < face->count; i++) {
        uint32_t row = face->points[i] >> 8;
        if (i == 0 || row != face->points[i - 1] >> 8) {
            buffer_print(&ranges, "<%02X00><%02XFF><%02X00>\n", row, row, row);
            count++;
        }
        if (count == AT_MOST || (i + 1 == face->count && count > 0)) {
            pdf_print(out, "%d beginbfrange\n%sendbfrange\n", count, ranges.bytes);
            ranges.length = 0;
            count = 0;
        }
    }
    buffer_free(&ranges);
}

static pdf_ref unicode_map(const struct embedding *face)
{
    struct buffer text = {0};
    buffer_text(&text, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                       "/CIDSystemInfo <</Registry (Adobe)/Ordering (UCS)/Supplement 0>> def\n"
                       "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                       "1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n");
    put_ranges(&text, face);
    buffer_text(&text, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    pdf_ref stream = pdf_stream(face->file, &text, "");
    buffer_free(&text);
    return stream;
}

static pdf_ref font_program(const struct embedding *face, struct subset *subset)
{
    struct buffer bytes = {0};
    subset_write(subset, &bytes);
    pdf_ref stream =
        pdf_stream(face->file, &bytes, arena_format(face->arena, "/Length1 %zu", bytes.length));
    buffer_free(&bytes);
    return stream;
}

/* The font, what it is made from, and what is said of it (PDF 1.7, sections 9.7 and 9.8). */
static pdf_ref embed(const struct embedding *face)
{
    enum { NOT_SYMBOLIC = 32, SLANTED = 64 }; /* table 123 */
    struct face_facts facts = fonts_facts(face->fonts, face->face);
    const char *name = name_subset(face, facts.name);
    struct font_bytes bytes;
    bytes.bytes = fonts_bytes(face->fonts, face->face, &bytes.length);
    struct subset *subset = subset_new(face->arena, bytes);
    pdf_ref font = pdf_objects(face->file, 2), descendant = font + 1;
    pdf_ref glyphs = glyph_map(face, subset);
    pdf_ref descriptor = pdf_objects(face->file, 1);
    pdf_ref program = font_program(face, subset);
    struct buffer text = {0};
    pdf_print(&text, "/Type/FontDescriptor/FontName/%s/Flags %d/FontBBox[%d %d %d %d]", name,
              NOT_SYMBOLIC | (facts.slant ? SLANTED : 0), facts.left, facts.bottom, facts.right,
              facts.top);
    pdf_print(&text,
              "/ItalicAngle %d/Ascent %d/Descent %d/CapHeight %d/StemV 0/FontFile2 %u 0 R",
              facts.slant, facts.ascent, facts.descent, facts.cap_height, program);
    pdf_object_set(face->file, descriptor, &text);
    pdf_print(&text,
              "/Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo"
              "<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor %u 0 R"
              "/CIDToGIDMap %u 0 R",
              name, descriptor, glyphs);
    put_widths(&text, face);
    pdf_object_set(face->file, descendant, &text);
    pdf_print(&text,
              "/Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H"
              "/DescendantFonts[%u 0 R]/ToUnicode %u 0 R",
              name, descendant, unicode_map(face));
    pdf_object_set(face->file, font, &text);
    buffer_free(&text);
    return font;
}

struct pdf_embedded pdf_fonts_embed(struct pdf_file *file, const struct fonts *fonts,
                                    const struct pdf_characters *characters)
{
    struct pdf_embedded made = {.faces = pdf_objects(file, 2)};
    made.resources = made.faces + 1;
    struct arena *arena = arena_new();
    struct buffer text = {0};
    for (enum face face = 0; face < FACE_COUNT; face++) {
        if (!characters->used[face])
            continue;
        struct embedding embedding = {
            .file = file, .arena = arena, .fonts = fonts, .face = face};
        list_points(&embedding, characters);
        pdf_print(&text, "/%s %u 0 R", pdf_face_names[face], embed(&embedding));
    }
    pdf_object_set(file, made.faces, &text);
    pdf_print(&text, "/Font %u 0 R", made.faces);
    pdf_object_set(file, made.resources, &text);
    buffer_free(&text);
    arena_free(arena);
    return made;
}
