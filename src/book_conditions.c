/* Leaves out of forms and card what does not hold for this shop. */
#include "book.h"

#include "values/condition.h"

#include <string.h>

/* The text at the head of a block; NULL where something else stands there. */
static struct node *head_text(struct node *block)
{
    struct node *node = block;
    while (node && node->kind != NODE_TEXT)
        node = node->first;
    return node;
}

static bool keep_block(const struct shop *shop, struct node *node)
{
    if (node->kind != NODE_ITEM && node->kind != NODE_PARAGRAPH)
        return true;
    struct node *head = head_text(node);
    const char *kept = head ? condition_take(shop, head->text) : "";
    if (head && kept && kept != head->text) {
        head->text = kept;
        head->as_written = false;
    }
    return kept != NULL;
}

static void keep_fields(const struct shop *shop, struct form_row *row)
{
    size_t count = 0;
    for (size_t i = 0; i < row->count; i++) {
        const char *kept = condition_take(shop, row->fields[i].label);
        if (!kept)
            continue;
        row->fields[count] = row->fields[i];
        row->fields[count++].label = kept;
    }
    row->count = count;
}

/* False where no row is left. */
static bool keep_rows(const struct shop *shop, struct form *form)
{
    size_t count = 0;
    for (size_t i = 0; i < form->count; i++) {
        keep_fields(shop, &form->rows[i]);
        if (form->rows[i].count)
            form->rows[count++] = form->rows[i];
    }
    form->count = count;
    return count > 0;
}

static void remove_column(struct table *table, size_t column)
{
    size_t columns = table->column_count, kept = 0;
    for (size_t i = 0; i < table->row_count * columns; i++)
        if (i % columns != column)
            table->cells[kept++] = table->cells[i];
    memmove(&table->columns[column], &table->columns[column + 1],
            (columns - column - 1) * sizeof *table->columns);
    table->column_count--;
}

/* False where the whole grid goes. */
static bool keep_columns(const struct shop *shop, struct table *table)
{
    const char *caption = condition_take(shop, table->caption);
    if (!caption)
        return false;
    table->caption = caption;
    for (size_t i = table->column_count; i-- > 0;) {
        const char *kept = condition_take(shop, table->columns[i].quantity);
        if (kept)
            table->columns[i].quantity = kept;
        else
            remove_column(table, i);
    }
    return table->column_count > 0;
}

static bool keep(const struct shop *shop, struct node *node)
{
    if (node->kind == NODE_FIELDS)
        return keep_rows(shop, node->form);
    if (node->kind == NODE_TABLE && node->table && node->table->blank)
        return keep_columns(shop, node->table);
    return keep_block(shop, node);
}

void book_keep_what_holds(struct book *book, const struct page *page, const struct shop *shop)
{
    if (!page->is_form && page != book->card)
        return;
    for (struct node *node = page->root, *next; node; node = next) {
        bool kept = keep(shop, node);
        next = kept ? node_following(page->root, node) : node_after(page->root, node);
        if (!kept)
            node_remove(node);
    }
}
