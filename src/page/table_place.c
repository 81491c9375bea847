/* Heads and rows of a planned table into strips. */
#include "page/lines.h"
#include "page/table_plan.h"

#include <math.h>

static const double NOISE = 1e-6;
static const double HAIRLINE = 0.3, RULE = 0.8;

/* Of the rules around a strong row: at least this, and this share of the figures. */
static const double STRONG_RULE = 1.2, STRONG_SHARE = 0.06;

static int cell_tag(struct flow *flow, enum tag_kind kind, int row_tag)
{
    return row_tag < 0 ? -1 : flow_tag(flow, kind, row_tag);
}

/* Text of a column that is set on the right stands at its right edge. */
static double line_x(const struct flow *flow, size_t line, const struct column_plan *at,
                     bool right)
{
    if (!right)
        return at->x;
    double width =
        phrase_width(&flow->phrase, flow->lines.starts[line], flow->lines.starts[line + 1]);
    return at->x + at->width - width;
}

static void put_lines(struct flow *flow, const struct column_plan *at, double top, bool right,
                      const struct text_style *style)
{
    double y = top + flow_baseline(flow, style);
    for (size_t i = 0; i < flow->lines.count; i++)
        lines_put_one(flow, i, line_x(flow, i, at, right), y + (double)i * style->leading,
                      style);
}

static void put_head(struct flow *flow, const struct table_plan *plan, size_t column, int tag)
{
    const struct column *head = &plan->table->columns[column];
    const struct column_plan *at = &plan->columns[column];
    struct text_style style = table_head_style(plan);
    bool right = head->kind == COLUMN_NUMBER;
    double bottom = plan->head_height - plan->row_pad;
    if (head->unit) {
        struct text_style regular = style;
        regular.face = FACE_REGULAR;
        bottom -= style.leading;
        double y = bottom + flow_baseline(flow, &regular);
        if (right)
            flow_text_right(flow, at->x + at->width, y, &regular, tag, head->unit);
        else
            flow_text(flow, at->x, y, &regular, tag, head->unit);
    }
    lines_read_cell(flow, head->quantity, &style, tag);
    phrase_break(&flow->phrase, at->width + NOISE, &flow->lines);
    put_lines(flow, at, bottom - (double)flow->lines.count * style.leading, right, &style);
}

void table_head_put(struct flow *flow, const struct table_plan *plan, int tag)
{
    int row = tag < 0 ? -1 : flow_tag(flow, TAG_ROW, tag);
    flow_strip(flow, plan->head_height);
    flow_line(flow, plan->x, 0, plan->width, 0, RULE);
    flow_line(flow, plan->x, plan->head_height - RULE / 2, plan->width, 0, RULE / 2);
    for (size_t i = 0; i < plan->table->column_count; i++)
        put_head(flow, plan, i, cell_tag(flow, TAG_HEAD_CELL, row));
}

static void put_number(struct flow *flow, const struct table_plan *plan, size_t row,
                       size_t column, int tag)
{
    const struct column_plan *at = &plan->columns[column];
    const char *shown = table_cell(plan->table, row, column)->shown;
    struct text_style style = table_cell_style(plan, row, column);
    double point = at->x + at->width - at->fraction;
    double whole =
        fonts_width_of(flow->fonts, style.face, style.size, shown, table_whole_length(shown));
    double top = (plan->row_heights[row] - style.leading) / 2;
    if (plan->figures - plan->words < NOISE)
        top = plan->row_pad; /* on the first line of the texts beside it */
    if (table_row_is_written(plan->table, row))
        top = plan->row_heights[row] - plan->row_pad - style.leading;
    flow_text(flow, point - whole, top + flow_baseline(flow, &style), &style, tag, shown);
}

static void put_text(struct flow *flow, const struct table_plan *plan, size_t row,
                     size_t column, int tag)
{
    const struct column_plan *at = &plan->columns[column];
    struct text_style style = table_cell_style(plan, row, column);
    lines_read_cell(flow, table_cell(plan->table, row, column)->shown, &style, tag);
    phrase_break(&flow->phrase, at->width + NOISE, &flow->lines);
    double height = (double)flow->lines.count * style.leading;
    double top = plan->figures - plan->words < NOISE ? plan->row_pad
                                                     : (plan->row_heights[row] - height) / 2;
    if (table_row_is_written(plan->table, row))
        top = plan->row_heights[row] - plan->row_pad - height; /* the hand writes above */
    put_lines(flow, at, top, plan->table->columns[column].kind == COLUMN_NUMBER, &style);
}

static void put_cell(struct flow *flow, const struct table_plan *plan, size_t row,
                     size_t column, int row_tag)
{
    bool heads = column == 0 && !plan->table->no_row_heads;
    int tag = cell_tag(flow, heads ? TAG_HEAD_CELL : TAG_CELL, row_tag);
    if (heads && tag >= 0)
        flow->print->tags[tag].row_head = true;
    if (table_cell_is_number(plan->table, row, column))
        put_number(flow, plan, row, column, tag);
    else
        put_text(flow, plan, row, column, tag);
}

/* A rule below each group of rows, or a hairline below each row; heavier ones around
 * the row that the reader looks for. No grey ground: it spoils figures when a sheet
 * is copied in black and white. */
static void put_rules(struct flow *flow, const struct table_plan *plan, size_t row)
{
    const struct table *table = plan->table;
    bool strong = table_row_is_strong(table, row);
    double heavy = fmax(STRONG_RULE, STRONG_SHARE * plan->figures);
    bool after_strong = row > 0 && table_row_is_strong(table, row - 1);
    if (row > 0 && (strong || after_strong))
        flow_line(flow, plan->x, 0, plan->width, 0, heavy);
    else if (row > 0 && (plan->hairlines || row % TABLE_GROUP == 0))
        flow_line(flow, plan->x, 0, plan->width, 0, HAIRLINE);
    if (row + 1 == table->row_count)
        flow_line(flow, plan->x, plan->row_heights[row], plan->width, 0, strong ? heavy : RULE);
}

void table_row_put(struct flow *flow, const struct table_plan *plan, size_t row, int tag)
{
    int row_tag = flow_tag(flow, TAG_ROW, tag);
    flow_strip(flow, plan->row_heights[row]);
    put_rules(flow, plan, row);
    for (size_t i = 0; i < plan->table->column_count; i++)
        put_cell(flow, plan, row, i, row_tag);
}
