/* Blocks of a tree into the flow: headings, paragraphs, lists, quotes, literal lines, figures,
 * cautions, places to write in; tables are put by a file of their own. Blocks hold blocks, so
 * blocks_put() is called again by what it calls; the reader lets few nest. */
#include "layout/blocks.h"

#include "layout/drawing.h"
#include "layout/table.h"

#include <math.h>
#include <string.h>

static const double LEAST_MEASURE = 90; /* points: some four words */

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

/* Blocks in another area, below another tag. */
static void put_within(struct flow *flow, const struct node *first, struct area area, int tag)
{
    struct area outer = flow->area;
    int outer_tag = flow->tag;
    flow->area = area;
    flow->tag = tag;
    blocks_put(flow, first, NULL);
    flow->area = outer;
    flow->tag = outer_tag;
}

/* ---- headings and paragraphs ---- */

/* Blank above and below a heading, as shares of the body's leading. */
static const double above[] = {1.5, 1.5, 1, 0.75}, below[] = {0.75, 0.5, 0.25, 0.25};

static void heading_put(struct flow *flow, const struct node *node)
{
    int level = node->level < 1 ? 1 : node->level > 4 ? 4 : node->level;
    const struct type_scale *type = flow->type;
    struct text_style style = {.face = FACE_BOLD,
                               .size = type->heading[level - 1],
                               .leading = type->heading_leading[level - 1]};
    int heading = flow_tag(flow, TAG_HEADING, flow->tag);
    flow->print->tags[heading].level = (unsigned char)level;
    flow_gap(flow, above[level - 1] * type->leading);
    struct flow_anchor *anchor = flow_anchor(flow, node->anchor ? node->anchor : "");
    anchor->level = level;
    anchor->title = node_plain_text(flow->arena, node);
    size_t first = flow->strip_count;
    lines_read(flow, node, &style, heading);
    lines_put(flow, &style);
    flow_hold(flow, first + 1);
    if (level == 1) { /* it opens a chapter, over a thin rule */
        flow_cost(flow, BREAK_NEVER);
        flow->gap = 0;
        flow_strip(flow, type->leading / 4);
        flow_line(flow, flow->area.x, type->leading / 4, flow->area.width, 0, 0.8);
    }
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

static bool is_table_or_figure(const struct node *node)
{
    return node->kind == NODE_TABLE || node->kind == NODE_FIGURE;
}

static bool is_led_to(const struct node *node)
{
    return node->kind == NODE_LIST || node->kind == NODE_LITERAL || node->kind == NODE_QUOTE ||
           is_table_or_figure(node);
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

static void paragraph_put(struct flow *flow, const struct node *node)
{
    struct text_style style = flow_body_style(flow, FACE_REGULAR);
    bool below_heading = flow->cost == BREAK_HEADING;
    flow_gap(flow, style.leading / 2);
    lines_read(flow, node, &style, flow_tag(flow, TAG_PARAGRAPH, flow->tag));
    lines_put(flow, &style);
    flow_gap(flow, style.leading / 2);
    flow_cost(flow, hold_of(node, below_heading));
}

/* ---- lists ---- */

/* Lists in lists take turns with their bullets. */
static const char *label_text(struct flow *flow, const struct node *list, int index)
{
    int depth = 0;
    if (list->level > 0)
        return arena_format(flow->arena, "%d.", list->level + index);
    for (const struct node *up = list->parent; up; up = up->parent)
        depth += up->kind == NODE_LIST && up->level == 0;
    return depth % 2 ? "–" : "•";
}

/* The items stand in, so that the widest label has room. Those of a tight list follow each
 * other more closely than paragraphs do. */
static void list_put(struct flow *flow, const struct node *node)
{
    double leading = flow->type->leading, size = flow->type->body;
    int list = flow_tag(flow, TAG_LIST, flow->tag), index = 0, count = 0;
    for (const struct node *item = node->first; item; item = item->next)
        count++;
    const char *widest = label_text(flow, node, count - 1);
    double indent = fonts_width(flow->fonts, FACE_REGULAR, size, widest) + 0.9 * size;
    struct area inner = area_within(flow->area, indent, 0);
    flow_gap(flow, leading / 4);
    for (const struct node *item = node->first; item; item = item->next, index++) {
        size_t first = flow->strip_count;
        if (index == 1 || (index > 0 && index + 1 == count))
            flow_cost(flow, BREAK_NEAR);
        int tag = flow_tag(flow, TAG_ITEM, list);
        *ARENA_PUSH(flow->scratch, flow->labels, flow->label_count) =
            (struct label){.text = label_text(flow, node, index),
                           .right = inner.x - 0.5 * size,
                           .tag = flow_tag(flow, TAG_ITEM_LABEL, tag)};
        put_within(flow, item->first, inner, flow_tag(flow, TAG_ITEM_BODY, tag));
        lines_flush_labels(flow);
        if (index > 0 && node->tight && first < flow->strip_count)
            flow->strips[first].gap = leading / 8;
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
            flow_text(flow, area.x + 0.4 * style->size, y, ALIGN_LEFT, style, -1, goes_on);
        if (fits)
            flow_text(flow, area.x + indent, y, ALIGN_LEFT, style, tag,
                      arena_slice(flow->arena, text, fits));
        text += fits;
        length -= fits;
        indent = 2 * style->size;
    } while (length);
}

/* The next line of a text, whose length it gives; NULL behind the last. */
static const char *next_line(const char **text, size_t *length)
{
    const char *line = *text;
    *length = strcspn(line, "\n");
    *text += *length + (line[*length] == '\n');
    return *line ? line : NULL;
}

/* The largest style in which no line is divided; the plain one where there is none. */
static struct text_style style_for(const struct flow *flow, const char *text, double measure)
{
    double size = flow->type->literal, least = size - SMALLER, widest = 0;
    struct text_style style = {.face = FACE_MONO, .size = size, .leading = size * 1.4};
    size_t length;
    for (const char *line; (line = next_line(&text, &length));)
        widest = fmax(widest, fonts_width_of(flow->fonts, FACE_MONO, size, line, length));
    widest /= size;
    while (size > least && widest * size > measure)
        size -= LITERAL_STEP;
    if (widest * size <= measure)
        style.size = size;
    return style;
}

/* Both of the first and of the last lines stay together, few lines all of them, and what is
 * left of a divided line stays with its beginning. */
static void literal_put(struct flow *flow, const struct node *node)
{
    struct area inner = area_within(flow->area, PAD_X, PAD_X);
    struct text_style style = style_for(flow, node->text, inner.width);
    int literal = flow_tag(flow, TAG_LITERAL, flow->tag);
    flow_gap(flow, flow->type->leading / 2);
    size_t frame = flow_frame_open(flow, FRAME_LITERAL, PAD_Y), first = flow->strip_count;
    const char *text = node->text;
    size_t length;
    for (const char *line; (line = next_line(&text, &length));)
        put_literal_line(flow, &style, line, length, inner, literal);
    size_t count = flow->strip_count - first;
    for (size_t i = 0; i < count; i++) {
        enum break_cost *cost = &flow->strips[first + i].cost;
        if (i == 0)
            *cost = BREAK_NEVER;
        else if ((i == 1 || i + 1 == count || count <= FEW_LINES) && *cost < BREAK_WIDOW)
            *cost = BREAK_WIDOW;
    }
    flow_frame_close(flow, frame);
    flow_gap(flow, flow->type->leading / 2);
}

/* ---- figures: as wide as the column, the caption below; not divided ---- */

/* Lines and texts should look alike in all figures: none is made much larger. */
static const double MOST_SCALE = 1.15;

static void figure_put(struct flow *flow, const struct figure *figure)
{
    double scale = figure->to_scale ? 1 : fmin(MOST_SCALE, flow->area.width / figure->width);
    double size = fmax(flow->type->note, FIGURE_LEAST_TEXT), least = INFINITY;
    struct text_style caption = {.size = size, .leading = size * 1.25};
    double x = flow->area.x + fmax(0, (flow->area.width - scale * figure->width) / 2);
    size_t first = flow->strip_count, count;
    flow_anchor(flow, figure->name);
    int drawing = flow_tag(flow, TAG_FIGURE, flow->tag);
    flow->print->tags[drawing].alternative = arena_text(flow->arena, figure->description);
    flow_strip(flow, scale * figure->height);
    const struct piece *pieces =
        figure_pieces(flow->scratch, flow->fonts, figure, x, 0, scale, drawing, &count);
    for (size_t i = 0; i < count; i++)
        flow_piece(flow, pieces[i]);
    flow_gap(flow, size * 0.5);
    lines_put_plain(flow, TAG_CAPTION, figure->caption, &caption);
    flow_hold(flow, first + 1);
    for (size_t i = 0; i < figure->text_count; i++)
        least = fmin(least, figure->texts[i].size);
    if (scale * figure->width <= flow->area.width + 0.01 &&
        scale * least >= FIGURE_LEAST_TEXT &&
        flow_height(flow, first, flow->strip_count) <= flow->height)
        return;
    flow->failed = true;
    if (!flow->trial)
        fault(flow->diags, figure->at,
              "the figure '%s' does not fit the page in a size that can be read; take a "
              "larger paper, or leave the figure out",
              figure->name);
}

/* ---- cautions: a box with a thick black rule and a black bar over it, which copies well
 * ---- */

static const double CAUTION_PAD = 6, CAUTION_SIDE = 9;

static void put_bar(struct flow *flow, const char *title, int tag)
{
    const struct type_scale *type = flow->type;
    struct area area = flow->area;
    struct text_style white = {
        .face = FACE_BOLD, .size = type->body * 1.05, .leading = type->leading, .grey = 1};
    struct area inner = {area.x + CAUTION_SIDE, area.width - 2 * CAUTION_SIDE};
    const char *words =
        title && *title ? arena_format(flow->scratch, "CAUTION: %s", title) : "CAUTION";
    lines_read_plain(flow, words, &white, flow_tag(flow, TAG_PARAGRAPH, tag));
    phrase_break(&flow->phrase, inner.width, &flow->lines);
    double height = (double)flow->lines.count * white.leading;
    flow_strip(flow, height);
    flow_box(flow, area.x, -CAUTION_PAD, area.width, height + CAUTION_PAD + 3, 0);
    lines_put_all(flow, inner, -(CAUTION_PAD - 3) / 2, ALIGN_LEFT, &white);
    flow_cost(flow, BREAK_NEVER);
}

static void caution_put(struct flow *flow, const struct node *node)
{
    double leading = flow->type->leading;
    int section = flow_tag(flow, TAG_SECTION, flow->tag);
    size_t first = flow->strip_count;
    flow_gap(flow, leading * 0.75);
    size_t frame = flow_frame_open(flow, FRAME_CAUTION, CAUTION_PAD);
    put_bar(flow, node->text, section);
    flow_gap(flow, leading * 0.6);
    put_within(flow, node->first, area_within(flow->area, CAUTION_SIDE, CAUTION_SIDE), section);
    flow_frame_close(flow, frame);
    flow_keep(flow, first, flow->height);
    flow_gap(flow, leading * 0.75);
}

/* ---- places to write in: rows of boxes with a label in their corner, or of ruled lines ----
 */

static const double TICK_LINE = 0.8, BEFORE_WORDS = 4, BETWEEN = 11, TICK_PITCH = TICK_SIDE + 4;

static const struct text_style label_style = {.size = 8, .leading = 8 * 1.2};

static const double FIELD_PAD = 3, FIELD_RULE = 0.8, FIELD_AFTER = 7;

static const double LINE_GAP = 4, LINE_BETWEEN = 12, LINE_DROP = 5;

/* Boxes to tick, each before its words, from y downward in the strip that is there; or, not
 * put, only measured. Gives how high their lines are. Words wider than the area make
 * flow->failed. */
static double ticks(struct flow *flow, const struct form_field *field, struct area area,
                    double top, int tag, bool put)
{
    struct text_style style = flow_body_style(flow, FACE_REGULAR);
    double baseline = (TICK_SIDE + fonts_cap_height(flow->fonts) * style.size) / 2;
    double x = 0, y = 0;
    for (size_t i = 0; i < field->choice_count; i++) {
        const char *words = field->choices[i];
        double width = TICK_SIDE + BEFORE_WORDS +
                       fonts_width(flow->fonts, FACE_REGULAR, style.size, words);
        flow->failed |= width > area.width;
        if (x > 0 && x + width > area.width) {
            x = 0;
            y += TICK_PITCH;
        }
        if (put) {
            flow_box(flow, area.x + x, top + y, TICK_SIDE, TICK_SIDE, TICK_LINE);
            flow_text(flow, area.x + x + TICK_SIDE + BEFORE_WORDS, top + y + baseline,
                      ALIGN_LEFT, &style, tag, words);
            flow_blank_after(flow);
        }
        x += width + BETWEEN;
    }
    return y + TICK_SIDE;
}

static double put_field_text(struct flow *flow, const char *text,
                             const struct text_style *style, struct area area, double y,
                             int tag)
{
    double height = lines_measure(flow, text, style, area.width, tag);
    lines_put_all(flow, area, y, ALIGN_LEFT, style);
    if (flow->lines.count)
        flow_blank_after(flow);
    return y + height;
}

static double box_height(struct flow *flow, const struct form_field *field, double width)
{
    struct text_style value = flow_body_style(flow, FACE_BOLD);
    double height = lines_measure(flow, field->label, &label_style, width, -1);
    if (field->value)
        height += lines_measure(flow, field->value, &value, width, -1);
    else if (field->choice_count)
        height += FIELD_PAD + ticks(flow, field, (struct area){.width = width}, 0, -1, false);
    else
        height += flow->type->writing_room - 2 * FIELD_PAD - 1;
    return height + 2 * FIELD_PAD;
}

static void put_box(struct flow *flow, const struct form_field *field, struct area area,
                    double height, int tag)
{
    struct text_style value = flow_body_style(flow, FACE_BOLD);
    struct area inner = {area.x + FIELD_PAD, area.width - 2 * FIELD_PAD};
    double y = put_field_text(flow, field->label, &label_style, inner, FIELD_PAD - 1, tag);
    flow_box(flow, area.x, 0, area.width, height, FIELD_RULE);
    if (field->value)
        put_field_text(flow, field->value, &value, inner, y, tag);
    else if (field->choice_count)
        ticks(flow, field, inner, y + FIELD_PAD, tag, true);
    else if (field->unit)
        flow_text(flow, inner.x + inner.width, height - FIELD_PAD - 1, ALIGN_RIGHT,
                  &label_style, tag, field->unit);
}

static void put_line(struct flow *flow, const struct form_field *field, struct area area,
                     double y, int tag)
{
    struct text_style style = flow_body_style(flow, FACE_REGULAR),
                      value = flow_body_style(flow, FACE_BOLD);
    double from = area.x, to = area.x + area.width;
    if (*field->label) {
        flow_text(flow, from, y, ALIGN_LEFT, &style, tag, field->label);
        from += fonts_width(flow->fonts, style.face, style.size, field->label) + LINE_GAP;
    }
    if (field->unit) {
        flow_text(flow, to, y, ALIGN_RIGHT, &style, tag, field->unit);
        to -= fonts_width(flow->fonts, style.face, style.size, field->unit) + LINE_GAP;
    }
    if (field->value) {
        flow_text(flow, from, y, ALIGN_LEFT, &value, tag, field->value);
        flow->failed |= from + fonts_width(flow->fonts, value.face, value.size, field->value) >
                        area.x + area.width;
    } else {
        flow->failed |= to - from < flow->type->writing_room;
        flow_line(flow, from, y + 1, to - from, 0, FIELD_RULE);
    }
}

/* One row, its places as wide as they were given shares; between two lines is a blank. */
static void put_fields(struct flow *flow, const struct form_row *row, bool ruled)
{
    double between = ruled ? LINE_BETWEEN : 0, x = flow->area.x, all = 0;
    double height = ruled ? flow->type->writing_room : 0;
    bool writing = ruled;
    for (size_t i = 0; i < row->count; i++)
        all += row->fields[i].share;
    for (size_t i = 0; i < row->count && !ruled; i++) {
        const struct form_field *field = &row->fields[i];
        double width = flow->area.width * field->share / all - 2 * FIELD_PAD;
        height = fmax(height, box_height(flow, field, width));
        writing |= !field->value && field->choice_count == 0;
    }
    flow->writing_rows += writing;
    flow_strip(flow, height);
    for (size_t i = 0; i < row->count; i++) {
        double width = (flow->area.width + between) * row->fields[i].share / all;
        struct area area = {x, width - between};
        int tag = flow_tag(flow, TAG_PARAGRAPH, flow->tag);
        if (ruled)
            put_line(flow, &row->fields[i], area, height - LINE_DROP, tag);
        else
            put_box(flow, &row->fields[i], area, height, tag);
        x += width;
    }
}

/* A text too wide for its place is told once, when the sheet is really laid out. */
static void fields_put(struct flow *flow, const struct node *node)
{
    bool failed = flow->failed;
    flow_gap(flow, FIELD_AFTER);
    for (size_t i = 0; i < node->form->count; i++) {
        const struct form_row *row = &node->form->rows[i];
        flow->failed = false;
        put_fields(flow, row, node->form->ruled);
        if (flow->failed && !flow->trial)
            fault(flow->diags, row->at,
                  "a label, a value or words to tick are wider than their place; shorten them, "
                  "or put fewer places into the row");
        failed |= flow->failed;
    }
    flow->failed = failed;
    flow_gap(flow, FIELD_AFTER);
}

/* ---- what sheets say of themselves ---- */

static const double BOX_PAD = 5, BOX_SIDE = 8;

void imprint_notice_put(struct flow *flow, const struct imprint *imprint)
{
    if (!imprint->notice)
        return;
    double size = flow->type->body * 1.1;
    struct text_style style = {.face = FACE_BOLD, .size = size, .leading = size * 1.3};
    struct area outer = flow->area;
    flow_gap(flow, flow->type->leading);
    size_t frame = flow_frame_open(flow, FRAME_NOTICE, BOX_PAD);
    flow->area = area_within(outer, BOX_SIDE, BOX_SIDE);
    lines_put_plain(flow, TAG_PARAGRAPH, imprint->notice, &style);
    flow->area = outer;
    flow_frame_close(flow, frame);
    flow_gap(flow, flow->type->leading);
}

void imprint_foot_put(struct flow *flow, const struct imprint *imprint, double size,
                      bool with_notice)
{
    struct text_style style = {.size = size, .leading = size * 1.25};
    struct text_style bold = {
        .face = FACE_BOLD, .size = size * 1.15, .leading = size * 1.15 * 1.25};
    size_t first = flow->strip_count;
    flow_gap(flow, size);
    flow->at_foot = true;
    flow_strip(flow, size * 0.4);
    flow_line(flow, 0, 0, flow->width, 0, 0.4);
    if (with_notice && imprint->notice)
        lines_put_plain(flow, TAG_PARAGRAPH, imprint->notice, &bold);
    lines_put_plain(flow, TAG_PARAGRAPH, imprint_inputs(flow->arena, imprint), &style);
    flow_hold(flow, first + 1);
}

/* ---- all blocks ---- */

static const double QUOTE_PAD = 1;

static void quote_put(struct flow *flow, const struct node *node)
{
    double half = flow->type->leading / 2;
    flow_gap(flow, half);
    size_t frame = flow_frame_open(flow, FRAME_QUOTE, QUOTE_PAD), first = flow->strip_count;
    put_within(flow, node->first, area_within(flow->area, half * 2, half), flow->tag);
    if (first < flow->strip_count)
        flow->strips[first].gap = 0;
    flow_frame_close(flow, frame);
    flow_gap(flow, half);
}

/* A table or figure has the whole width, but within a frame. */
static void put_wide(struct flow *flow, const struct node *node)
{
    struct area outer = flow->area;
    double leading = flow->type->leading;
    if (node->kind == NODE_TABLE ? !node->table : !node->figure)
        return; /* one that could not be made */
    if (flow->inset == 0)
        flow->area = (struct area){.width = flow->width};
    flow_gap(flow, node->kind == NODE_TABLE ? leading * 0.75 : leading);
    if (node->kind == NODE_FIGURE)
        figure_put(flow, node->figure);
    else if (node->table->blank)
        grid_put(flow, node->table);
    else
        table_put(flow, node->table);
    flow_gap(flow, leading);
    flow->area = outer;
}

/* May the block, or one within it, have no room? A text is broken, whatever its width. */
static bool may_fail(const struct node *node)
{
    return node->kind == NODE_LIST || node->kind == NODE_QUOTE || node->kind == NODE_CAUTION ||
           node->kind == NODE_TABLE || node->kind == NODE_FIGURE || node->kind == NODE_FIELDS;
}

static void block_put(struct flow *flow, const struct node *node)
{
    double leading = flow->type->leading;
    if (flow->dry && !may_fail(node))
        return;
    switch (node->kind) {
    case NODE_HEADING:
        heading_put(flow, node);
        break;
    case NODE_PARAGRAPH:
        paragraph_put(flow, node);
        break;
    case NODE_LIST:
        list_put(flow, node);
        break;
    case NODE_QUOTE:
        quote_put(flow, node);
        break;
    case NODE_CAUTION:
        lines_flush_labels(flow);
        caution_put(flow, node);
        break;
    case NODE_TABLE:
    case NODE_FIGURE:
        lines_flush_labels(flow);
        put_wide(flow, node);
        break;
    case NODE_FIELDS:
        lines_flush_labels(flow);
        fields_put(flow, node);
        break;
    case NODE_LITERAL:
        lines_flush_labels(flow);
        literal_put(flow, node);
        break;
    case NODE_RULE:
        flow_strip(flow, leading);
        flow_line(flow, flow->area.x, leading / 2, flow->area.width, 0, 0.5);
        break;
    default: /* pages and items are met by those that hold them; inlines by lines_read() */
        break;
    }
}

void blocks_put(struct flow *flow, const struct node *first, const struct node *end)
{
    for (const struct node *node = first; node && node != end; node = node->next)
        block_put(flow, node);
}
