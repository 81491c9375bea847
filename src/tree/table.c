#include "tree/table.h"

#include "base/buffer.h"

#include <string.h>

struct table *table_new(struct arena *arena, const char *name, const char *caption)
{
    struct table *table = arena_get(arena, sizeof *table);
    table->arena = arena;
    table->name = name;
    table->caption = caption;
    return table;
}

struct column *table_column(struct table *table, enum column_kind kind, const char *quantity,
                            const char *unit)
{
    struct column *column = ARENA_PUSH(table->arena, table->columns, table->column_count);
    *column = (struct column){.kind = kind, .quantity = quantity, .unit = unit};
    return column;
}

struct cell *table_row(struct table *table)
{
    size_t width = table->column_count;
    table->cells =
        arena_grow(table->arena, table->cells, table->row_count, width * sizeof *table->cells);
    struct cell *row = &table->cells[table->row_count++ * width];
    for (size_t i = 0; i < width; i++)
        row[i] = (struct cell){.shown = ""};
    return row;
}

void table_note(struct table *table, const char *format, ...)
{
    va_list args;
    struct buffer text = {0};
    va_start(args, format);
    buffer_vprint(&text, format, args);
    va_end(args);
    char *note = arena_slice(table->arena, text.bytes, text.length);
    *ARENA_PUSH(table->arena, table->notes, table->note_count) = note;
    buffer_free(&text);
}

const struct cell *table_cell(const struct table *table, size_t row, size_t column)
{
    return &table->cells[row * table->column_count + column];
}

const char *table_head(struct arena *arena, const struct column *column)
{
    if (!column->unit)
        return column->quantity;
    return arena_format(arena, "%s / %s", column->quantity, column->unit);
}
