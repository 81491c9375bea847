/* How one table will stand at one size of type: what its columns and rows take. */
#ifndef PAGE_TABLE_PLAN_H
#define PAGE_TABLE_PLAN_H

#include "page/flow.h"

struct column_plan {
    double least, most;     /* widths between which it may stand */
    double whole, fraction; /* of its numbers: before the decimal point, and from it on */
    double x, width;        /* as it stands; without the blank between columns */
};

struct table_plan {
    const struct table *table;
    double room, height;          /* a row may take at most */
    double figures, words, heads; /* sizes of type */
    double margin;                /* blank left and right of each column */
    double row_pad;               /* blank above and below in each row */
    double x, width;
    struct column_plan *columns;
    double *row_heights;
    double head_height;
    bool hairlines; /* between all rows; otherwise between groups of them */
};

/* Rows between two rules, so that the eye keeps its row. */
enum { TABLE_GROUP = 5 };

/* Plans the table at this size of figures; false when the width is too little or a
 * row too tall for the height. */
bool table_plan_make(struct flow *flow, struct table_plan *plan, const struct table *table,
                     double size, struct area area, double height);

/* What a cell looks like. */
struct text_style table_cell_style(const struct table_plan *plan, size_t row, size_t column);
struct text_style table_head_style(const struct table_plan *plan);
bool table_row_is_strong(const struct table *table, size_t row);

/* Is the row there to be written in? It has blanks of underscores. */
bool table_row_is_written(const struct table *table, size_t row);

/* Is the cell set on the decimal point of its column? */
bool table_cell_is_number(const struct table *table, size_t row, size_t column);

/* Bytes of a number before its decimal point. */
size_t table_whole_length(const char *number);

/* The heads, or one row, as a strip each. tag: the table's; heads with -1 are decoration, as
 * they are where the table goes on. */
void table_head_put(struct flow *flow, const struct table_plan *plan, int tag);
void table_row_put(struct flow *flow, const struct table_plan *plan, size_t row, int tag);

#endif
