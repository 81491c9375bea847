#include "doc/tree.h"

#include "base/buffer.h"

#include <string.h>

/* ---- figures ---- */

double figure_line(enum stroke stroke)
{
    static const double widths[] = {
        [STROKE_NONE] = 0, [STROKE_THIN] = FIGURE_THIN, [STROKE_THICK] = FIGURE_THICK};
    return widths[stroke];
}

size_t figure_dashes(enum dash dash, double lengths[MOST_DASHES])
{
    static const double patterns[][MOST_DASHES] = {
        [DASH_SOLID] = {0}, [DASH_HIDDEN] = {3, 2}, [DASH_CENTRE] = {8, 2, 1.5, 2}};
    size_t count = 0;
    for (; count < MOST_DASHES && patterns[dash][count] > 0; count++)
        lengths[count] = patterns[dash][count];
    return count;
}

double figure_text_left(const struct figure_text *text)
{
    static const double shares[] = {[ALIGN_LEFT] = 0, [ALIGN_MIDDLE] = 0.5, [ALIGN_RIGHT] = 1};
    return text->x - shares[text->align] * text->width;
}

/* ---- tables ---- */

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

/* ---- nodes ---- */

struct node *node_new(struct arena *arena, enum node_kind kind, struct place at)
{
    struct node *node = arena_get(arena, sizeof *node);
    node->kind = kind;
    node->at = at;
    return node;
}

void node_append(struct node *parent, struct node *child)
{
    child->parent = parent;
    if (parent->last)
        parent->last->next = child;
    else
        parent->first = child;
    parent->last = child;
}

void node_remove(struct node *node)
{
    struct node *parent = node->parent, *before = NULL;
    for (struct node *at = parent->first; at != node; at = at->next)
        before = at;
    *(before ? &before->next : &parent->first) = node->next;
    if (parent->last == node)
        parent->last = before;
}

struct node *node_after(const struct node *root, const struct node *node)
{
    for (; node && node != root; node = node->parent)
        if (node->next)
            return node->next;
    return NULL;
}

struct node *node_following(const struct node *root, const struct node *node)
{
    return node->first ? node->first : node_after(root, node);
}

bool node_is_inline(const struct node *node)
{
    return node->kind >= NODE_TEXT;
}

char *node_plain_text(struct arena *arena, const struct node *node)
{
    struct buffer text = {0};
    for (const struct node *at = node; at; at = node_following(node, at)) {
        if (at->kind == NODE_TEXT || at->kind == NODE_CODE)
            buffer_text(&text, at->text);
        else if (at->kind == NODE_SPACE || at->kind == NODE_BREAK)
            buffer_text(&text, " ");
    }
    char *plain = arena_slice(arena, text.bytes, text.length);
    buffer_free(&text);
    return plain;
}
