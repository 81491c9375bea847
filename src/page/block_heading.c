#include "page/blocks.h"

/* Blank above and below a heading, as shares of the body's leading. */
static const double above[] = {1.5, 1.5, 1, 0.75}, below[] = {0.75, 0.5, 0.25, 0.25};

/* A heading over a thin rule, where it opens a chapter. */
static void put_rule(struct flow *flow, struct area area)
{
    flow_cost(flow, BREAK_NEVER);
    flow->gap = 0;
    flow_strip(flow, flow->type->leading / 4);
    flow_line(flow, area.x, flow->type->leading / 4, area.width, 0, 0.8);
}

void heading_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    int level = node->level < 1 ? 1 : node->level > 4 ? 4 : node->level;
    const struct type_scale *type = flow->type;
    struct text_style style = {.face = FACE_BOLD,
                               .size = type->heading[level - 1],
                               .leading = type->heading_leading[level - 1]};
    int heading = flow_tag(flow, TAG_HEADING, tag);
    flow->print->tags[heading].level = (unsigned char)level;
    flow_gap(flow, above[level - 1] * type->leading);
    struct flow_anchor *anchor = flow_anchor(flow, node->anchor ? node->anchor : "");
    anchor->level = level;
    anchor->title = node_plain_text(flow->arena, node);
    size_t first = flow->strip_count;
    lines_read(flow, node, &style, heading);
    lines_put(flow, area, &style);
    for (size_t i = first + 1; i < flow->strip_count; i++)
        flow->strips[i].cost = BREAK_NEVER;
    if (level == 1)
        put_rule(flow, area);
    flow_gap(flow, below[level - 1] * type->leading);
    flow_cost(flow, BREAK_HEADING);
}
