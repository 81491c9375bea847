#include "layout/blocks.h"

#include "layout/drawing.h"
#include "layout/fields.h"
#include "layout/table.h"

#include <math.h>
#include <string.h>

/* Blocks of a tree into the flow: headings, paragraphs, lists, quotes, literal lines, figures,
 * cautions; tables and places to write in are put by files of their own. Blocks hold blocks, so
 * blocks_put() is called again by what it calls; the reader lets few nest. */

static const double LEAST_MEASURE = 90; /* points: some four words */

static const double QUOTE_PAD = 1;

/* The area without `left` at its left and `right` at its right; so deep in a nest that little
 * is left, it goes no further in. */
static struct area area_within(struct area area, double left, double right)
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

/* ---- headings and paragraphs ---- */

/* Blank above and below a heading, as shares of the body's leading. */
static const double above[] = {1.5, 1.5, 1, 0.75}, below[] = {0.75, 0.5, 0.25, 0.25};

/* A heading over a thin rule, where it opens a chapter. */
static void put_heading_rule(struct flow *flow, struct area area)
{
    flow_cost(flow, BREAK_NEVER);
    flow->gap = 0;
    flow_strip(flow, flow->type->leading / 4);
    flow_line(flow, area.x, flow->type->leading / 4, area.width, 0, 0.8);
}

static void heading_put(struct flow *flow, const struct node *node, struct area area, int tag)
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
    flow_hold(flow, first + 1);
    if (level == 1)
        put_heading_rule(flow, area);
    flow_gap(flow, below[level - 1] * type->leading);
    flow_cost(flow, BREAK_HEADING);
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

/* ---- lists ---- */

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

static void list_put(struct flow *flow, const struct node *node, struct area area, int tag)
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

/* ---- lines that stand as they are, in a thin frame: a grey ground would spoil a
 * black-and-white print ---- */

static const double PAD_X = 7, PAD_Y = 4;

static const char goes_on[] = "↳"; /* before the rest of a line that had to be divided */

/* Type may be so much smaller, points, where that saves dividing lines. */
static const double SMALLER = 1, LITERAL_STEP = 0.25;

enum { FEW_LINES = 6 };

/* Bytes of the text that fit: up to a blank or a comma where there is one, else to a sign. */
static size_t literal_fitting(const struct flow *flow, const struct text_style *style,
                              const char *text, size_t length, double measure)
{
    size_t fits = text_fitting(flow->fonts, style->face, style->size, text, length, measure);
    for (size_t at = fits, margin = strspn(text, " "); fits < length && at > margin; at--)
        if (strchr(" ,", text[at - 1]))
            return at;
    return fits;
}

static void put_literal_line(struct flow *flow, const struct text_style *style,
                             const char *text, size_t length, struct area area, int tag)
{
    double y = flow_baseline(flow, style), indent = 0;
    do {
        size_t fits = literal_fitting(flow, style, text, length, area.width - indent);
        if (indent > 0)
            flow_cost(flow, BREAK_NEVER);
        flow_strip(flow, style->leading);
        if (indent > 0)
            flow_text(flow, area.x + 0.4 * style->size, y, style, -1, goes_on);
        if (fits)
            flow_text(flow, area.x + indent, y, style, tag,
                      arena_slice(flow->arena, text, fits));
        text += fits;
        length -= fits;
        indent = 2 * style->size;
    } while (length);
}

static double widest_line(const struct flow *flow, const struct text_style *style,
                          const char *text)
{
    double widest = 0;
    while (*text) {
        size_t length = strcspn(text, "\n");
        widest =
            fmax(widest, fonts_width_of(flow->fonts, style->face, style->size, text, length));
        text += length + (text[length] == '\n');
    }
    return widest;
}

/* The largest style in which no line is divided; the plain one where there is none. */
static struct text_style style_for(const struct flow *flow, const char *text, double measure)
{
    double size = flow->type->literal, least = size - SMALLER;
    struct text_style style = {.face = FACE_MONO, .size = size, .leading = size * 1.4};
    double widest = widest_line(flow, &style, text) / size;
    while (size > least && widest * size > measure)
        size -= LITERAL_STEP;
    if (widest * size <= measure)
        style.size = size;
    return style;
}

static void put_literal(struct flow *flow, const struct text_style *style, const char *text,
                        struct area area, int tag)
{
    while (*text) {
        size_t length = strcspn(text, "\n");
        put_literal_line(flow, style, text, length, area, tag);
        text += length + (text[length] == '\n');
    }
}

/* Both of the first and of the last lines stay together, few lines all of them, and what is
 * left of a divided line stays with its beginning. */
static void set_literal_costs(struct flow *flow, size_t first)
{
    size_t count = flow->strip_count - first;
    for (size_t i = 1; i < count; i++)
        if ((i == 1 || i + 1 == count || count <= FEW_LINES) &&
            flow->strips[first + i].cost < BREAK_WIDOW)
            flow->strips[first + i].cost = BREAK_WIDOW;
}

static void literal_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    const struct type_scale *type = flow->type;
    struct area inner = area_within(area, PAD_X, PAD_X);
    struct text_style style = style_for(flow, node->text, inner.width);
    int literal = flow_tag(flow, TAG_LITERAL, tag);
    flow_gap(flow, type->leading / 2);
    size_t frame = flow_frame_open(flow, FRAME_LITERAL, area, PAD_Y);
    size_t first = flow->strip_count;
    put_literal(flow, &style, node->text, inner, literal);
    set_literal_costs(flow, first);
    if (first < flow->strip_count)
        flow->strips[first].cost = BREAK_NEVER;
    flow_frame_close(flow, frame);
    flow_gap(flow, type->leading / 2);
}

/* ---- figures: as wide as the column, the caption below; not divided ---- */

/* Lines and texts should look alike in all figures: none is made much larger. */
static const double MOST_SCALE = 1.15;

static double scale_of(const struct figure *figure, double width)
{
    return figure->to_scale ? 1 : fmin(MOST_SCALE, width / figure->width);
}

static double least_text(const struct figure *figure)
{
    double least = INFINITY;
    for (size_t i = 0; i < figure->text_count; i++)
        least = fmin(least, figure->texts[i].size);
    return least;
}

static void put_figure_caption(struct flow *flow, const char *text, struct area area, int tag)
{
    double size = fmax(flow->type->note, FIGURE_LEAST_TEXT);
    struct text_style style = {.size = size, .leading = size * 1.25};
    size_t first = flow->strip_count;
    flow_gap(flow, style.size * 0.5);
    lines_put_plain(flow, text, area, &style, flow_tag(flow, TAG_CAPTION, tag));
    flow_hold(flow, first);
}

static void put_drawing(struct flow *flow, const struct figure *figure, struct area area,
                        double scale, int tag)
{
    double x = area.x + fmax(0, (area.width - scale * figure->width) / 2);
    int drawing = flow_tag(flow, TAG_FIGURE, tag);
    flow->print->tags[drawing].alternative = arena_text(flow->arena, figure->description);
    flow_strip(flow, scale * figure->height);
    size_t count;
    const struct piece *pieces =
        figure_pieces(flow->scratch, flow->fonts, figure, x, 0, scale, drawing, &count);
    for (size_t i = 0; i < count; i++)
        flow_piece(flow, pieces[i]);
}

static void report_figure(struct flow *flow, const struct figure *figure)
{
    flow->failed = true;
    if (!flow->trial)
        fault(flow->diags, figure->at,
              "the figure '%s' does not fit the page in a size that can be read; take a "
              "larger paper, or leave the figure out",
              figure->name);
}

static void figure_put(struct flow *flow, const struct figure *figure, struct area area,
                       int tag)
{
    double scale = scale_of(figure, area.width);
    size_t first = flow->strip_count;
    flow_anchor(flow, figure->name);
    put_drawing(flow, figure, area, scale, tag);
    put_figure_caption(flow, figure->caption, area, tag);
    if (scale * figure->width > area.width + 0.01 ||
        scale * least_text(figure) < FIGURE_LEAST_TEXT ||
        flow_height(flow, first, flow->strip_count) > flow->height)
        report_figure(flow, figure);
}

/* ---- cautions: a box with a thick black rule and a black bar over it, which copies well ----
 */

static const double CAUTION_PAD = 6, CAUTION_SIDE = 9;

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
    struct area inner = {area.x + CAUTION_SIDE, area.width - 2 * CAUTION_SIDE};
    lines_read_plain(flow, bar_text(flow, node), &white, flow_tag(flow, TAG_PARAGRAPH, tag));
    phrase_break(&flow->phrase, inner.width, &flow->lines);
    double height = (double)flow->lines.count * white.leading;
    flow_strip(flow, height);
    flow_box(flow, area.x, -CAUTION_PAD, area.width, height + CAUTION_PAD + 3, 0);
    lines_put_all(flow, inner, -(CAUTION_PAD - 3) / 2, ALIGN_LEFT, &white);
    flow_cost(flow, BREAK_NEVER);
}

static void caution_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    double leading = flow->type->leading;
    int section = flow_tag(flow, TAG_SECTION, tag);
    size_t first = flow->strip_count;
    flow_gap(flow, leading * 0.75);
    size_t frame = flow_frame_open(flow, FRAME_CAUTION, area, CAUTION_PAD);
    put_bar(flow, node, area, section);
    flow_gap(flow, leading * 0.6);
    blocks_put(flow, node->first, NULL, area_within(area, CAUTION_SIDE, CAUTION_SIDE), section);
    flow_frame_close(flow, frame);
    flow_keep(flow, first, flow->height);
    flow_gap(flow, leading * 0.75);
}

/* ---- what sheets say of themselves ---- */

static const double BOX_PAD = 5, BOX_SIDE = 8;

void imprint_notice_put(struct flow *flow, const struct imprint *imprint, int tag)
{
    if (!imprint->notice)
        return;
    double size = flow->type->body * 1.1;
    struct text_style style = {.face = FACE_BOLD, .size = size, .leading = size * 1.3};
    struct area area = {.width = flow->width};
    flow_gap(flow, flow->type->leading);
    size_t frame = flow_frame_open(flow, FRAME_NOTICE, area, BOX_PAD);
    lines_put_plain(flow, imprint->notice, area_within(area, BOX_SIDE, BOX_SIDE), &style,
                    flow_tag(flow, TAG_PARAGRAPH, tag));
    flow_frame_close(flow, frame);
    flow_gap(flow, flow->type->leading);
}

static void put_imprint_line(struct flow *flow, const char *text, double size, enum face face,
                             int tag)
{
    struct text_style style = {.face = face, .size = size, .leading = size * 1.25};
    lines_put_plain(flow, text, (struct area){.width = flow->width}, &style,
                    flow_tag(flow, TAG_PARAGRAPH, tag));
}

void imprint_foot_put(struct flow *flow, const struct imprint *imprint, double size,
                      bool with_notice, int tag)
{
    size_t first = flow->strip_count;
    flow_gap(flow, size);
    flow->at_foot = true;
    flow_strip(flow, size * 0.4);
    flow_line(flow, 0, 0, flow->width, 0, 0.4);
    if (with_notice && imprint->notice)
        put_imprint_line(flow, imprint->notice, size * 1.15, FACE_BOLD, tag);
    put_imprint_line(flow, imprint_inputs(flow->arena, imprint), size, FACE_REGULAR, tag);
    flow_hold(flow, first + 1);
}

/* ---- all blocks ---- */

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
    default: /* pages and items are met by those that hold them; inlines by lines_read() */
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
