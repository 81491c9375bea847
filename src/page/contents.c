#include "page/contents.h"

#include "page/blocks.h"

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
    lines_read_plain(flow, node_plain_text(flow->scratch, node), &style, link);
    lines_put(flow, area, &style);
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

static void put_page(struct flow *flow, const struct page *page, int tag)
{
    for (const struct node *node = page->root; node; node = node_following(page->root, node))
        if (node->kind == NODE_HEADING && node->level <= 2)
            put_entry(flow, page, node, tag);
}

void contents_put(struct flow *flow, const struct page *const *pages, size_t count, int tag)
{
    struct node text = {.kind = NODE_TEXT, .text = "Contents"};
    struct node heading = {.kind = NODE_HEADING, .level = 1};
    node_append(&heading, &text);
    flow->page = NULL;
    flow->chapter = text.text;
    flow->turn = TURN_UPRIGHT;
    heading_put(flow, &heading, (struct area){.width = flow->width}, tag);
    int contents = flow_tag(flow, TAG_CONTENTS, tag);
    for (size_t i = 0; i < count; i++)
        if (pages[i]->in_booklet)
            put_page(flow, pages[i], contents);
}
