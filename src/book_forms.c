/* Fills the values that forms carry into their places, and draws their blank graphs. */
#include "book.h"
#include "book_figures.h"

#include "base/utf8.h"
#include "figures/blank_graph.h"
#include "values/known.h"

#include <string.h>

enum { LONGEST_AXIS = 50 };

static const char form_prefix[] = "form-";

bool book_is_form(const char *file)
{
    return strncmp(file, form_prefix, sizeof form_prefix - 1) == 0;
}

/* shop NULL: names are looked at, and nothing is filled in. */
struct filler {
    struct book *book;
    struct arena *arena;
    const struct shop *shop;
};

static const char *fill(const struct filler *filler, const char *text, struct place at)
{
    return text ? known_fill(filler->arena, filler->book->diags, filler->shop, text, at) : NULL;
}

/* As above, but what the settings do not say is left to the pencil. */
static const char *fill_or_leave(const struct filler *filler, const char *text, struct place at)
{
    const char *filled = fill(filler, text, at);
    return filled && *filled ? filled : NULL;
}

static void fill_row(const struct filler *filler, struct form_row *row)
{
    for (size_t i = 0; i < row->count; i++) {
        struct form_field *field = &row->fields[i];
        field->label = fill(filler, field->label, row->at);
        field->unit = fill_or_leave(filler, field->unit, row->at);
        field->value = fill_or_leave(filler, field->value, row->at);
        for (size_t k = 0; k < field->choice_count; k++)
            field->choices[k] = fill(filler, field->choices[k], row->at);
    }
}

static void fill_grid(const struct filler *filler, struct table *table)
{
    table->caption = fill(filler, table->caption, table->at);
    for (size_t i = 0; i < table->column_count; i++) {
        table->columns[i].quantity = fill(filler, table->columns[i].quantity, table->at);
        table->columns[i].unit = fill_or_leave(filler, table->columns[i].unit, table->at);
    }
    for (size_t i = 0; i < table->row_count * table->column_count; i++)
        table->cells[i].shown = fill(filler, table->cells[i].shown, table->at);
}

static size_t signs_of(const char *text)
{
    return text ? utf8_count(text, strlen(text)) : 0;
}

static void fill_axis(const struct filler *filler, struct graph_axis *axis, struct place at)
{
    axis->quantity = fill(filler, axis->quantity, at);
    axis->unit = fill_or_leave(filler, axis->unit, at);
    size_t signs = signs_of(axis->quantity) + signs_of(axis->unit);
    if (signs > LONGEST_AXIS)
        fault(filler->book->diags, at,
              "the words of an axis have %zu characters and would leave the sheet; %d are the "
              "most",
              signs, LONGEST_AXIS);
}

static void fill_graph(const struct filler *filler, struct node *node)
{
    struct graph *graph = node->graph;
    graph->caption = fill(filler, graph->caption, graph->at);
    fill_axis(filler, &graph->across, graph->at);
    fill_axis(filler, &graph->up, graph->at);
    struct text_meter meter = book_meter(filler->book);
    if (filler->shop && meter.with)
        node->figure = draw_blank_graph(filler->arena, filler->shop, graph, &meter);
}

static bool is_blank_grid(const struct node *node)
{
    return node->kind == NODE_TABLE && node->table && node->table->blank;
}

static bool is_blank_graph(const struct node *node)
{
    return node->kind == NODE_FIGURE && node->graph;
}

static void fill_node(const struct filler *filler, struct node *node)
{
    if (node->kind == NODE_FIELDS)
        for (size_t i = 0; i < node->form->count; i++)
            fill_row(filler, &node->form->rows[i]);
    else if (is_blank_grid(node))
        fill_grid(filler, node->table);
    else if (is_blank_graph(node))
        fill_graph(filler, node);
}

void book_check_forms(struct book *book, const struct page *page)
{
    const struct node *root = page->is_form ? NULL : page->root;
    for (const struct node *node = root; node; node = node_following(root, node))
        if (node->kind == NODE_FIELDS || is_blank_grid(node) || is_blank_graph(node))
            fault(book->diags, node->at,
                  "boxes, lines, grids and graphs stand on forms only; put this into a "
                  "page named as in form-01-manual.md");
}

void book_fill_forms(struct book *book, const struct page *page, const struct shop *shop)
{
    struct filler filler = {book, page->arena, shop};
    struct node *root = page->is_form ? page->root : NULL;
    for (struct node *node = root; node; node = node_following(root, node))
        fill_node(&filler, node);
}
