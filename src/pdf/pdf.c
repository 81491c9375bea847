#include "pdf/pdf.h"

#include "base/fatal.h"
#include "pdf/draw.h"
#include "pdf/file.h"
#include "pdf/folded.h"
#include "pdf/fonts.h"
#include "pdf/tags.h"
#include "pdf/text.h"

#include <math.h>
#include <stdlib.h>

/* A print as PDF files: its sheets are drawn once, as operators that are packed; a file in
 * reading order has them as pages, and beside them what a reader needs: links, tags, labels
 * of pages, outline. A file of sheets to fold is made by pdf/folded.h. */

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
    const double numbers[] = {piece->x,    piece->y,    piece->width, piece->height,
                              piece->line, piece->grey, piece->size,  piece->scale};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        if (!isfinite(numbers[i]))
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

static void check_area(const struct print *print, const struct hot_area *area, size_t sheet)
{
    if (!isfinite(area->x) || !isfinite(area->y) || !isfinite(area->width) ||
        !isfinite(area->height))
        refuse(sheet, "a link with a number that is not finite");
    if (!area->uri && (area->to_sheet >= print->sheet_count || !isfinite(area->to_y)))
        refuse(sheet, "a link that leads nowhere");
}

/* Ends the program if a number is not finite, or an index leads nowhere. */
static void check_sheet(const struct print *print, size_t index)
{
    const struct sheet *sheet = &print->sheets[index];
    /* PDF 1.7 annex C: a page measures 3 to 14400 units. */
    if (!(sheet->width >= 3 && sheet->width <= 14400 && sheet->height >= 3 &&
          sheet->height <= 14400))
        refuse(index, "a size that no page can have");
    for (size_t i = 0; i < sheet->piece_count; i++)
        check_piece(print, &sheet->pieces[i], index);
    for (size_t i = 0; i < sheet->area_count; i++)
        check_area(print, &sheet->areas[i], index);
}

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

/* ---- the file in reading order ---- */

struct reading {
    const struct print *print;
    struct pdf_file *file;
    struct pdf_tags *tags; /* or NULL */
    pdf_ref *pages;        /* by sheet */
    struct buffer catalog; /* the entries of the file's catalog, so far */
    struct buffer text;    /* of the object that is written */
};

/* ---- links ---- */

/* "[12 0 R/XYZ null 300 null]", y counted downward. */
static void put_place(const struct reading *reading, struct buffer *out, size_t sheet, double y)
{
    buffer_text(out, "[");
    pdf_refer(out, reading->pages[sheet]);
    buffer_text(out, "/XYZ null ");
    pdf_number(out, reading->print->sheets[sheet].height - y);
    buffer_text(out, " null]");
}

static void put_rectangle(struct buffer *out, const struct hot_area *area, double height)
{
    const double sides[] = {area->x, height - area->y - area->height, area->x + area->width,
                            height - area->y};
    buffer_text(out, "[");
    for (size_t i = 0; i < sizeof sides / sizeof *sides; i++) {
        pdf_number(out, sides[i]);
        buffer_text(out, " ");
    }
    buffer_text(out, "]");
}

static void write_link(struct reading *reading, size_t sheet, const struct hot_area *area,
                       pdf_ref link)
{
    struct buffer *text = &reading->text;
    buffer_text(text, "/Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect");
    put_rectangle(text, area, reading->print->sheets[sheet].height);
    if (area->uri) {
        buffer_text(text, "/A<</S/URI/URI");
        pdf_uri(text, area->uri);
    } else {
        buffer_text(text, "/A<</S/GoTo/D");
        put_place(reading, text, area->to_sheet, area->to_y);
    }
    buffer_text(text, ">>");
    long key = reading->tags ? pdf_tags_tie(reading->tags, area->tag, sheet, link) : -1;
    if (key >= 0)
        buffer_print(text, "/StructParent %ld", key);
    pdf_object_set(reading->file, link, text);
}

/* The links of a page, and what ties it to the tags. */
static void finish_page(struct reading *reading, size_t index)
{
    const struct sheet *sheet = &reading->print->sheets[index];
    struct buffer *text = &reading->text;
    pdf_ref first = pdf_objects(reading->file, sheet->area_count);
    for (size_t i = 0; i < sheet->area_count; i++)
        write_link(reading, index, &sheet->areas[i], first + (pdf_ref)i);
    for (size_t i = 0; i < sheet->area_count; i++) {
        buffer_text(text, i == 0 ? "/Annots[" : "");
        pdf_refer(text, first + (pdf_ref)i);
        buffer_text(text, i + 1 == sheet->area_count ? " ]" : " ");
    }
    if (reading->tags)
        pdf_tags_put_page(reading->tags, text, index);
    if (text->length)
        pdf_object_set(reading->file, reading->pages[index], text);
}

/* ---- labels: the numbers of pages as printed, so that a viewer shows the same ---- */

enum label_kind { LABEL_NONE, LABEL_ARABIC, LABEL_ROMAN, LABEL_OTHER };

struct label {
    enum label_kind kind;
    long number;
};

static struct label read_label(const char *text)
{
    if (!text[0])
        return (struct label){LABEL_NONE, 0};
    char *end = NULL;
    long number = strtol(text, &end, 10);
    if (*end == '\0' && text[0] >= '1' && text[0] <= '9')
        return (struct label){LABEL_ARABIC, number};
    if ((number = roman_read(text)) > 0)
        return (struct label){LABEL_ROMAN, number};
    return (struct label){LABEL_OTHER, 0};
}

static bool label_follows(struct label before, struct label now)
{
    if (before.kind != now.kind || now.kind == LABEL_OTHER)
        return false;
    return now.kind == LABEL_NONE || now.number == before.number + 1;
}

static void put_label(struct buffer *out, size_t sheet, struct label label, const char *text)
{
    pdf_integer(out, (long)sheet);
    buffer_text(out, "<<");
    if (label.kind == LABEL_OTHER) {
        buffer_text(out, "/P");
        pdf_string(out, text);
    } else if (label.kind != LABEL_NONE) {
        buffer_print(out, "/S/%s/St %ld", label.kind == LABEL_ROMAN ? "r" : "D", label.number);
    }
    buffer_text(out, ">>");
}

static void put_labels(struct buffer *out, const struct print *print)
{
    struct label before = {LABEL_OTHER, 0};
    buffer_text(out, "/PageLabels<</Nums[");
    for (size_t i = 0; i < print->sheet_count; i++) {
        const char *shown = print->sheets[i].label ? print->sheets[i].label : "";
        struct label now = read_label(shown);
        if (!label_follows(before, now))
            put_label(out, i, now, shown);
        before = now;
    }
    buffer_text(out, "]>>");
}

/* ---- outline: the tree of titles beside the pages (PDF 1.7, section 12.3.3) ---- */

/* Item 0 is the root, which has no title; the others are the entries of the print. Where there
 * is no item, 0 stands. */
struct item {
    size_t parent, before, after, first, last;
    long children;
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
static long shown_below(const struct item *items, size_t index)
{
    long shown = items[index].children;
    if (index)
        return items[index].parent ? -shown : shown;
    for (size_t i = items[0].first; i; i = items[i].after)
        shown += shown_below(items, i);
    return shown;
}

static void put_neighbour(struct buffer *out, const char *key, pdf_ref root, size_t item)
{
    buffer_text(out, key);
    pdf_refer(out, root + (pdf_ref)item);
}

static void write_item(struct reading *reading, const struct item *items, size_t index,
                       pdf_ref root)
{
    const struct item *item = &items[index];
    struct buffer *text = &reading->text;
    if (index == 0) {
        buffer_text(text, "/Type/Outlines");
    } else {
        const struct outline_entry *entry = &reading->print->outline[index - 1];
        buffer_text(text, "/Title");
        pdf_string(text, entry->title);
        buffer_text(text, "/Dest");
        put_place(reading, text, entry->sheet, entry->y);
        put_neighbour(text, "/Parent ", root, item->parent);
    }
    if (item->before)
        put_neighbour(text, "/Prev ", root, item->before);
    if (item->after)
        put_neighbour(text, "/Next ", root, item->after);
    if (item->first) {
        put_neighbour(text, "/First ", root, item->first);
        put_neighbour(text, "/Last ", root, item->last);
        buffer_print(text, "/Count %ld", shown_below(items, index));
    }
    pdf_object_set(reading->file, root + (pdf_ref)index, text);
}

static void write_outline(struct reading *reading, struct arena *arena)
{
    size_t count = reading->print->outline_count;
    if (count == 0)
        return;
    const struct item *items = grow_outline(arena, reading->print);
    pdf_ref root = pdf_objects(reading->file, count + 1);
    for (size_t i = 0; i <= count; i++)
        write_item(reading, items, i, root);
    put_neighbour(&reading->catalog, "/PageMode/UseOutlines/Outlines ", root, 0);
}

/* ---- all of it ---- */

/* What both files are made from. */
struct painting {
    const struct print *print;
    const struct fonts *fonts;
    struct arena *arena;
    struct packer *packer;
    struct pdf_signs *signs;
    struct pdf_tags *tags; /* NULL where the print has none */
    struct buffer *packed; /* by sheet: its operators; the arena's */
};

/* To a file that has no tags, what says to which tag the marks belong says nothing. */
static void draw_sheets(struct painting *painting)
{
    const struct print *print = painting->print;
    struct buffer content = {0}, packed = {0};
    painting->packed = arena_get(painting->arena, print->sheet_count * sizeof packed);
    for (size_t i = 0; i < print->sheet_count; i++) {
        pdf_signs_add(painting->signs, &print->sheets[i]);
        if (painting->tags)
            pdf_tags_next_sheet(painting->tags);
        pdf_draw_sheet(&content, &print->sheets[i], painting->tags);
        packer_add(painting->packer, &packed, &content);
        painting->packed[i] =
            (struct buffer){.bytes = arena_slice(painting->arena, packed.bytes, packed.length),
                            .length = packed.length};
        content.length = packed.length = 0;
    }
    buffer_free(&content);
    buffer_free(&packed);
}

static void paint_reading(const struct painting *painting, const struct sink *sink)
{
    const struct print *print = painting->print;
    struct pdf_file *file = pdf_file_new(painting->packer);
    struct reading reading = {.print = print, .file = file, .tags = painting->tags};
    pdf_ref resources = pdf_fonts_embed(file, painting->fonts, painting->signs).resources;
    reading.pages = arena_get(painting->arena, print->sheet_count * sizeof *reading.pages);
    for (size_t i = 0; i < print->sheet_count; i++)
        reading.pages[i] = pdf_page(file, print->sheets[i].width, print->sheets[i].height,
                                    resources, &painting->packed[i]);
    put_labels(&reading.catalog, print);
    for (size_t i = 0; i < print->sheet_count; i++)
        finish_page(&reading, i);
    if (reading.tags)
        pdf_tags_write(reading.tags, file, reading.pages, &reading.catalog);
    write_outline(&reading, painting->arena);
    pdf_file_save(file, print->title, print->flip_short_edge, &reading.catalog, sink);
    buffer_free(&reading.catalog);
    buffer_free(&reading.text);
    pdf_file_free(file);
}

void pdf_paint(const struct print *print, const struct fonts *fonts, const struct sink *reading,
               const struct sink *folded)
{
    struct arena *arena = arena_new();
    struct painting painting = {.print = print,
                                .fonts = fonts,
                                .arena = arena,
                                .packer = packer_new(),
                                .signs = arena_get(arena, sizeof *painting.signs)};
    check_print(print);
    if (print->tag_count)
        painting.tags = pdf_tags_new(arena, print);
    draw_sheets(&painting);
    if (reading)
        paint_reading(&painting, reading);
    if (folded)
        pdf_fold(print, painting.packed, fonts, painting.signs, painting.packer, folded);
    packer_free(painting.packer);
    arena_free(arena);
}
