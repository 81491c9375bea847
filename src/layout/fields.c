#include "layout/fields.h"

#include <math.h>

/* Places to write in: rows of boxes with a label in their corner, or of ruled lines; and boxes
 * to tick, each before its words. */

/* ---- boxes to tick ---- */

static const double TICK_LINE = 0.8, BEFORE_WORDS = 4, BETWEEN = 11, TICK_PITCH = TICK_SIDE + 4;

/* Where the next box goes. */
struct spot {
    double x, y;
};

static double width_of(const struct flow *flow, const char *words)
{
    return TICK_SIDE + BEFORE_WORDS +
           fonts_width(flow->fonts, FACE_REGULAR, flow->type->body, words);
}

/* The spot for a box of this width, which is moved to the next line if it must be. */
static struct spot place_tick(struct spot *next, double width, double room)
{
    if (next->x > 0 && next->x + width > room)
        *next = (struct spot){0, next->y + TICK_PITCH};
    struct spot here = *next;
    next->x += width + BETWEEN;
    return here;
}

/* Height of the lines that these boxes take in this width. Words that are wider than it set
 * flow->failed. */
static double ticks_height(struct flow *flow, const char *const *words, size_t count,
                           double width)
{
    struct spot next = {0};
    for (size_t i = 0; i < count; i++) {
        double taken = width_of(flow, words[i]);
        flow->failed |= taken > width;
        place_tick(&next, taken, width);
    }
    return next.y + TICK_SIDE;
}

/* Puts them into the strip that is there, from y downward. */
static void ticks_put(struct flow *flow, const char *const *words, size_t count,
                      struct area area, double y, int tag)
{
    struct text_style style = flow_body_style(flow);
    double baseline = (TICK_SIDE + fonts_cap_height(flow->fonts) * style.size) / 2;
    struct spot next = {0};
    for (size_t i = 0; i < count; i++) {
        struct spot at = place_tick(&next, width_of(flow, words[i]), area.width);
        flow_box(flow, area.x + at.x, y + at.y, TICK_SIDE, TICK_SIDE, TICK_LINE);
        flow_text(flow, area.x + at.x + TICK_SIDE + BEFORE_WORDS, y + at.y + baseline, &style,
                  tag, words[i]);
        flow_blank_after(flow);
    }
}

/* ---- rows ---- */

static const double PAD = 3, LABEL_SIZE = 8, RULE = 0.8, AFTER = 7;

static const double LINE_GAP = 4, LINE_BETWEEN = 12, LINE_DROP = 5;

static struct text_style label_style(void)
{
    return (struct text_style){.size = LABEL_SIZE, .leading = LABEL_SIZE * 1.2};
}

static struct text_style value_style(const struct flow *flow)
{
    struct text_style style = flow_body_style(flow);
    style.face = FACE_BOLD;
    return style;
}

static double put_text(struct flow *flow, const char *text, const struct text_style *style,
                       struct area area, double y, int tag)
{
    double height = lines_measure(flow, text, style, area.width, tag);
    lines_put_all(flow, area, y, ALIGN_LEFT, style);
    if (flow->lines.count)
        flow_blank_after(flow);
    return y + height;
}

static double all_shares(const struct form_row *row)
{
    double all = 0;
    for (size_t i = 0; i < row->count; i++)
        all += row->fields[i].share;
    return all;
}

/* ---- boxes ---- */

static bool is_to_write_in(const struct form_field *field)
{
    return !field->value && field->choice_count == 0;
}

static double box_height(struct flow *flow, const struct form_field *field, double width)
{
    struct text_style label = label_style(), value = value_style(flow);
    double height = lines_measure(flow, field->label, &label, width, -1);
    if (field->value)
        height += lines_measure(flow, field->value, &value, width, -1);
    else if (field->choice_count)
        height += PAD + ticks_height(flow, field->choices, field->choice_count, width);
    else
        height += flow->type->writing_room - 2 * PAD - 1;
    return height + 2 * PAD;
}

static void put_box(struct flow *flow, const struct form_field *field, struct area area,
                    double height, int tag)
{
    struct text_style label = label_style(), value = value_style(flow);
    struct area inner = {area.x + PAD, area.width - 2 * PAD};
    int box = flow_tag(flow, TAG_PARAGRAPH, tag);
    double y = put_text(flow, field->label, &label, inner, PAD - 1, box);
    flow_box(flow, area.x, 0, area.width, height, RULE);
    if (field->value)
        put_text(flow, field->value, &value, inner, y, box);
    else if (field->choice_count)
        ticks_put(flow, field->choices, field->choice_count, inner, y + PAD, box);
    else if (field->unit)
        flow_text_right(flow, inner.x + inner.width, height - PAD - 1, &label, box,
                        field->unit);
}

static void boxes_put(struct flow *flow, const struct form_row *row, struct area area, int tag)
{
    double height = 0, x = area.x, all = all_shares(row);
    bool writing = false;
    for (size_t i = 0; i < row->count; i++) {
        double width = area.width * row->fields[i].share / all - 2 * PAD;
        height = fmax(height, box_height(flow, &row->fields[i], width));
        writing |= is_to_write_in(&row->fields[i]);
    }
    flow->writing_rows += writing;
    flow_strip(flow, height);
    for (size_t i = 0; i < row->count; i++) {
        double width = area.width * row->fields[i].share / all;
        put_box(flow, &row->fields[i], (struct area){x, width}, height, tag);
        x += width;
    }
}

/* ---- lines ---- */

static void put_line(struct flow *flow, const struct form_field *field, struct area area,
                     double y, int tag)
{
    struct text_style style = flow_body_style(flow), value = value_style(flow);
    int line = flow_tag(flow, TAG_PARAGRAPH, tag);
    double from = area.x, to = area.x + area.width;
    if (*field->label) {
        flow_text(flow, from, y, &style, line, field->label);
        from += fonts_width(flow->fonts, style.face, style.size, field->label) + LINE_GAP;
    }
    if (field->unit) {
        flow_text_right(flow, to, y, &style, line, field->unit);
        to -= fonts_width(flow->fonts, style.face, style.size, field->unit) + LINE_GAP;
    }
    if (field->value) {
        flow_text(flow, from, y, &value, line, field->value);
        flow->failed |= from + fonts_width(flow->fonts, value.face, value.size, field->value) >
                        area.x + area.width;
    } else {
        flow->failed |= to - from < flow->type->writing_room;
        flow_line(flow, from, y + 1, to - from, 0, RULE);
    }
}

static void ruled_put(struct flow *flow, const struct form_row *row, struct area area, int tag)
{
    double x = area.x, height = flow->type->writing_room, all = all_shares(row);
    flow->writing_rows++;
    flow_strip(flow, height);
    for (size_t i = 0; i < row->count; i++) {
        double width = (area.width + LINE_BETWEEN) * row->fields[i].share / all;
        put_line(flow, &row->fields[i], (struct area){x, width - LINE_BETWEEN},
                 height - LINE_DROP, tag);
        x += width;
    }
}

/* A text too wide for its place is told once, when the sheet is really laid out. */
static void report(struct flow *flow, const struct form_row *row)
{
    if (!flow->trial)
        fault(flow->diags, row->at,
              "a label, a value or words to tick are wider than their place; shorten them, or "
              "put fewer places into the row");
}

void fields_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    bool failed = flow->failed;
    flow_gap(flow, AFTER);
    for (size_t i = 0; i < node->form->count; i++) {
        const struct form_row *row = &node->form->rows[i];
        flow->failed = false;
        if (node->form->ruled)
            ruled_put(flow, row, area, tag);
        else
            boxes_put(flow, row, area, tag);
        if (flow->failed)
            report(flow, row);
        failed |= flow->failed;
    }
    flow->failed = failed;
    flow_gap(flow, AFTER);
}
