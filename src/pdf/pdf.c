/* A print as PDF files. Its sheets are drawn once, as operators that are packed. A file in
 * reading order has them as pages, and beside them what a reader needs: links, tags, labels of
 * pages, outline. In a file of sheets to fold they are forms (PDF 1.7, section 8.10), two of
 * which are shown on each side. */
#include "pdf/pdf.h"

#include "base/fatal.h"
#include "doc/canvas.h"
#include "layout/fold.h"
#include "pdf/draw.h"
#include "pdf/file.h"
#include "pdf/fonts.h"
#include "pdf/tags.h"
#include "pdf/text.h"

#include <math.h>
#include <stdlib.h>

/* ---- is the print sound? ---- */

_Noreturn static void refuse(size_t sheet, const char *what)
{
    fatal("sheet %zu of a print has %s; this is a fault of the program", sheet + 1, what);
}

static bool is_sound(const struct figure_path *path)
{
    if (path->step_count == 0 || path->steps[0].kind != STEP_MOVE)
        return false;
    for (size_t i = 0; i < path->step_count; i++) {
        const struct path_step *step = &path->steps[i];
        if (!isfinite(step->x + step->y + step->x1 + step->y1 + step->x2 + step->y2))
            return false;
    }
    return true;
}

static void check_piece(const struct print *print, const struct piece *piece, size_t sheet)
{
    if (!isfinite(piece->x + piece->y + piece->width + piece->height + piece->line +
                  piece->grey + piece->size + piece->scale))
        refuse(sheet, "a mark with a number that is not finite");
    if (piece->grey < 0 || piece->grey > 1 || piece->line < 0)
        refuse(sheet, "a mark with a grey or a line width out of range");
    if (piece->tag >= 0 && (size_t)piece->tag >= print->tag_count)
        refuse(sheet, "a mark with a tag that is not there");
    if (piece->kind == PIECE_TEXT &&
        (!piece->text || piece->size <= 0 || (unsigned)piece->face >= FACE_COUNT))
        refuse(sheet, "a text without words, size or face");
    if (piece->kind == PIECE_PATH && (!piece->path || !is_sound(piece->path)))
        refuse(sheet, "a path that begins nowhere or has a number that is not finite");
}

static void check_sheet(const struct print *print, size_t index)
{
    const struct sheet *sheet = &print->sheets[index];
    /* PDF 1.7 annex C: a page measures 3 to 14400 units. */
    if (!(sheet->width >= 3 && sheet->width <= 14400 && sheet->height >= 3 &&
          sheet->height <= 14400))
        refuse(index, "a size that no page can have");
    for (size_t i = 0; i < sheet->piece_count; i++)
        check_piece(print, &sheet->pieces[i], index);
    for (size_t i = 0; i < sheet->area_count; i++) {
        const struct hot_area *area = &sheet->areas[i];
        if (!isfinite(area->x + area->y + area->width + area->height))
            refuse(index, "a link with a number that is not finite");
        if (!area->uri && (area->to_sheet >= print->sheet_count || !isfinite(area->to_y)))
            refuse(index, "a link that leads nowhere");
    }
}

/* Ends the program if a number is not finite, or an index leads nowhere. */
static void check_print(const struct print *print)
{
    if (print->sheet_count == 0)
        fatal("a print has no sheets; this is a fault of the program");
    for (size_t i = 0; i < print->sheet_count; i++)
        check_sheet(print, i);
    for (size_t i = 0; i < print->outline_count; i++)
        if (print->outline[i].sheet >= print->sheet_count || !isfinite(print->outline[i].y))
            fatal("the outline of a print leads nowhere; this is a fault of the program");
    for (size_t i = 0; i < print->tag_count; i++)
        if (print->tags[i].parent >= (int)i)
            fatal("a tag of a print stands before its parent; this is a fault of the program");
}

/* ---- what both files are made from ---- */

struct painting {
    const struct print *print;
    const struct fonts *fonts;
    struct arena *arena;
    struct packer *packer;
    struct pdf_characters *characters;
    struct pdf_tags *tags; /* NULL where the print has none */
    struct buffer *packed; /* by sheet: its operators; the arena's */
    /* The file in hand. */
    struct pdf_file *file;
    struct pdf_embedded embedded;
    pdf_ref *pages;        /* by sheet: its page, or its form where it is folded */
    struct buffer catalog; /* the entries of the file's catalog, so far */
    /* Empty between: the object that is written, the operators that are drawn. */
    struct buffer text, content;
    struct buffer last_packed;
};

/* What was drawn, packed; holds until the next. */
static const struct buffer *pack(struct painting *painting)
{
    painting->last_packed.length = 0;
    packer_add(painting->packer, &painting->last_packed, &painting->content);
    painting->content.length = 0;
    return &painting->last_packed;
}

static void begin_file(struct painting *painting)
{
    painting->file = pdf_file_new(painting->packer);
    painting->embedded = pdf_fonts_embed(painting->file, painting->fonts, painting->characters);
}

static void end_file(struct painting *painting, bool flip_short_edge, const struct sink *sink)
{
    pdf_file_save(painting->file, painting->print->title, flip_short_edge, &painting->catalog,
                  sink);
    pdf_file_free(painting->file);
    buffer_free(&painting->catalog);
}

/* To a file that has no tags, what says to which tag the marks belong says nothing. */
static void draw_sheets(struct painting *painting)
{
    const struct print *print = painting->print;
    for (size_t i = 0; i < print->sheet_count; i++) {
        pdf_characters_add(painting->characters, &print->sheets[i]);
        if (painting->tags)
            pdf_tags_next_sheet(painting->tags);
        pdf_draw_sheet(&painting->content, &print->sheets[i], painting->tags);
        const struct buffer *packed = pack(painting);
        painting->packed[i].bytes = arena_slice(painting->arena, packed->bytes, packed->length);
        painting->packed[i].length = packed->length;
    }
}

/* ---- links ---- */

/* A place on a page, y counted downward. */
static void put_place(struct buffer *out, const struct painting *painting, size_t sheet,
                      double y)
{
    pdf_print(out, "[%u 0 R/XYZ null %f null]", painting->pages[sheet],
              painting->print->sheets[sheet].height - y);
}

static void write_link(struct painting *painting, size_t sheet, const struct hot_area *area,
                       pdf_ref link)
{
    struct buffer *text = &painting->text;
    double height = painting->print->sheets[sheet].height;
    pdf_print(text, "/Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect[%f %f %f %f ]", area->x,
              height - area->y - area->height, area->x + area->width, height - area->y);
    if (area->uri) {
        buffer_text(text, "/A<</S/URI/URI");
        pdf_uri(text, area->uri);
    } else {
        buffer_text(text, "/A<</S/GoTo/D");
        put_place(text, painting, area->to_sheet, area->to_y);
    }
    buffer_text(text, ">>");
    long key = painting->tags ? pdf_tags_tie(painting->tags, area->tag, sheet, link) : -1;
    if (key >= 0)
        buffer_print(text, "/StructParent %ld", key);
    pdf_object_set(painting->file, link, text);
}

/* The links of a page, and what ties it to the tags. */
static void finish_page(struct painting *painting, size_t index)
{
    const struct sheet *sheet = &painting->print->sheets[index];
    struct buffer *text = &painting->text;
    pdf_ref first = pdf_objects(painting->file, sheet->area_count);
    for (size_t i = 0; i < sheet->area_count; i++)
        write_link(painting, index, &sheet->areas[i], first + (pdf_ref)i);
    for (size_t i = 0; i < sheet->area_count; i++)
        pdf_print(text, i == 0 ? "/Annots[%u 0 R " : "%u 0 R ", first + (pdf_ref)i);
    if (sheet->area_count)
        buffer_text(text, "]");
    if (painting->tags)
        pdf_tags_put_page(painting->tags, text, index);
    if (text->length)
        pdf_object_set(painting->file, painting->pages[index], text);
}

/* ---- labels: the numbers of pages as printed, so that a viewer shows the same ---- */

enum label_kind { LABEL_NONE, LABEL_ARABIC, LABEL_ROMAN, LABEL_OTHER };

struct label {
    enum label_kind kind;
    long number;
};

static struct label label_of(const struct sheet *sheet)
{
    const char *text = sheet->label;
    if (!text || !text[0])
        return (struct label){LABEL_NONE, 0};
    if (sheet->roman)
        return (struct label){LABEL_ROMAN, (long)sheet->roman};
    char *end = NULL;
    long number = strtol(text, &end, 10);
    if (*end == '\0' && text[0] >= '1' && text[0] <= '9')
        return (struct label){LABEL_ARABIC, number};
    return (struct label){LABEL_OTHER, 0};
}

static bool label_follows(struct label before, struct label now)
{
    if (before.kind != now.kind || now.kind == LABEL_OTHER)
        return false;
    return now.kind == LABEL_NONE || now.number == before.number + 1;
}

static void put_labels(struct buffer *out, const struct print *print)
{
    struct label before = {LABEL_OTHER, 0};
    buffer_text(out, "/PageLabels<</Nums[");
    for (size_t i = 0; i < print->sheet_count; i++) {
        struct label now = label_of(&print->sheets[i]);
        if (!label_follows(before, now)) {
            pdf_print(out, "%zu<<", i);
            if (now.kind == LABEL_OTHER) {
                buffer_text(out, "/P");
                pdf_string(out, print->sheets[i].label);
            } else if (now.kind != LABEL_NONE) {
                buffer_print(out, "/S/%s/St %ld", now.kind == LABEL_ROMAN ? "r" : "D",
                             now.number);
            }
            buffer_text(out, ">>");
        }
        before = now;
    }
    buffer_text(out, "]>>");
}

/* ---- outline: the tree of titles beside the pages (PDF 1.7, section 12.3.3) ---- */

/* Item 0 is the root, which has no title; the others are the entries of the print. Where there
 * is no item, 0 stands. */
struct item {
    size_t parent, before, after, first, last;
    int children;
};

/* An entry hangs below the nearest one before it that is of a higher rank. */
static struct item *grow_outline(struct arena *arena, const struct print *print)
{
    const struct outline_entry *entries = print->outline;
    struct item *items = arena_get(arena, (print->outline_count + 1) * sizeof *items);
    for (size_t i = 1; i <= print->outline_count; i++) {
        size_t above = i - 1;
        while (above && entries[above - 1].level >= entries[i - 1].level)
            above = items[above].parent;
        items[i].parent = above;
        items[i].before = items[above].last;
        if (items[above].last)
            items[items[above].last].after = i;
        else
            items[above].first = i;
        items[above].last = i;
        items[above].children++;
    }
    return items;
}

/* How many entries show below one: two ranks stand open, deeper ones are folded,
 * and say so by a negative count. */
static int shown_below(const struct item *items, size_t index)
{
    int shown = items[index].children;
    if (index)
        return items[index].parent ? -shown : shown;
    for (size_t i = items[0].first; i; i = items[i].after)
        shown += shown_below(items, i);
    return shown;
}

static void write_item(struct painting *painting, const struct item *items, size_t index,
                       pdf_ref root)
{
    const struct item *item = &items[index];
    struct buffer *text = &painting->text;
    if (index == 0) {
        buffer_text(text, "/Type/Outlines");
    } else {
        const struct outline_entry *entry = &painting->print->outline[index - 1];
        buffer_text(text, "/Title");
        pdf_string(text, entry->title);
        buffer_text(text, "/Dest");
        put_place(text, painting, entry->sheet, entry->y);
        pdf_print(text, "/Parent %u 0 R", root + (pdf_ref)item->parent);
    }
    if (item->before)
        pdf_print(text, "/Prev %u 0 R", root + (pdf_ref)item->before);
    if (item->after)
        pdf_print(text, "/Next %u 0 R", root + (pdf_ref)item->after);
    if (item->first)
        pdf_print(text, "/First %u 0 R/Last %u 0 R/Count %d", root + (pdf_ref)item->first,
                  root + (pdf_ref)item->last, shown_below(items, index));
    pdf_object_set(painting->file, root + (pdf_ref)index, text);
}

static void write_outline(struct painting *painting)
{
    size_t count = painting->print->outline_count;
    if (count == 0)
        return;
    const struct item *items = grow_outline(painting->arena, painting->print);
    pdf_ref root = pdf_objects(painting->file, count + 1);
    for (size_t i = 0; i <= count; i++)
        write_item(painting, items, i, root);
    pdf_print(&painting->catalog, "/PageMode/UseOutlines/Outlines %u 0 R", root);
}

static void paint_reading(struct painting *painting, const struct sink *sink)
{
    const struct print *print = painting->print;
    begin_file(painting);
    for (size_t i = 0; i < print->sheet_count; i++)
        painting->pages[i] =
            pdf_page(painting->file, print->sheets[i].width, print->sheets[i].height,
                     painting->embedded.resources, &painting->packed[i]);
    put_labels(&painting->catalog, print);
    for (size_t i = 0; i < print->sheet_count; i++)
        finish_page(painting, i);
    if (painting->tags)
        pdf_tags_write(painting->tags, painting->file, painting->pages, &painting->catalog);
    write_outline(painting);
    end_file(painting, print->flip_short_edge, sink);
}

/* ---- sheets to fold: two pages side by side, as layout/fold.h orders them ---- */

/* One half of the paper, and the paper; points. */
struct paper {
    double half_width, half_height; /* of a page */
    double width, height;           /* of the whole, on its side */
};

static struct paper choose_paper(const struct print *print)
{
    static const double sold[][2] = {
        {297 * MM, 210 * MM}, {210 * MM, 148 * MM}, {11 * 72, 8.5 * 72}, {8.5 * 72, 5.5 * 72}};
    struct paper paper = {0};
    for (size_t i = 0; i < print->sheet_count; i++) {
        const struct sheet *sheet = &print->sheets[i];
        paper.half_width = fmax(paper.half_width, fmin(sheet->width, sheet->height));
        paper.half_height = fmax(paper.half_height, fmax(sheet->width, sheet->height));
    }
    paper.width = 2 * paper.half_width;
    paper.height = paper.half_height;
    /* Two pages of A5 make 296 mm, but the paper is 297 mm wide: where the double comes
     * this near to a paper that is sold, it is that paper. */
    for (size_t i = 0; i < sizeof sold / sizeof *sold; i++)
        if (fabs(paper.width - sold[i][0]) < 1.5 * MM &&
            fabs(paper.height - sold[i][1]) < 1.5 * MM) {
            paper.width = sold[i][0];
            paper.height = sold[i][1];
            break;
        }
    return paper;
}

struct folding {
    struct fold fold;
    struct paper paper;
    struct sheet blank; /* a page of notes */
    pdf_ref blank_form; /* 0 where no side has one */
};

/* Puts a page against the fold and beyond it by the shift, half way up; one that lies
 * on its side is turned a quarter, its head to the left. */
static void put_matrix(struct buffer *out, const struct paper *paper, const struct sheet *sheet,
                       bool right, double shift)
{
    bool turned = sheet->width > sheet->height;
    double width = turned ? sheet->height : sheet->width;
    double height = turned ? sheet->width : sheet->height;
    double x = paper->width / 2 - (right ? shift : width - shift);
    pdf_print(out, "%s %f %f cm\n", turned ? "0 1 -1 0" : "1 0 0 1", turned ? x + width : x,
              (paper->height - height) / 2);
}

static pdf_ref make_form(struct painting *painting, const struct sheet *sheet,
                         const struct buffer *packed)
{
    struct buffer *text = &painting->text;
    pdf_print(text, "/Type/XObject/Subtype/Form/BBox[0 0 %f %f]/Resources %u 0 R", sheet->width,
              sheet->height, painting->embedded.resources);
    pdf_ref form = pdf_stream_packed(painting->file, packed, text->bytes);
    text->length = 0;
    return form;
}

static void make_forms(struct painting *painting, struct folding *folding)
{
    const struct print *print = painting->print;
    for (size_t i = 0; i < print->sheet_count; i++)
        painting->pages[i] = make_form(painting, &print->sheets[i], &painting->packed[i]);
    if (print->sheet_count % 4 == 0)
        return;
    pdf_draw_sheet(&painting->content, &folding->blank, NULL);
    folding->blank_form = make_form(painting, &folding->blank, pack(painting));
}

static struct sheet mark_of(const struct painting *painting, const struct folding *folding,
                            size_t gathering)
{
    return fold_mark(painting->arena, painting->fonts, &folding->fold, gathering,
                     folding->paper.width, folding->paper.height);
}

static void draw_side(struct painting *painting, const struct folding *folding, size_t side)
{
    const struct print *print = painting->print;
    const struct paper *paper = &folding->paper;
    struct buffer *text = &painting->text, *content = &painting->content;
    struct fold_side pages = fold_side(&folding->fold, side);
    pdf_print(text, "/Font %u 0 R/XObject<<", painting->embedded.faces); /* for the mark */
    for (int right = 0; right < 2; right++) {
        size_t page = (right ? pages.right : pages.left) - 1;
        bool blank = page >= print->sheet_count;
        const char *name = right ? "R" : "L";
        buffer_text(content, "q\n");
        put_matrix(content, paper, blank ? &folding->blank : &print->sheets[page], right,
                   (double)pages.around * print->paper);
        pdf_print(content, "/%s Do\nQ\n", name);
        pdf_print(text, "/%s %u 0 R", name,
                  blank ? folding->blank_form : painting->pages[page]);
    }
    buffer_text(text, ">>");
    if (fold_is_marked(&folding->fold, side)) {
        struct sheet mark = mark_of(painting, folding, pages.gathering);
        pdf_draw_sheet(content, &mark, NULL);
    }
    pdf_ref resources = pdf_objects(painting->file, 1);
    pdf_object_set(painting->file, resources, text);
    pdf_page(painting->file, paper->width, paper->height, resources, pack(painting));
}

/* Adds the characters of blanks and of marks at the fold to the print's. */
static void paint_folded(struct painting *painting, const struct sink *sink)
{
    const struct print *print = painting->print;
    struct folding folding = {.fold = {print->sheet_count, print->gathering},
                              .paper = choose_paper(print)};
    size_t gatherings = fold_gatherings(&folding.fold);
    folding.blank = fold_notes(painting->arena, painting->fonts, folding.paper.half_width,
                               folding.paper.half_height);
    if (print->sheet_count % 4 != 0)
        pdf_characters_add(painting->characters, &folding.blank);
    for (size_t i = 0; gatherings > 1 && i < gatherings; i++) {
        struct sheet mark = mark_of(painting, &folding, i);
        pdf_characters_add(painting->characters, &mark);
    }
    begin_file(painting);
    make_forms(painting, &folding);
    for (size_t side = 0; side < 2 * fold_sheets(&folding.fold); side++)
        draw_side(painting, &folding, side);
    end_file(painting, true, sink);
}

void pdf_paint(const struct print *print, const struct fonts *fonts, const struct sink *reading,
               const struct sink *folded)
{
    struct arena *arena = arena_new();
    size_t count = print->sheet_count;
    struct painting painting = {.print = print,
                                .fonts = fonts,
                                .arena = arena,
                                .packer = packer_new(),
                                .characters = arena_get(arena, sizeof *painting.characters),
                                .packed = arena_get(arena, count * sizeof *painting.packed),
                                .pages = arena_get(arena, count * sizeof *painting.pages)};
    check_print(print);
    if (print->tag_count)
        painting.tags = pdf_tags_new(arena, print);
    draw_sheets(&painting);
    if (reading)
        paint_reading(&painting, reading);
    if (folded)
        paint_folded(&painting, folded);
    buffer_free(&painting.text);
    buffer_free(&painting.content);
    buffer_free(&painting.last_packed);
    packer_free(painting.packer);
    arena_free(arena);
}
