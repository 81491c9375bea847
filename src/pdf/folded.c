#include "pdf/folded.h"

#include "base/memory.h"
#include "doc/canvas.h"
#include "layout/fold.h"
#include "pdf/draw.h"
#include "pdf/text.h"

#include <math.h>

/* Every page is a form (PDF 1.7, section 8.10), which is shown on its sheet. */

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

/* What all sides share. */
struct folding {
    const struct print *print;
    const struct fonts *fonts;
    struct fold fold;
    struct paper paper;
    struct sheet blank;
    struct arena *arena;
    struct packer *packer;
    struct pdf_file *file;
    struct pdf_embedded embedded;
    pdf_ref *forms; /* by page; the last is the blank, where there is one */
};

static bool has_blank(const struct print *print)
{
    return print->sheet_count % 4 != 0;
}

static pdf_ref make_form(const struct folding *folding, const struct sheet *sheet,
                         const struct buffer *packed)
{
    struct buffer entries = {0};
    buffer_text(&entries, "/Type/XObject/Subtype/Form/BBox[0 0 ");
    pdf_number(&entries, sheet->width);
    buffer_text(&entries, " ");
    pdf_number(&entries, sheet->height);
    buffer_text(&entries, "]/Resources ");
    pdf_refer(&entries, folding->embedded.resources);
    pdf_ref form = pdf_stream_packed(folding->file, packed, entries.bytes);
    buffer_free(&entries);
    return form;
}

static void make_forms(struct folding *folding, const struct buffer *packed)
{
    size_t count = folding->print->sheet_count;
    struct buffer content = {0}, packed_blank = {0};
    folding->forms = arena_get(folding->arena, (count + 1) * sizeof *folding->forms);
    for (size_t i = 0; i < count; i++)
        folding->forms[i] = make_form(folding, &folding->print->sheets[i], &packed[i]);
    if (!has_blank(folding->print))
        return;
    pdf_draw_sheet(&content, &folding->blank, NULL);
    packer_add(folding->packer, &packed_blank, &content);
    folding->forms[count] = make_form(folding, &folding->blank, &packed_blank);
    buffer_free(&content);
    buffer_free(&packed_blank);
}

/* A page or a blank, and how it is shown. */
struct half {
    const struct sheet *sheet;
    pdf_ref form;
    const char *name;
    bool right;
};

static struct half half_of(const struct folding *folding, size_t number, bool right)
{
    size_t count = folding->print->sheet_count;
    bool is_blank = number > count;
    return (struct half){.sheet =
                             is_blank ? &folding->blank : &folding->print->sheets[number - 1],
                         .form = folding->forms[is_blank ? count : number - 1],
                         .name = right ? "R" : "L",
                         .right = right};
}

static void put_half(struct buffer *out, const struct paper *paper, const struct half *half,
                     double shift)
{
    buffer_text(out, "q\n");
    put_matrix(out, paper, half->sheet, half->right, shift);
    buffer_print(out, "/%s Do\nQ\n", half->name);
}

/* The fonts of the mark at the fold, and the two forms. */
static pdf_ref make_resources(const struct folding *folding, const struct half halves[2])
{
    pdf_ref resources = pdf_objects(folding->file, 1);
    struct buffer text = {0};
    buffer_text(&text, "/Font ");
    pdf_refer(&text, folding->embedded.faces);
    buffer_text(&text, "/XObject<<");
    for (int i = 0; i < 2; i++) {
        buffer_print(&text, "/%s ", halves[i].name);
        pdf_refer(&text, halves[i].form);
    }
    buffer_text(&text, ">>");
    pdf_object_set(folding->file, resources, &text);
    buffer_free(&text);
    return resources;
}

static void draw_side(const struct folding *folding, size_t side)
{
    const struct paper *paper = &folding->paper;
    struct buffer content = {0}, packed = {0};
    struct fold_side pages = fold_side(&folding->fold, side);
    double shift = fold_shift(&pages, paper->thickness);
    const struct half halves[] = {half_of(folding, pages.left, false),
                                  half_of(folding, pages.right, true)};
    for (int i = 0; i < 2; i++)
        put_half(&content, paper, &halves[i], shift);
    if (fold_is_marked(&folding->fold, side)) {
        struct sheet mark = fold_mark(folding->arena, folding->fonts, &folding->fold,
                                      pages.gathering, paper->width, paper->height);
        pdf_draw_sheet(&content, &mark, NULL);
    }
    packer_add(folding->packer, &packed, &content);
    pdf_page(folding->file, paper->width, paper->height, make_resources(folding, halves),
             &packed);
    buffer_free(&content);
    buffer_free(&packed);
}

/* Adds the signs of blanks and of marks at the fold. */
static void add_signs(struct pdf_signs *signs, const struct folding *folding)
{
    const struct paper *paper = &folding->paper;
    if (has_blank(folding->print))
        pdf_signs_add(signs, &folding->blank);
    for (size_t i = 0, count = fold_gatherings(&folding->fold); count > 1 && i < count; i++) {
        struct sheet mark = fold_mark(folding->arena, folding->fonts, &folding->fold, i,
                                      paper->width, paper->height);
        pdf_signs_add(signs, &mark);
    }
}

void pdf_fold(const struct print *print, const struct buffer *packed, const struct fonts *fonts,
              struct pdf_signs *signs, struct packer *packer, const struct sink *sink)
{
    struct folding folding = {.print = print,
                              .fold = {print->sheet_count, print->gathering},
                              .paper = choose_paper(print),
                              .fonts = fonts,
                              .arena = arena_new(),
                              .packer = packer,
                              .file = pdf_file_new(packer)};
    folding.blank =
        fold_notes(folding.arena, fonts, folding.paper.half_width, folding.paper.half_height);
    add_signs(signs, &folding);
    folding.embedded = pdf_fonts_embed(folding.file, fonts, signs);
    make_forms(&folding, packed);
    for (size_t side = 0; side < 2 * fold_sheets(&folding.fold); side++)
        draw_side(&folding, side);
    pdf_file_save(folding.file, print->title, true, NULL, sink);
    pdf_file_free(folding.file);
    arena_free(folding.arena);
}
