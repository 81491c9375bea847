/* The sheets for folding: two pages side by side, as pdf_fold.h orders them. */
#include "paint/pdf.h"
#include "paint/pdf_catalog.h"
#include "paint/pdf_draw.h"
#include "paint/pdf_file.h"
#include "paint/pdf_fold.h"
#include "paint/pdf_fonts.h"
#include "paint/pdf_survey.h"
#include "paint/pdf_text.h"
#include "tree/points.h"

#include <math.h>

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

static void put_half(struct buffer *out, const struct paper *paper, const struct sheet *sheet,
                     bool right, double shift)
{
    buffer_text(out, "q\n");
    put_matrix(out, paper, sheet, right, shift);
    pdf_draw_sheet(out, sheet, 0, NULL);
    buffer_text(out, "Q\n");
}

static const struct sheet *page_or_blank(const struct print *print, size_t number,
                                         const struct sheet *blank)
{
    return number <= print->sheet_count ? &print->sheets[number - 1] : blank;
}

static void draw_sides(struct pdf_file *file, const struct print *print,
                       const struct paper *paper, const struct sheet *blank,
                       HPDF_Dict font_resources)
{
    struct buffer content = {0};
    file->doing = "drawing a sheet for folding";
    for (size_t side = 0; side < fold_side_count(print->sheet_count); side++) {
        struct fold_side pages = fold_side(print->sheet_count, side);
        double shift = fold_shift(side, paper->thickness);
        HPDF_Page page = pdf_file_add_page(file, paper->width, paper->height);
        put_half(&content, paper, page_or_blank(print, pages.left, blank), false, shift);
        put_half(&content, paper, page_or_blank(print, pages.right, blank), true, shift);
        pdf_file_fill_page(file, page, &content);
        pdf_fonts_share(file, page, font_resources);
    }
    buffer_free(&content);
}

void pdf_paint_folded(struct buffer *out, const struct print *print, const struct fonts *fonts)
{
    struct pdf_file file;
    pdf_survey_check(print);
    pdf_file_open(&file, fold_side_count(print->sheet_count));
    struct paper paper = choose_paper(print);
    struct sheet blank = notes_sheet(file.arena, &paper);
    struct pdf_signs *signs = arena_get(file.arena, sizeof *signs);
    pdf_survey_signs(signs, print->sheets, print->sheet_count);
    if (print->sheet_count % 4 != 0)
        pdf_survey_signs(signs, &blank, 1);
    HPDF_Dict font_resources = pdf_fonts_embed(&file, fonts, signs);
    draw_sides(&file, print, &paper, &blank, font_resources);
    pdf_catalog_describe(&file, print->title, PDF_FLIP_SHORT_EDGE);
    pdf_file_save(&file, out);
}
