/* The booklet: title page, contents, chapters. All strips are placed first, then sheets get
 * their numbers and feet, and what leads to a sheet learns its number. */
#include "doc/canvas.h"
#include "layout/blocks.h"
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

/* Of the blank between paragraphs. */
static const double GIVE = 0.4;

static const double TITLE_SIZE = 28, TITLE_DROP = 52, INPUTS_SIZE = 8;

/* Blank above a chapter that begins below the end of another; lines. */
static const double CHAPTER_GAP = 3;

static const double WRITING_PITCH = 8 * MM;

/* ---- contents ---- */

static const double NUMBER_ROOM = 26;

/* Lines to look through stand closer than lines to read. */
static const double CLOSER = 12.0 / 13;

/* Dots from the text to the number; they stand on one grid in every line. */
static void put_leader(struct flow *flow, double from, double to, double y, double size)
{
    struct text_style look = {.size = size};
    int count = (int)((to - from) / fonts_width(flow->fonts, FACE_REGULAR, size, ". "));
    if (count < 2)
        return;
    struct buffer dots = {0};
    for (int i = 0; i < count; i++)
        buffer_text(&dots, i ? " ." : ".");
    flow_text(flow, to, y, ALIGN_RIGHT, &look, -1,
              arena_slice(flow->arena, dots.bytes, dots.length));
    buffer_free(&dots);
}

/* A heading, dots, and the still empty piece for the number; the whole last line leads there.
 */
static void put_entry(struct flow *flow, const struct page *page, const struct node *node)
{
    const struct type_scale *type = flow->type;
    bool chapter = node->level == 1;
    struct text_style style = {.face = chapter ? FACE_BOLD : FACE_REGULAR,
                               .size = type->body,
                               .leading = CLOSER * type->leading};
    double indent = chapter ? 0 : 1.2 * type->body, y = flow_baseline(flow, &style);
    int link = flow_tag(flow, TAG_LINK, flow_tag(flow, TAG_CONTENTS_ITEM, flow->tag));
    flow->area = (struct area){indent, flow->width - NUMBER_ROOM - indent};
    flow_gap(flow, chapter ? type->leading / 2 : 0);
    lines_read_plain(flow, node_plain_text(flow->scratch, node), &style, link);
    lines_put(flow, &style);
    if (flow->lines.count == 0)
        return;
    const size_t *last = &flow->lines.starts[flow->lines.count - 1];
    double end = indent + phrase_width(&flow->phrase, last[0], last[1]);
    put_leader(flow, end + 0.5 * style.size, flow->width - NUMBER_ROOM + 4, y, style.size);
    flow_text(flow, flow->width, y, ALIGN_LEFT, &style, link, "");
    struct strip *strip = &flow->strips[flow->strip_count - 1];
    strip->links = (struct span){.first = flow->link_count, .count = 1};
    *ARENA_PUSH(flow->scratch, flow->links, flow->link_count) =
        (struct flow_link){.to_page = page,
                           .to_anchor = node->anchor ? node->anchor : "",
                           .tag = link,
                           .width = flow->width,
                           .height = style.leading,
                           .numbered = NUMBER_AT_RIGHT,
                           .number = strip->pieces.count - 1};
    if (chapter)
        flow_cost(flow, BREAK_HEADING);
}

/* Headings of levels 1 and 2 of these pages; the numbers are written when the links are
 * resolved. */
static void contents_put(struct flow *flow, const struct page *const *pages, size_t count)
{
    struct node text = {.kind = NODE_TEXT, .text = "Contents"};
    struct node heading = {.kind = NODE_HEADING, .level = 1};
    struct area outer = flow->area;
    node_append(&heading, &text);
    flow->page = NULL;
    flow->chapter = text.text;
    flow->turn = TURN_UPRIGHT;
    blocks_put(flow, &heading, NULL);
    flow->tag = flow_tag(flow, TAG_CONTENTS, DOCUMENT);
    for (size_t i = 0; i < count; i++) {
        const struct node *root = pages[i]->root;
        for (const struct node *node = root; pages[i]->in_booklet && node;
             node = node_following(root, node))
            if (node->kind == NODE_HEADING && node->level <= 2)
                put_entry(flow, pages[i], node);
    }
    flow->area = outer;
    flow->tag = DOCUMENT;
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
static void foot_put(struct flow *flow, size_t index, const struct imprint *imprint,
                     const char *chapter)
{
    struct sheet *sheet = &flow->print->sheets[index];
    struct drawing drawing = {.arena = flow->arena,
                              .fonts = flow->fonts,
                              .print = flow->print,
                              .sheet = sheet,
                              .tag = -1};
    bool sideways = sheet->width > sheet->height, right_hand = index % 2 == 0;
    double left = layout_left(flow->layout, index, sideways);
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

/* Over a thick rule, on the first sheet. */
static void title_put(struct flow *flow, const char *title)
{
    struct text_style style = {
        .face = FACE_BOLD, .size = TITLE_SIZE, .leading = TITLE_SIZE * 1.2};
    flow_strip(flow, TITLE_DROP);
    int heading = flow_tag(flow, TAG_HEADING, flow->tag);
    flow->print->tags[heading].level = 1;
    struct flow_anchor *anchor = flow_anchor(flow, "");
    anchor->level = 1;
    anchor->title = title;
    lines_read_plain(flow, title, &style, heading);
    lines_put(flow, &style);
    flow_strip(flow, 8);
    flow_line(flow, 0, 4, flow->width, 0, 2);
    flow_gap(flow, flow->type->leading);
}

static void title_page_put(struct flow *flow, const struct page *page,
                           const struct imprint *imprint)
{
    const struct node *first = page->root->first;
    flow->tag = flow_tag(flow, TAG_SECTION, DOCUMENT);
    flow->page = page;
    flow->chapter = imprint->title;
    title_put(flow, imprint->title);
    if (first && first->kind == NODE_HEADING) {
        flow_anchor(flow, first->anchor ? first->anchor : "");
        first = first->next;
    }
    imprint_notice_put(flow, imprint);
    blocks_put(flow, first, NULL);
    imprint_foot_put(flow, imprint, INPUTS_SIZE, false);
    flow->tag = DOCUMENT;
}

static void chapter_put(struct flow *flow, const struct page *page)
{
    flow->page = page;
    flow->chapter = page->title ? page->title : "";
    flow->opens = true;
    flow_gap(flow, CHAPTER_GAP * flow->type->leading);
    flow_anchor(flow, "");
    flow->tag = flow_tag(flow, TAG_SECTION, DOCUMENT);
    blocks_put(flow, page->root->first, NULL);
    flow->gap = 0;
    flow->cost = BREAK_FREE;
}

/* A left-hand sheet with lines to write on, so that the chapters begin on a right. */
static void notes_sheet_put(struct flow *flow)
{
    const struct type_scale *type = flow->type;
    struct text_style style = {
        .face = FACE_BOLD, .size = type->heading[1], .leading = type->heading_leading[1]};
    int section = flow_tag(flow, TAG_SECTION, DOCUMENT);
    flow->turn = TURN_UPRIGHT;
    flow->chapter = "Notes";
    flow_strip(flow, flow->height);
    flow_text(flow, 0, flow_baseline(flow, &style), ALIGN_LEFT, &style,
              flow_tag(flow, TAG_PARAGRAPH, section), "Notes");
    for (double y = style.leading + WRITING_PITCH; y <= flow->height; y += WRITING_PITCH)
        flow_line(flow, 0, y, flow->width, 0, 0.4);
}

/* Small Roman figures: "iv". */
static const char *roman(struct arena *arena, size_t number)
{
    static const struct {
        size_t worth;
        const char *figures;
    } steps[] = {{1000, "m"}, {900, "cm"}, {500, "d"}, {400, "cd"}, {100, "c"},
                 {90, "xc"},  {50, "l"},   {40, "xl"}, {10, "x"},   {9, "ix"},
                 {5, "v"},    {4, "iv"},   {1, "i"}};
    const char *text = "";
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
        for (; number >= steps[i].worth; number -= steps[i].worth)
            text = arena_format(arena, "%s%s", text, steps[i].figures);
    return text;
}

/* Sheets before the first chapter have Roman numbers. */
static void number_sheets(struct arena *arena, const struct print *print, size_t front)
{
    for (size_t i = 0; i < print->sheet_count; i++) {
        struct sheet *sheet = &print->sheets[i];
        sheet->roman = i < front ? i + 1 : 0;
        sheet->label =
            i < front ? roman(arena, i + 1) : arena_format(arena, "%zu", i + 1 - front);
    }
}

/* Every sheet's foot names the chapter that begins on it, or else goes on. */
static void put_feet(struct flow *flow, const struct imprint *imprint)
{
    for (size_t i = 0; i < flow->strip_count;) {
        size_t sheet = flow->strips[i].sheet;
        const char *chapter = flow->strips[i].chapter;
        bool opened = false;
        for (; i < flow->strip_count && flow->strips[i].sheet == sheet; i++) {
            if (flow->strips[i].opens && !opened)
                chapter = flow->strips[i].chapter;
            opened |= flow->strips[i].opens;
        }
        foot_put(flow, sheet, imprint, chapter);
    }
}

static struct layout booklet_layout(enum paper_size size)
{
    const struct paper *paper = paper_of(size);
    return (struct layout){.width = paper->width,
                           .height = paper->height,
                           .margins = paper->booklet,
                           .give = GIVE,
                           .turning = true};
}

void booklet_check(struct arena *arena, const struct page *const *pages, size_t count,
                   const struct imprint *imprint, const struct fonts *fonts,
                   enum paper_size size, struct diags *diags)
{
    struct print print = {0};
    struct layout layout = booklet_layout(size);
    struct flow flow = {.arena = arena,
                        .fonts = fonts,
                        .diags = diags,
                        .print = &print,
                        .type = &booklet_type,
                        .dry = true};
    imprint_check(imprint, fonts, (struct place){.file = pages[0]->file}, diags);
    flow_begin(&flow, &layout);
    for (size_t i = 0; i < count; i++)
        if (pages[i]->in_booklet)
            chapter_put(&flow, pages[i]);
    flow_end(&flow);
}

struct print *compose_booklet(struct arena *arena, const struct page *const *pages,
                              size_t count, const struct imprint *imprint,
                              const struct fonts *fonts, enum paper_size size,
                              struct diags *diags)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct layout layout = booklet_layout(size);
    struct flow flow = {.arena = arena,
                        .fonts = fonts,
                        .diags = diags,
                        .print = print,
                        .type = &booklet_type,
                        .names_pages = true};
    print->title = imprint->title;
    imprint_check(imprint, fonts, (struct place){.file = pages[0]->file}, diags);
    flow_begin(&flow, &layout);
    title_page_put(&flow, pages[0], imprint);
    contents_put(&flow, pages + 1, count - 1);
    flow.cost = BREAK_FREE;
    flow_place(&flow);
    if (print->sheet_count % 2)
        notes_sheet_put(&flow);
    flow_place(&flow);
    size_t front = print->sheet_count;
    for (size_t i = 1; i < count; i++)
        if (pages[i]->in_booklet)
            chapter_put(&flow, pages[i]);
    flow_place(&flow);
    number_sheets(arena, print, front);
    put_feet(&flow, imprint);
    flow_resolve(&flow, 2);
    flow_end(&flow);
    return print;
}
