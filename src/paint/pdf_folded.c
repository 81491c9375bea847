/* The sheets for folding: two pages side by side, as page/fold.h orders them. */
#include "page/fold_marks.h"
#include "paint/pdf.h"
#include "paint/pdf_catalog.h"
#include "paint/pdf_draw.h"
#include "paint/pdf_file.h"
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

static struct fold fold_of(const struct print *print)
{
    return (struct fold){print->sheet_count, print->gathering};
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

static void draw_side(struct pdf_file *file, const struct print *print,
                      const struct paper *paper, const struct sheet *blank, size_t side,
                      HPDF_Dict font_resources)
{
    struct buffer content = {0};
    struct fold fold = fold_of(print);
    struct fold_side pages = fold_side(&fold, side);
    double shift = fold_shift(&pages, paper->thickness);
    HPDF_Page page = pdf_file_add_page(file, paper->width, paper->height);
    put_half(&content, paper, page_or_blank(print, pages.left, blank), false, shift);
    put_half(&content, paper, page_or_blank(print, pages.right, blank), true, shift);
    if (fold_is_marked(&fold, side)) {
        struct sheet mark =
            fold_mark(file->arena, &fold, pages.gathering, paper->width, paper->height);
        pdf_draw_sheet(&content, &mark, 0, NULL);
    }
    pdf_file_fill_page(file, page, &content);
    pdf_fonts_share(file, page, font_resources);
    buffer_free(&content);
}

/* The signs of the pages, of blanks and of marks at the fold. */
static struct pdf_signs *survey(struct pdf_file *file, const struct print *print,
                                const struct paper *paper, const struct sheet *blank)
{
    struct pdf_signs *signs = arena_get(file->arena, sizeof *signs);
    struct fold fold = fold_of(print);
    pdf_survey_signs(signs, print->sheets, print->sheet_count);
    if (print->sheet_count % 4 != 0)
        pdf_survey_signs(signs, blank, 1);
    for (size_t i = 0, count = fold_gatherings(&fold); count > 1 && i < count; i++) {
        struct sheet mark = fold_mark(file->arena, &fold, i, paper->width, paper->height);
        pdf_survey_signs(signs, &mark, 1);
    }
    return signs;
}

void pdf_paint_folded(struct buffer *out, const struct print *print, const struct fonts *fonts)
{
    struct pdf_file file;
    struct fold fold = fold_of(print);
    size_t sides = 2 * fold_sheets(&fold);
    pdf_survey_check(print);
    pdf_file_open(&file, sides);
    struct paper paper = choose_paper(print);
    struct sheet blank = fold_notes(file.arena, paper.half_width, paper.half_height);
    HPDF_Dict font_resources =
        pdf_fonts_embed(&file, fonts, survey(&file, print, &paper, &blank));
    file.doing = "drawing a sheet for folding";
    for (size_t side = 0; side < sides; side++)
        draw_side(&file, print, &paper, &blank, side, font_resources);
    pdf_catalog_describe(&file, print->title, PDF_FLIP_SHORT_EDGE);
    pdf_file_save(&file, out);
}
