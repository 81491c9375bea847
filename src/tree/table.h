/* A table as every output sees it: heads, rows of cells, notes.
 *
 * A cell holds either a number that was computed (shown text plus the value at
 * full precision in the column's unit) or plain text. Outputs print `shown` and
 * nothing else, so that they agree in every cell. */
#ifndef TREE_TABLE_H
#define TREE_TABLE_H

#include "base/diag.h"
#include "base/memory.h"

#include <stdbool.h>
#include <stddef.h>

/* What a state cell says, so that a painter can give it its shape. */
enum mark { MARK_NONE, MARK_BELOW, MARK_INSIDE, MARK_ABOVE };

struct cell {
    const char *shown;
    double value;   /* full precision, in the unit of the column */
    bool has_value; /* computed number: value counts */
    bool strong;    /* the row or cell that the reader looks for */
    enum mark mark; /* text cell that names a state */
};

enum column_kind { COLUMN_TEXT, COLUMN_NUMBER };

struct column {
    const char *quantity; /* "low pull" */
    const char *unit;     /* "N"; NULL where there is none */
    enum column_kind kind;
    bool strong; /* the column to read at the lathe */
    int share;   /* of a blank grid's width, 1..9 */
};

struct table {
    const char *name;    /* lower-case words joined by hyphens: id and file name */
    const char *caption; /* one line, without a full stop */
    struct place at;     /* where it was asked for */
    bool computed;
    bool no_row_heads; /* hand-written table whose first column is not a head */
    bool blank;        /* a grid of boxes to write in, some of them filled already */
    struct column *columns;
    size_t column_count;
    struct cell *cells; /* row after row: row_count * column_count */
    size_t row_count;
    const char **notes; /* below the table: inputs, keys, why a cell says none */
    size_t note_count;
    struct arena *arena;
};

struct table *table_new(struct arena *arena, const char *name, const char *caption);

/* Columns first, then rows. Texts are not copied. */
struct column *table_column(struct table *table, enum column_kind kind, const char *quantity,
                            const char *unit);

/* Adds an empty row and gives its first cell; the address holds until the next row. */
struct cell *table_row(struct table *table);

void table_note(struct table *table, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

const struct cell *table_cell(const struct table *table, size_t row, size_t column);

/* "low pull / N", or the quantity alone; owned by the arena. */
const char *table_head(struct arena *arena, const struct column *column);

#endif
