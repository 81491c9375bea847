/* A box with a thick black rule and a black bar over it: copies well. */
#include "page/blocks.h"

static const double PAD = 6, SIDE = 9;

static const char *bar_text(struct flow *flow, const struct node *node)
{
    bool titled = node->text && node->text[0];
    return titled ? arena_format(flow->scratch, "CAUTION: %s", node->text) : "CAUTION";
}

static void put_bar(struct flow *flow, const struct node *node, struct area area, int tag)
{
    const struct type_scale *type = flow->type;
    struct text_style white = {
        .face = FACE_BOLD, .size = type->body * 1.05, .leading = type->leading, .grey = 1};
    struct area inner = {area.x + SIDE, area.width - 2 * SIDE};
    lines_read_plain(flow, bar_text(flow, node), &white, flow_tag(flow, TAG_PARAGRAPH, tag));
    phrase_break(&flow->phrase, inner.width, &flow->lines);
    double height = (double)flow->lines.count * white.leading;
    flow_strip(flow, height);
    flow_box(flow, area.x, -PAD, area.width, height + PAD + 3, 0);
    lines_put_all(flow, inner, -(PAD - 3) / 2, ALIGN_LEFT, &white);
    flow_cost(flow, BREAK_NEVER);
}

void caution_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    double leading = flow->type->leading;
    int section = flow_tag(flow, TAG_SECTION, tag);
    size_t first = flow->strip_count;
    flow_gap(flow, leading * 0.75);
    size_t frame = flow_frame_open(flow, FRAME_CAUTION, area, PAD);
    put_bar(flow, node, area, section);
    flow_gap(flow, leading * 0.6);
    blocks_put(flow, node->first, NULL, area_within(area, SIDE, SIDE), section);
    flow_frame_close(flow, frame);
    flow_keep(flow, first, flow->height);
    flow_gap(flow, leading * 0.75);
}
