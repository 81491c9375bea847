/* Every page is a form (PDF 1.7, section 8.10): drawn once, in reading order as it comes,
 * and shown on its sheet when all are there. */
#include "paint/pdf_folded.h"

#include "page/fold.h"
#include "paint/pdf_catalog.h"
#include "paint/pdf_draw.h"
#include "paint/pdf_fonts.h"
#include "paint/pdf_text.h"
#include "tree/points.h"

#include <math.h>
#include <stdlib.h>

struct pdf_folded {
    struct pdf_file file;
    HPDF_Dict *forms; /* by page */
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

static HPDF_Dict make_form(struct pdf_folded *folded, const struct sheet *sheet,
                           const struct buffer *packed)
{
    struct buffer entries = {0};
    buffer_text(&entries, "/Type/XObject/Subtype/Form/BBox[0 0 ");
    pdf_number(&entries, sheet->width);
    buffer_text(&entries, " ");
    pdf_number(&entries, sheet->height);
    buffer_text(&entries, "]/Resources ");
    pdf_refer(&entries, pdf_number_of(folded->file.resources));
    HPDF_Dict form = pdf_stream_packed(&folded->file, packed, entries.bytes);
    buffer_free(&entries);
    return form;
}

void pdf_folded_take(struct pdf_folded *folded, const struct sheet *sheet, size_t index,
                     const struct buffer *packed)
{
    while (folded->count <= index)
        HEAP_PUSH(folded->forms, folded->count);
    folded->forms[index] = make_form(folded, sheet, packed);
}

static HPDF_Dict make_blank(struct pdf_folded *folded, const struct sheet *blank)
{
    struct buffer content = {0}, packed = {0};
    pdf_draw_sheet(&content, blank, NULL);
    packer_add(folded->file.packer, &packed, content.bytes, content.length);
    HPDF_Dict form = make_form(folded, blank, &packed);
    buffer_free(&content);
    buffer_free(&packed);
    return form;
}

/* A page or a blank, and how it is shown. */
struct half {
    const struct sheet *sheet;
    HPDF_Dict form;
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

/* The fonts of the mark at the fold, and the two forms. */
static void give_resources(struct pdf_file *file, HPDF_Page page, const struct half halves[2])
{
    struct buffer text = {0};
    buffer_text(&text, "/Font ");
    pdf_refer(&text, pdf_number_of(file->fonts));
    buffer_text(&text, "/XObject<<");
    for (int i = 0; i < 2; i++) {
        buffer_print(&text, "/%s ", halves[i].name);
        pdf_refer(&text, pdf_number_of(halves[i].form));
    }
    buffer_text(&text, ">>");
    pdf_add_dict(file, page, "Resources", text.bytes);
    buffer_free(&text);
}

/* What all sides share. */
struct folding {
    const struct print *print;
    struct fold fold;
    struct paper paper;
    struct sheet blank;
    HPDF_Dict blank_form; /* NULL where there is no blank */
};

static struct half half_of(const struct pdf_folded *folded, const struct folding *folding,
                           size_t number, bool right)
{
    bool is_blank = number > folded->count;
    return (struct half){.sheet =
                             is_blank ? &folding->blank : &folding->print->sheets[number - 1],
                         .form = is_blank ? folding->blank_form : folded->forms[number - 1],
                         .name = right ? "R" : "L",
                         .right = right};
}

static void draw_side(struct pdf_folded *folded, const struct folding *folding, size_t side)
{
    struct pdf_file *file = &folded->file;
    const struct paper *paper = &folding->paper;
    struct buffer content = {0}, packed = {0};
    struct fold_side pages = fold_side(&folding->fold, side);
    double shift = fold_shift(&pages, paper->thickness);
    const struct half halves[] = {half_of(folded, folding, pages.left, false),
                                  half_of(folded, folding, pages.right, true)};
    for (int i = 0; i < 2; i++)
        put_half(&content, paper, &halves[i], shift);
    if (fold_is_marked(&folding->fold, side)) {
        struct sheet mark = fold_mark(file->arena, &folding->fold, pages.gathering,
                                      paper->width, paper->height);
        pdf_draw_sheet(&content, &mark, NULL);
    }
    HPDF_Page page = pdf_file_page(file, side);
    pdf_page_size(page, paper->width, paper->height);
    packer_add(file->packer, &packed, content.bytes, content.length);
    pdf_fill_page(file, page, &packed);
    give_resources(file, page, halves);
    buffer_free(&content);
    buffer_free(&packed);
}

/* Adds the signs of blanks and of marks at the fold. */
static void survey(struct pdf_file *file, struct pdf_signs *signs,
                   const struct folding *folding)
{
    const struct paper *paper = &folding->paper;
    if (folding->print->sheet_count % 4 != 0)
        pdf_survey_signs(signs, &folding->blank);
    for (size_t i = 0, count = fold_gatherings(&folding->fold); count > 1 && i < count; i++) {
        struct sheet mark =
            fold_mark(file->arena, &folding->fold, i, paper->width, paper->height);
        pdf_survey_signs(signs, &mark);
    }
}

void pdf_folded_end(struct pdf_folded *folded, const struct print *print,
                    const struct fonts *fonts, struct pdf_signs *signs)
{
    struct pdf_file *file = &folded->file;
    struct folding folding = {
        .print = print, .fold = fold_of(print), .paper = choose_paper(print)};
    folding.blank =
        fold_notes(file->arena, folding.paper.half_width, folding.paper.half_height);
    survey(file, signs, &folding);
    if (print->sheet_count % 4 != 0)
        folding.blank_form = make_blank(folded, &folding.blank);
    pdf_fonts_embed(file, fonts, signs);
    file->doing = "drawing a sheet for folding";
    for (size_t side = 0; side < 2 * fold_sheets(&folding.fold); side++)
        draw_side(folded, &folding, side);
    pdf_catalog_describe(file, print->title, PDF_FLIP_SHORT_EDGE);
    pdf_file_save(file);
}

void pdf_folded_free(struct pdf_folded *folded)
{
    pdf_file_free(&folded->file);
    free(folded->forms);
}
