/* Tables and grids into the flow: measured, fitted to the width, put row by row. Lengths in
 * points. */
#ifndef LAYOUT_TABLE_H
#define LAYOUT_TABLE_H

#include "doc/canvas.h"
#include "layout/flow.h"

/* Of a box to tick: a pencil in a greasy hand wants this much, 6 mm. */
#define TICK_SIDE (6 * MM)

/* Puts caption, heads, rows and notes into flow->area. The type is as large as the width
 * allows, then the sheet is turned; a table that fits even so at no size is a fault. */
void table_put(struct flow *flow, const struct table *table);

/* A grid of boxes to write in, with heads over its columns and before its rows. A column too
 * narrow for a word is a fault. */
void grid_put(struct flow *flow, const struct table *table);

/* From this width of its column on a cell is so tall, and not as tall as before. */
struct cell_step {
    double width, height, before;
    size_t row;
};

struct column_plan {
    double least, most;     /* widths between which it may stand */
    double whole, fraction; /* of its numbers: before the decimal point, and from it on */
    double x, width;        /* as it stands; without the blank between columns */

    /* while a width is shared out; rows are counted with the heads as the first */
    struct cell_step *steps; /* by width, */
    size_t step_count;
    size_t passed;   /* and how many of them the width has passed */
    double *heights; /* of its cells, by row, after these steps; at first at the least width */
};

/* How a table will stand at one size of type: what its columns and rows take. Columns and
 * heights are the flow's, till flow_end(). */
struct table_plan {
    struct flow *flow;
    const struct table *table;
    double room, height;          /* width of all; what heads and a row may take at most */
    double figures, words, heads; /* sizes of type */
    double leading;               /* share of them */
    double margin;                /* blank left and right of each column */
    double row_pad;               /* blank above and below in each row */
    double x, width;
    struct column_plan *columns;
    double *row_heights;
    double head_height;
    bool hairlines; /* between all rows; otherwise between groups of them */
    bool boxed;     /* a grid: every cell is a box to write in */
};

/* Plans the table at this size of figures; false when the width is too little or a row too
 * tall for the height. */
bool table_plan_make(struct flow *flow, struct table_plan *plan, const struct table *table,
                     double size, struct area area, double height);

/* What its heads and a cell look like. */
struct text_style table_head_style(const struct table_plan *plan);
struct text_style table_cell_style(const struct table_plan *plan, size_t row, size_t column);

#endif
