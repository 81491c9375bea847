/* Every page is a form (PDF 1.7, section 8.10): drawn once, in reading order as it comes,
 * and shown on its sheet when all are there. */
#include "paint/pdf_folded.h"

#include "paint/pdf_catalog.h"
#include "paint/pdf_draw.h"
#include "paint/pdf_fold.h"
#include "paint/pdf_fonts.h"
#include "paint/pdf_text.h"
#include "tree/points.h"

#include <math.h>
#include <stdlib.h>

struct pdf_folded {
    struct pdf_file file;
    pdf_ref *forms; /* by page */
    size_t count;
};

struct pdf_folded *pdf_folded_new(struct arena *arena, struct sink sink, struct packer *packer)
{
    struct pdf_folded *folded = arena_get(arena, sizeof *folded);
    pdf_file_open(&folded->file, sink, packer);
    return folded;
}

/* One half of the paper, and the paper; points. */
struct paper {
    double half_width, half_height; /* of a page */
    double width, height;           /* of the whole, on its side */
    double thickness;
};

/* Two pages of A5 make 296 mm, but the paper is 297 mm wide: where the double comes
 * this near to a paper that is sold, it is that paper. */
static void match_paper(struct paper *paper)
{
    const double sold[][2] = {
        {297 * MM, 210 * MM}, {210 * MM, 148 * MM}, {11 * 72, 8.5 * 72}, {8.5 * 72, 5.5 * 72}};
    for (size_t i = 0; i < sizeof sold / sizeof *sold; i++)
        if (fabs(paper->width - sold[i][0]) < 1.5 * MM &&
            fabs(paper->height - sold[i][1]) < 1.5 * MM) {
            paper->width = sold[i][0];
            paper->height = sold[i][1];
            return;
        }
}

static struct paper choose_paper(const struct print *print)
{
    struct paper paper = {.thickness = print->paper};
    for (size_t i = 0; i < print->sheet_count; i++) {
        const struct sheet *sheet = &print->sheets[i];
        paper.half_width = fmax(paper.half_width, fmin(sheet->width, sheet->height));
        paper.half_height = fmax(paper.half_height, fmax(sheet->width, sheet->height));
    }
    paper.width = 2 * paper.half_width;
    paper.height = paper.half_height;
    match_paper(&paper);
    return paper;
}

static struct piece notes_line(const struct paper *paper, double margin, double y)
{
    return (struct piece){.kind = PIECE_LINE,
                          .tag = -1,
                          .x = margin,
                          .y = y,
                          .width = paper->half_width - 2 * margin,
                          .line = 0.4};
}

static struct piece notes_words(double x, double y, enum face face, double size,
                                const char *text)
{
    return (struct piece){.kind = PIECE_TEXT,
                          .tag = -1,
                          .x = x,
                          .y = y,
                          .face = face,
                          .size = size,
                          .height = size,
                          .text = text};
}

/* What a blank shows: a heading, lines to write on, and how the sheets are printed. */
static struct sheet notes_sheet(struct arena *arena, const struct paper *paper)
{
    const double margin = 14 * MM, pitch = 8 * MM;
    struct sheet sheet = {.width = paper->half_width, .height = paper->half_height};
    *ARENA_PUSH(arena, sheet.pieces, sheet.piece_count) =
        notes_words(margin, margin + 4 * MM, FACE_BOLD, 12, "Notes");
    for (double y = margin + 4 * MM + 1.5 * pitch; y <= paper->half_height - margin; y += pitch)
        *ARENA_PUSH(arena, sheet.pieces, sheet.piece_count) = notes_line(paper, margin, y);
    *ARENA_PUSH(arena, sheet.pieces, sheet.piece_count) = notes_words(
        margin, paper->half_height - margin + 5 * MM, FACE_REGULAR, 6.5,
        "To fold and staple: print at 100 %, on both sides, flip on the short edge.");
    return sheet;
}

/* Puts a page against the fold and beyond it by the shift, half way up; one that lies
 * on its side is turned a quarter, its head to the left. */
static void put_matrix(struct buffer *out, const struct paper *paper, const struct sheet *sheet,
                       bool right, double shift)
{
    bool turned = sheet->width > sheet->height;
    double width = turned ? sheet->height : sheet->width;
    double height = turned ? sheet->width : sheet->height;
    double x = paper->width / 2 - (right ? shift : width - shift);
    double y = (paper->height - height) / 2;
    buffer_text(out, turned ? "0 1 -1 0 " : "1 0 0 1 ");
    pdf_number(out, turned ? x + width : x);
    buffer_text(out, " ");
    pdf_number(out, y);
    buffer_text(out, " cm\n");
}

static pdf_ref write_form(struct pdf_folded *folded, const struct sheet *sheet,
                          const struct buffer *packed)
{
    struct pdf_file *file = &folded->file;
    struct buffer entries = {0};
    pdf_ref form = pdf_reserve(file, 1);
    buffer_text(&entries, "/Type/XObject/Subtype/Form/BBox[0 0 ");
    pdf_number(&entries, sheet->width);
    buffer_text(&entries, " ");
    pdf_number(&entries, sheet->height);
    buffer_text(&entries, "]/Resources ");
    pdf_refer(&entries, file->resources);
    pdf_stream_as_is(file, form, packed, true, entries.bytes);
    buffer_free(&entries);
    return form;
}

void pdf_folded_take(struct pdf_folded *folded, const struct sheet *sheet,
                     const struct buffer *packed)
{
    pdf_ref form = write_form(folded, sheet, packed);
    *HEAP_PUSH(folded->forms, folded->count) = form;
}

static pdf_ref write_blank(struct pdf_folded *folded, const struct sheet *blank,
                           struct pdf_signs *signs)
{
    struct buffer content = {0}, packed = {0};
    pdf_survey_signs(signs, blank);
    pdf_draw_sheet(&content, blank, 0, NULL);
    packer_add(folded->file.packer, &packed, content.bytes, content.length);
    pdf_ref form = write_form(folded, blank, &packed);
    buffer_free(&content);
    buffer_free(&packed);
    return form;
}

/* A page or a blank, and how it is shown. */
struct half {
    const struct sheet *sheet;
    pdf_ref form;
    const char *name;
    bool right;
};

static void put_half(struct buffer *out, const struct paper *paper, const struct half *half,
                     double shift)
{
    buffer_text(out, "q\n");
    put_matrix(out, paper, half->sheet, half->right, shift);
    buffer_print(out, "/%s Do\nQ\n", half->name);
}

static void write_side(struct pdf_file *file, const struct paper *paper,
                       const struct half halves[2], double shift)
{
    struct buffer content = {0};
    pdf_ref page = pdf_reserve(file, 2), stream = page + 1;
    for (int i = 0; i < 2; i++)
        put_half(&content, paper, &halves[i], shift);
    pdf_stream_as_is(file, stream, &content, false, "");
    buffer_free(&content);
    struct buffer *text = pdf_begin_page(file, page, paper->width, paper->height, stream);
    buffer_text(text, "/Resources<</XObject<<");
    for (int i = 0; i < 2; i++) {
        buffer_print(text, "/%s ", halves[i].name);
        pdf_refer(text, halves[i].form);
    }
    buffer_text(text, ">>>>");
    pdf_end(file);
}

static void write_sides(struct pdf_folded *folded, const struct print *print,
                        const struct paper *paper, const struct sheet *blank,
                        pdf_ref blank_form)
{
    for (size_t side = 0; side < fold_side_count(folded->count); side++) {
        struct fold_side pages = fold_side(folded->count, side);
        struct half halves[2] = {{.name = "L"}, {.name = "R", .right = true}};
        for (int i = 0; i < 2; i++) {
            size_t number = i ? pages.right : pages.left;
            bool is_blank = number > folded->count;
            halves[i].sheet = is_blank ? blank : &print->sheets[number - 1];
            halves[i].form = is_blank ? blank_form : folded->forms[number - 1];
        }
        write_side(&folded->file, paper, halves, fold_shift(side, paper->thickness));
    }
}

void pdf_folded_end(struct pdf_folded *folded, const struct print *print,
                    const struct fonts *fonts, struct pdf_signs *signs)
{
    struct pdf_file *file = &folded->file;
    struct paper paper = choose_paper(print);
    struct sheet blank = notes_sheet(file->arena, &paper);
    pdf_ref blank_form = 0;
    if (folded->count % 4 != 0)
        blank_form = write_blank(folded, &blank, signs);
    pdf_fonts_embed(file, fonts, signs);
    write_sides(folded, print, &paper, &blank, blank_form);
    pdf_catalog_describe(file, print->title, PDF_FLIP_SHORT_EDGE);
    free(folded->forms);
    pdf_file_close(file);
}
