/* The booklet: title page, contents, chapters. All strips are placed first, then sheets get
 * their numbers and feet, and what leads to a sheet learns its number. */
#include "doc/canvas.h"
#include "layout/blocks.h"
#include "layout/cut.h"
#include "layout/drawing.h"

#include <string.h>

static const struct type_scale booklet_type = {
    .body = 9.5,
    .leading = 13,
    .heading = {20, 14, 11.5, 9.5},
    .heading_leading = {26, 18, 15, 13},
    .literal = 8,
    .note = 8,
    .table_most = 9,
    .table_least = 8,
    .table_text = 1,
    .table_head = 1,
    .table_row_pad = 0.1,
};

static const double TITLE_SIZE = 28, TITLE_DROP = 52, INPUTS_SIZE = 8;

/* Blank above a chapter that begins below the end of another; lines. */
static const double CHAPTER_GAP = 3;

static const double WRITING_PITCH = 8 * MM;

/* ---- contents ---- */

static const double NUMBER_ROOM = 26;

/* Lines to look through stand closer than lines to read. */
static const double CLOSER = 12.0 / 13;

/* Dots from the text to the number; they stand on one grid in every line. */
static void put_leader(struct flow *flow, double from, double to, double y,
                       const struct text_style *style)
{
    struct text_style look = {.size = style->size};
    double step = fonts_width(flow->fonts, FACE_REGULAR, look.size, ". ");
    int count = (int)((to - from) / step);
    if (count < 2)
        return;
    struct buffer dots = {0};
    for (int i = 0; i < count; i++)
        buffer_text(&dots, i ? " ." : ".");
    flow_text_right(flow, to, y, &look, -1, arena_slice(flow->arena, dots.bytes, dots.length));
    buffer_free(&dots);
}

/* Puts the still empty piece for the number, and the area over the whole line. */
static void put_number(struct flow *flow, const struct page *page, const struct node *node,
                       double y, const struct text_style *style, int tag)
{
    struct strip *strip = &flow->strips[flow->strip_count - 1];
    flow_text(flow, flow->width, y, style, tag, "");
    strip->links = (struct span){.first = flow->link_count, .count = 1};
    *ARENA_PUSH(flow->scratch, flow->links, flow->link_count) =
        (struct flow_link){.to_page = page,
                           .to_anchor = node->anchor ? node->anchor : "",
                           .tag = tag,
                           .width = flow->width,
                           .height = style->leading,
                           .numbered = true,
                           .number_piece = flow->piece_count - 1,
                           .number_right = flow->width};
}

static void put_entry(struct flow *flow, const struct page *page, const struct node *node,
                      int tag)
{
    const struct type_scale *type = flow->type;
    bool chapter = node->level == 1;
    struct text_style style = {.face = chapter ? FACE_BOLD : FACE_REGULAR,
                               .size = type->body,
                               .leading = CLOSER * type->leading};
    struct area area = {.x = chapter ? 0 : 1.2 * type->body};
    area.width = flow->width - NUMBER_ROOM - area.x;
    int link = flow_tag(flow, TAG_LINK, flow_tag(flow, TAG_CONTENTS_ITEM, tag));
    flow_gap(flow, chapter ? type->leading / 2 : 0);
    lines_put_plain(flow, node_plain_text(flow->scratch, node), area, &style, link);
    if (flow->lines.count == 0)
        return;
    size_t last = flow->lines.count - 1;
    double width =
        phrase_width(&flow->phrase, flow->lines.starts[last], flow->lines.starts[last + 1]);
    double y = flow_baseline(flow, &style);
    put_leader(flow, area.x + width + 0.5 * style.size, flow->width - NUMBER_ROOM + 4, y,
               &style);
    put_number(flow, page, node, y, &style, link);
    if (chapter)
        flow_cost(flow, BREAK_HEADING);
}

static void put_page_entries(struct flow *flow, const struct page *page, int tag)
{
    for (const struct node *node = page->root; node; node = node_following(page->root, node))
        if (node->kind == NODE_HEADING && node->level <= 2)
            put_entry(flow, page, node, tag);
}

/* Headings of levels 1 and 2 of these pages; the numbers are written when the links are
 * resolved. */
static void contents_put(struct flow *flow, const struct page *const *pages, size_t count,
                         int tag)
{
    struct node text = {.kind = NODE_TEXT, .text = "Contents"};
    struct node heading = {.kind = NODE_HEADING, .level = 1};
    node_append(&heading, &text);
    flow->page = NULL;
    flow->chapter = text.text;
    flow->turn = TURN_UPRIGHT;
    blocks_put(flow, &heading, NULL, (struct area){.width = flow->width}, tag);
    int contents = flow_tag(flow, TAG_CONTENTS, tag);
    for (size_t i = 0; i < count; i++)
        if (pages[i]->in_booklet)
            put_page_entries(flow, pages[i], contents);
}

/* ---- feet ---- */

static const double FOOT_SIZE = 7.5, NUMBER_SIZE = 10, FOOT_RULE = 0.4;

/* Above the sheet's lower edge, in points. */
static const double RULE_ABOVE = 38, LINE_ABOVE = 28, NOTICE_ABOVE = 19;

/* As much of the text as fits, with an ellipsis where some is left out. */
static const char *shorten(struct flow *flow, const char *text, enum face face, double room)
{
    if (fonts_width(flow->fonts, face, FOOT_SIZE, text) <= room)
        return text;
    room -= fonts_width(flow->fonts, face, FOOT_SIZE, "…");
    size_t fits = text_fitting(flow->fonts, face, FOOT_SIZE, text, strlen(text), room);
    while (fits && text[fits - 1] == ' ')
        fits--;
    return arena_format(flow->arena, "%.*s…", (int)fits, text);
}

/* Puts the foot under the sheet of that index; chapter: what it is part of. The number stands
 * at the outer edge, the settings at the fold. */
static void foot_put(struct flow *flow, const struct layout *layout, size_t index,
                     const struct imprint *imprint, const char *chapter)
{
    struct sheet *sheet = &flow->print->sheets[index];
    struct drawing drawing = {.arena = flow->arena,
                              .fonts = flow->fonts,
                              .print = flow->print,
                              .sheet = sheet,
                              .tag = -1};
    bool sideways = sheet_is_sideways(layout, sheet), right_hand = index % 2 == 0;
    double left = layout_left(layout, index, sideways);
    double width = sideways ? flow->sideways_width : flow->width, right = left + width;
    double y = sheet->height - LINE_ABOVE, gap = 2 * FOOT_SIZE;
    struct text_style style = {.size = FOOT_SIZE},
                      bold = {.face = FACE_BOLD, .size = FOOT_SIZE};
    struct text_style large = {.face = FACE_BOLD, .size = NUMBER_SIZE};
    const char *settings = arena_format(flow->arena, "settings %s", imprint->fingerprint);
    double number = fonts_width(flow->fonts, FACE_BOLD, NUMBER_SIZE, sheet->label);
    double beside = fonts_width(flow->fonts, FACE_REGULAR, FOOT_SIZE, settings);
    enum align outer = right_hand ? ALIGN_RIGHT : ALIGN_LEFT;
    chapter = shorten(flow, chapter, FACE_REGULAR, width - number - beside - 2 * gap);
    drawing_line(&drawing, left, sheet->height - RULE_ABOVE, width, 0, FOOT_RULE);
    drawing_text(&drawing, right_hand ? right : left, y, outer, &large, sheet->label);
    drawing_text(&drawing, right_hand ? right - number - gap : left + number + gap, y, outer,
                 &style, chapter);
    drawing_text(&drawing, right_hand ? left : right, y, right_hand ? ALIGN_LEFT : ALIGN_RIGHT,
                 &style, settings);
    if (imprint->notice)
        drawing_text(&drawing, left + width / 2, sheet->height - NOTICE_ABOVE, ALIGN_MIDDLE,
                     &bold, shorten(flow, imprint->notice, FACE_BOLD, width));
}

/* ---- the whole ---- */

struct booklet {
    struct flow flow;
    struct layout layout;
    const struct page *const *pages;
    size_t count;
    const struct imprint *imprint;
    size_t front; /* sheets before the first chapter */
    int document;
};

static void title_put(struct flow *flow, const char *title, int tag)
{
    struct text_style style = {
        .face = FACE_BOLD, .size = TITLE_SIZE, .leading = TITLE_SIZE * 1.2};
    flow_strip(flow, TITLE_DROP);
    int heading = flow_tag(flow, TAG_HEADING, tag);
    flow->print->tags[heading].level = 1;
    struct flow_anchor *anchor = flow_anchor(flow, "");
    anchor->level = 1;
    anchor->title = title;
    lines_put_plain(flow, title, (struct area){.width = flow->width}, &style, heading);
    flow_strip(flow, 8);
    flow_line(flow, 0, 4, flow->width, 0, 2);
    flow_gap(flow, flow->type->leading);
}

static void title_page_put(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct page *page = booklet->pages[0];
    const struct node *first = page->root->first;
    int section = flow_tag(flow, TAG_SECTION, booklet->document);
    flow->page = page;
    flow->chapter = booklet->imprint->title;
    title_put(flow, booklet->imprint->title, section);
    if (first && first->kind == NODE_HEADING) {
        flow_anchor(flow, first->anchor ? first->anchor : "");
        first = first->next;
    }
    imprint_notice_put(flow, booklet->imprint, section);
    blocks_put(flow, first, NULL, (struct area){.width = flow->width}, section);
    imprint_foot_put(flow, booklet->imprint, INPUTS_SIZE, false, section);
}

static void chapter_put(struct booklet *booklet, const struct page *page)
{
    struct flow *flow = &booklet->flow;
    flow->page = page;
    flow->chapter = page->title ? page->title : "";
    flow->opens = true;
    flow_gap(flow, CHAPTER_GAP * flow->type->leading);
    flow_anchor(flow, "");
    blocks_put(flow, page->root->first, NULL, (struct area){.width = flow->width},
               flow_tag(flow, TAG_SECTION, booklet->document));
    flow->gap = 0;
    flow->cost = BREAK_FREE;
}

/* A left-hand sheet with lines to write on, so that the chapters begin on a right. */
static void notes_sheet_put(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct type_scale *type = flow->type;
    struct text_style style = {
        .face = FACE_BOLD, .size = type->heading[1], .leading = type->heading_leading[1]};
    int section = flow_tag(flow, TAG_SECTION, booklet->document);
    flow->turn = TURN_UPRIGHT;
    flow->chapter = "Notes";
    flow_strip(flow, flow->height);
    flow_text(flow, 0, flow_baseline(flow, &style), &style,
              flow_tag(flow, TAG_PARAGRAPH, section), "Notes");
    for (double y = style.leading + WRITING_PITCH; y <= flow->height; y += WRITING_PITCH)
        flow_line(flow, 0, y, flow->width, 0, 0.4);
}

static const char *roman(struct arena *arena, size_t number)
{
    struct buffer text = {0};
    roman_write(&text, (long)number);
    const char *label = arena_slice(arena, text.bytes, text.length);
    buffer_free(&text);
    return label;
}

static const char *label_of(struct arena *arena, size_t sheet, size_t front)
{
    return sheet < front ? roman(arena, sheet + 1)
                         : arena_format(arena, "%zu", sheet + 1 - front);
}

/* Every sheet's foot names the chapter that begins on it, or else goes on. */
static void put_feet(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    for (size_t i = 0; i < flow->strip_count;) {
        size_t sheet = flow->strips[i].sheet;
        const char *chapter = flow->strips[i].chapter;
        bool opened = false;
        for (; i < flow->strip_count && flow->strips[i].sheet == sheet; i++) {
            if (flow->strips[i].opens && !opened)
                chapter = flow->strips[i].chapter;
            opened |= flow->strips[i].opens;
        }
        foot_put(flow, &booklet->layout, sheet, booklet->imprint, chapter);
    }
}

/* Places the strips from first on, on sheets of their own. */
static void place_from(struct booklet *booklet, size_t first)
{
    struct flow *flow = &booklet->flow;
    flow_place(flow, &booklet->layout, first, flow->strip_count);
}

/* Title and contents, and what makes the first chapter begin on a right-hand sheet. */
static void put_front(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    booklet->document = flow_tag(flow, TAG_DOCUMENT, -1);
    title_page_put(booklet);
    contents_put(flow, booklet->pages + 1, booklet->count - 1, booklet->document);
    flow->cost = BREAK_FREE;
    place_from(booklet, 0);
    size_t first = flow->strip_count;
    if (flow->print->sheet_count % 2)
        notes_sheet_put(booklet);
    place_from(booklet, first);
    booklet->front = flow->print->sheet_count;
}

static void put_chapters(struct booklet *booklet)
{
    size_t first = booklet->flow.strip_count;
    for (size_t i = 1; i < booklet->count; i++)
        if (booklet->pages[i]->in_booklet)
            chapter_put(booklet, booklet->pages[i]);
    place_from(booklet, first);
}

/* What can be said once every strip has its sheet: numbers, feet, outline and links. */
static void finish_sheets(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    struct print *print = flow->print;
    for (size_t i = 0; i < print->sheet_count; i++)
        print->sheets[i].label = label_of(flow->arena, i, booklet->front);
    put_feet(booklet);
    flow_note_anchors(flow, 2);
    flow_resolve_links(flow);
}

struct print *compose_booklet(struct arena *arena, const struct page *const *pages,
                              size_t count, const struct imprint *imprint,
                              const struct fonts *fonts, enum paper_size size,
                              struct diags *diags)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct booklet booklet = {.layout = layout_booklet(paper_of(size)),
                              .pages = pages,
                              .count = count,
                              .imprint = imprint};
    print->title = imprint->title;
    booklet.flow = (struct flow){
        .arena = arena, .fonts = fonts, .diags = diags, .print = print, .type = &booklet_type};
    imprint_check(imprint, fonts, (struct place){.file = pages[0]->file}, diags);
    layout_apply(&booklet.layout, &booklet.flow, true);
    flow_begin(&booklet.flow);
    put_front(&booklet);
    put_chapters(&booklet);
    finish_sheets(&booklet);
    flow_end(&booklet.flow);
    return print;
}
