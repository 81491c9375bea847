/* A grid of boxes to write in, with heads over its columns and before its rows. */
#include "page/blocks.h"
#include "page/lines.h"
#include "page/ticks.h"

#include <math.h>
#include <string.h>

static const double PAD = 3, HEAD_SIZE = 8.5, RULE = 0.5, FRAME = 1, AFTER = 7;

static const char tick[] = "\u25a1";

struct grid {
    struct flow *flow;
    const struct table *table;
    struct area area;
    int tag;
};

static struct area column_area(const struct grid *grid, size_t column)
{
    double all = 0, before = 0;
    for (size_t i = 0; i < grid->table->column_count; i++) {
        all += grid->table->columns[i].share;
        before += i < column ? grid->table->columns[i].share : 0;
    }
    double share = grid->table->columns[column].share;
    return (struct area){grid->area.x + grid->area.width * before / all,
                         grid->area.width * share / all};
}

static struct text_style head_style(void)
{
    return (struct text_style){
        .face = FACE_BOLD, .size = HEAD_SIZE, .leading = HEAD_SIZE * 1.18};
}

static struct text_style cell_style(const struct grid *grid)
{
    struct text_style style = body_style(grid->flow);
    style.size -= 0.5;
    style.leading = style.size * 1.18;
    return style;
}

static double break_text(struct flow *flow, const char *text, const struct text_style *style,
                         double width, int tag)
{
    lines_read_cell(flow, text, style, tag);
    return lines_break(flow, width, style);
}

static void put_text(struct flow *flow, const char *text, const struct text_style *style,
                     struct area area, double y, int tag)
{
    break_text(flow, text, style, area.width, tag);
    lines_put_all(flow, area.x, y, style);
}

static struct area within(struct area area)
{
    return (struct area){area.x + PAD, area.width - 2 * PAD};
}

/* Lines between the columns, and the one below. */
static void put_rules(const struct grid *grid, double height, double below)
{
    for (size_t i = 0; i <= grid->table->column_count; i++) {
        bool edge = i == 0 || i == grid->table->column_count;
        double x = i < grid->table->column_count ? column_area(grid, i).x
                                                 : grid->area.x + grid->area.width;
        flow_line(grid->flow, x, 0, 0, height, edge ? FRAME : RULE);
    }
    flow_line(grid->flow, grid->area.x, height, grid->area.width, 0, below);
}

static double head_height(const struct grid *grid)
{
    double height = 0;
    for (size_t i = 0; i < grid->table->column_count; i++) {
        const struct column *column = &grid->table->columns[i];
        struct text_style style = head_style(), unit = style;
        struct area area = within(column_area(grid, i));
        unit.face = FACE_REGULAR;
        double taken = break_text(grid->flow, column->quantity, &style, area.width, -1);
        if (column->unit)
            taken += break_text(grid->flow, column->unit, &unit, area.width, -1);
        height = fmax(height, taken);
    }
    return height + 2 * PAD;
}

static void put_heads(const struct grid *grid)
{
    struct flow *flow = grid->flow;
    double height = head_height(grid);
    int row = flow_tag(flow, TAG_ROW, grid->tag);
    flow_strip(flow, height);
    flow_line(flow, grid->area.x, 0, grid->area.width, 0, FRAME);
    put_rules(grid, height, FRAME);
    for (size_t i = 0; i < grid->table->column_count; i++) {
        const struct column *column = &grid->table->columns[i];
        struct text_style style = head_style(), unit = style;
        struct area area = within(column_area(grid, i));
        int head = flow_tag(flow, TAG_HEAD_CELL, row);
        unit.face = FACE_REGULAR;
        put_text(flow, column->quantity, &style, area, PAD - 0.5, head);
        if (column->unit) {
            flow->pieces[flow->piece_count - 1].blank_after = true;
            put_text(flow, column->unit, &unit, area,
                     PAD - 0.5 + (double)flow->lines.count * style.leading, head);
        }
    }
    flow_cost(flow, BREAK_NEVER);
}

static double row_height(const struct grid *grid, size_t row)
{
    double height = grid->flow->type->writing_room;
    for (size_t i = 0; i < grid->table->column_count; i++) {
        const char *shown = table_cell(grid->table, row, i)->shown;
        struct text_style style = cell_style(grid);
        if (strcmp(shown, tick) != 0)
            height = fmax(height, break_text(grid->flow, shown, &style,
                                             within(column_area(grid, i)).width, -1) +
                                      2 * PAD);
    }
    return height;
}

static void put_cell(const struct grid *grid, size_t row, size_t column, double height, int tag)
{
    const char *shown = table_cell(grid->table, row, column)->shown;
    struct text_style style = cell_style(grid);
    struct area area = column_area(grid, column);
    struct flow *flow = grid->flow;
    if (strcmp(shown, tick) == 0) {
        flow_box(flow, area.x + (area.width - TICK_SIDE) / 2, (height - TICK_SIDE) / 2,
                 TICK_SIDE, TICK_SIDE, RULE);
        return;
    }
    double text = break_text(flow, shown, &style, within(area).width, -1);
    put_text(flow, shown, &style, within(area), (height - text) / 2, tag);
}

static void put_row(const struct grid *grid, size_t row)
{
    struct flow *flow = grid->flow;
    double height = row_height(grid, row);
    bool last = row + 1 == grid->table->row_count;
    int tag = flow_tag(flow, TAG_ROW, grid->tag);
    flow->writing_rows++;
    flow_strip(flow, height);
    put_rules(grid, height, last ? FRAME : RULE);
    for (size_t i = 0; i < grid->table->column_count; i++) {
        int cell = flow_tag(flow, i == 0 ? TAG_HEAD_CELL : TAG_CELL, tag);
        flow->print->tags[cell].row_head = i == 0;
        put_cell(grid, row, i, height, cell);
    }
}

static void put_caption(struct flow *flow, const struct table *table, struct area area, int tag)
{
    struct text_style style = body_style(flow);
    style.face = FACE_BOLD;
    lines_read_plain(flow, table->caption, &style, flow_tag(flow, TAG_CAPTION, tag));
    lines_put(flow, area, &style);
    flow_gap(flow, 2);
    flow_cost(flow, BREAK_NEVER);
}

void grid_put(struct flow *flow, const struct table *table, struct area area, int tag)
{
    struct grid grid = {flow, table, area, flow_tag(flow, TAG_TABLE, tag)};
    bool failed = flow->failed;
    flow->failed = false;
    flow_gap(flow, AFTER);
    flow_anchor(flow, table->name);
    put_caption(flow, table, area, grid.tag);
    put_heads(&grid);
    for (size_t row = 0; row < table->row_count; row++)
        put_row(&grid, row);
    if (flow->failed && !flow->trial)
        fault(flow->diags, table->at,
              "the grid '%s' has a column too narrow for its words; shorten them, or give the "
              "column a larger share, as in 'remarks *3'",
              table->name);
    flow->failed |= failed;
    flow_gap(flow, AFTER);
}
