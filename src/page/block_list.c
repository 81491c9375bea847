#include "page/blocks.h"

#include <string.h>

static int item_count(const struct node *list)
{
    int count = 0;
    for (const struct node *item = list->first; item; item = item->next)
        count++;
    return count;
}

static bool is_ordered(const struct node *list)
{
    return list->level > 0;
}

/* Lists in lists take turns with their bullets. */
static const char *bullet_of(const struct node *list)
{
    int depth = 0;
    for (const struct node *up = list->parent; up; up = up->parent)
        depth += up->kind == NODE_LIST && !is_ordered(up);
    return depth % 2 ? "–" : "•";
}

static const char *label_text(struct flow *flow, const struct node *list, int index)
{
    return is_ordered(list) ? arena_format(flow->arena, "%d.", list->level + index)
                            : bullet_of(list);
}

/* How far the items stand in: room for the widest label. */
static double indent_of(struct flow *flow, const struct node *list)
{
    double size = flow->type->body;
    const char *widest = label_text(flow, list, item_count(list) - 1);
    return fonts_width(flow->fonts, FACE_REGULAR, size, widest) + 0.9 * size;
}

static void add_label(struct flow *flow, const char *text, double right, int item)
{
    struct label *label = ARENA_PUSH(flow->scratch, flow->labels, flow->label_count);
    *label = (struct label){
        .text = text, .right = right, .tag = flow_tag(flow, TAG_ITEM_LABEL, item)};
}

static void put_item(struct flow *flow, const struct node *item, const char *text,
                     struct area area, int tag)
{
    struct text_style style = flow_body_style(flow);
    int item_tag = flow_tag(flow, TAG_ITEM, tag);
    add_label(flow, text, area.x - 0.5 * style.size, item_tag);
    blocks_put(flow, item->first, NULL, area, flow_tag(flow, TAG_ITEM_BODY, item_tag));
    lines_flush_labels(flow, &style);
}

/* Items of a tight list follow each other more closely than paragraphs do. */
static void close_gap(struct flow *flow, const struct node *list, size_t first, double gap)
{
    if (list->tight && first < flow->strip_count)
        flow->strips[first].gap = gap;
}

void list_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    double leading = flow->type->leading;
    int list = flow_tag(flow, TAG_LIST, tag), index = 0;
    int count = item_count(node);
    struct area inner = area_within(area, indent_of(flow, node), 0);
    flow_gap(flow, leading / 4);
    for (const struct node *item = node->first; item; item = item->next, index++) {
        size_t first = flow->strip_count;
        if (index == 1 || (index > 0 && index + 1 == count))
            flow_cost(flow, BREAK_NEAR);
        put_item(flow, item, label_text(flow, node, index), inner, list);
        if (index > 0)
            close_gap(flow, node, first, leading / 8);
    }
    flow_gap(flow, leading / 2);
}
