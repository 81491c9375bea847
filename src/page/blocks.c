#include "page/blocks.h"

#include "page/fields.h"
#include "page/table.h"

#include <string.h>

static const double LEAST_MEASURE = 90; /* points: some four words */
static const double QUOTE_PAD = 1;

struct text_style body_style(const struct flow *flow)
{
    return (struct text_style){.size = flow->type->body, .leading = flow->type->leading};
}

struct area area_within(struct area area, double left, double right)
{
    struct area inner = {.x = area.x + left, .width = area.width - left - right};
    if (inner.width < LEAST_MEASURE) {
        inner.x -= LEAST_MEASURE - inner.width;
        inner.width = LEAST_MEASURE;
    }
    if (inner.x < area.x - left)
        inner.x = area.x;
    return inner;
}

static bool ends_with_colon(const struct node *node)
{
    while (node->last)
        node = node->last;
    size_t length = node->text ? strlen(node->text) : 0;
    return node->kind == NODE_TEXT && length && node->text[length - 1] == ':';
}

static bool is_led_to(const struct node *node)
{
    return node->kind == NODE_LIST || node->kind == NODE_TABLE || node->kind == NODE_LITERAL ||
           node->kind == NODE_QUOTE || node->kind == NODE_FIGURE;
}

static bool is_table_or_figure(const struct node *node)
{
    return node->kind == NODE_TABLE || node->kind == NODE_FIGURE;
}

/* What is read next: behind the last item of a list, what stands behind the list. */
static const struct node *read_next(const struct node *node)
{
    while (!node->next && node->parent &&
           (node->parent->kind == NODE_ITEM || node->parent->kind == NODE_LIST))
        node = node->parent;
    return node->next;
}

/* How closely a paragraph holds what is behind it. "as follows:", a step and the line to
 * type for it, all that a heading has before its table: closely. */
static enum break_cost hold_of(const struct node *node, bool below_heading)
{
    const struct node *next = node->next, *led_to = read_next(node);
    if (led_to && is_led_to(led_to) && ends_with_colon(node))
        return BREAK_LEAD;
    if (!next)
        return BREAK_FREE;
    if (next->kind == NODE_LITERAL && node->parent && node->parent->kind == NODE_ITEM)
        return BREAK_LEAD;
    if (!is_table_or_figure(next))
        return BREAK_FREE;
    return below_heading ? BREAK_LEAD : BREAK_NEAR;
}

static void paragraph_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    struct text_style style = flow_body_style(flow);
    bool below_heading = flow->cost == BREAK_HEADING;
    flow_gap(flow, style.leading / 2);
    lines_read(flow, node, &style, flow_tag(flow, TAG_PARAGRAPH, tag));
    lines_put(flow, area, &style);
    flow_gap(flow, style.leading / 2);
    flow_cost(flow, hold_of(node, below_heading));
}

static void quote_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    double half = flow->type->leading / 2;
    flow_gap(flow, half);
    size_t frame = flow_frame_open(flow, FRAME_QUOTE, area, QUOTE_PAD);
    size_t first = flow->strip_count;
    blocks_put(flow, node->first, NULL, area_within(area, half * 2, half), tag);
    if (first < flow->strip_count)
        flow->strips[first].gap = 0;
    flow_frame_close(flow, frame);
    flow_gap(flow, half);
}

static void rule_put(struct flow *flow, struct area area)
{
    double leading = flow->type->leading;
    flow_strip(flow, leading);
    flow_line(flow, area.x, leading / 2, area.width, 0, 0.5);
}

static void table_node_put(struct flow *flow, const struct node *node, struct area area,
                           int tag)
{
    if (!node->table)
        return;
    bool framed = flow->inset > 0;
    struct area whole = {.width = flow->width};
    flow_gap(flow, flow->type->leading * 0.75);
    if (node->table->blank)
        grid_put(flow, node->table, framed ? area : whole, tag);
    else
        table_put(flow, node->table, framed ? area : whole, tag);
    flow_gap(flow, flow->type->leading);
}

static void figure_node_put(struct flow *flow, const struct node *node, struct area area,
                            int tag)
{
    struct area whole = {.width = flow->width};
    if (!node->figure)
        return;
    flow_gap(flow, flow->type->leading);
    figure_put(flow, node->figure, flow->inset > 0 ? area : whole, tag);
    flow_gap(flow, flow->type->leading);
}

static void block_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    struct text_style style = flow_body_style(flow);
    switch (node->kind) {
    case NODE_HEADING:
        heading_put(flow, node, area, tag);
        break;
    case NODE_PARAGRAPH:
        paragraph_put(flow, node, area, tag);
        break;
    case NODE_LIST:
        list_put(flow, node, area, tag);
        break;
    case NODE_QUOTE:
        quote_put(flow, node, area, tag);
        break;
    case NODE_CAUTION:
        lines_flush_labels(flow, &style);
        caution_put(flow, node, area, tag);
        break;
    case NODE_TABLE:
        lines_flush_labels(flow, &style);
        table_node_put(flow, node, area, tag);
        break;
    case NODE_FIGURE:
        lines_flush_labels(flow, &style);
        figure_node_put(flow, node, area, tag);
        break;
    case NODE_FIELDS:
        lines_flush_labels(flow, &style);
        fields_put(flow, node, area, tag);
        break;
    case NODE_LITERAL:
        lines_flush_labels(flow, &style);
        literal_put(flow, node, area, tag);
        break;
    case NODE_RULE:
        rule_put(flow, area);
        break;
    default: /* pages and items are met by those that hold them; inlines in lines.c */
        break;
    }
}

/* Blocks hold blocks, so this recurses; the reader lets few nest. */
void blocks_put(struct flow *flow, const struct node *first, const struct node *end,
                struct area area, int tag)
{
    for (const struct node *node = first; node && node != end; node = node->next)
        block_put(flow, node, area, tag);
}
