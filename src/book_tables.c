/* Fills the places of computed tables, and makes those that no page shows, so that
 * every table has its CSV. */
#include "book.h"

#include "tables/tables.h"

#include <string.h>

/* A table of the booklet is kept for its CSV. */
static struct table_ask ask_for(const struct book *book, const struct page *page,
                                const struct node *node)
{
    return (struct table_ask){.arena = page->in_booklet ? book->arena : page->arena,
                              .diags = book->diags,
                              .shop = &book->shop,
                              .at = node->at,
                              .options = node->options,
                              .option_count = node->option_count};
}

static struct table **slot_of(struct book *book, const char *name)
{
    for (size_t i = 0; i < book->table_count; i++)
        if (book->tables[i] && strcmp(book->tables[i]->name, name) == 0)
            return &book->tables[i];
    return NULL;
}

static void place_table(struct book *book, const struct page *page, struct node *node)
{
    struct table_ask ask = ask_for(book, page, node);
    node->table = tables_make(node->table_name, &ask);
    if (!node->table || !page->in_booklet)
        return;
    struct table **earlier = slot_of(book, node->table_name);
    if (earlier)
        fault(book->diags, node->at,
              "the table %s already stands at %s:%d; link to it as in (%s#%s)",
              node->table_name, (*earlier)->at.file, (*earlier)->at.line,
              strrchr((*earlier)->at.file, '/') + 1, node->table_name);
    else
        *ARENA_PUSH(book->arena, book->tables, book->table_count) = node->table;
}

/* A table written by hand must not pass for a computed one. */
static void check_written(struct book *book, const struct node *node)
{
    for (size_t i = 0; node->table && tables_at(i); i++)
        if (strcmp(tables_at(i)->name, node->table->name) == 0)
            fault(book->diags, node->at,
                  "the name '%s' is that of a computed table; choose another",
                  node->table->name);
}

static void place(struct book *book, const struct page *page, struct node *node)
{
    struct table_ask ask = ask_for(book, page, node);
    if (!node->table_name)
        check_written(book, node);
    else if (book->shop_is_good)
        place_table(book, page, node);
    else
        tables_find(node->table_name, &ask);
}

void book_place_tables(struct book *book, const struct page *page)
{
    for (struct node *node = page->root; node; node = node_following(page->root, node))
        if (node->kind == NODE_TABLE)
            place(book, page, node);
}

void book_make_other_tables(struct book *book)
{
    const struct table_ask ask = {
        .arena = book->arena, .diags = book->diags, .shop = &book->shop};
    for (size_t i = 0; book->shop_is_good && tables_at(i); i++)
        if (!slot_of(book, tables_at(i)->name))
            *ARENA_PUSH(book->arena, book->tables, book->table_count) =
                tables_make(tables_at(i)->name, &ask);
}
