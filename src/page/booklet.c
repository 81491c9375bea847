#include "page/blocks.h"
#include "page/contents.h"
#include "page/cut.h"
#include "page/foot.h"
#include "page/imprint.h"
#include "page/print.h"
#include "tree/points.h"

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
    lines_read_plain(flow, title, &style, heading);
    lines_put(flow, (struct area){.width = flow->width}, &style);
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
