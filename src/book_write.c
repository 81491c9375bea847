/* Paints everything and puts the set of outputs in its place. */
#include "book.h"

#include "base/outset.h"
#include "paint/csv.h"

#include <string.h>

static void write_buffer(struct outset *set, const char *path, struct buffer *bytes)
{
    outset_write(set, path, bytes->bytes, bytes->length);
    buffer_free(bytes);
}

static void write_tables(struct book *book, struct outset *set)
{
    for (size_t i = 0; book->parts & PART_TABLES && i < book->table_count; i++) {
        struct buffer csv = {0};
        csv_paint(&csv, book->tables[i]);
        write_buffer(set, arena_format(book->arena, "tables/%s.csv", book->tables[i]->name),
                     &csv);
    }
}

struct outset *book_begin_set(struct book *book)
{
    if (!book->set)
        book->set = outset_begin(book->arena, book->diags, book->out);
    return book->set;
}

void book_write(struct book *book)
{
    struct outset *set = book_begin_set(book);
    if (set)
        book_compose(book, set); /* first, for the faults that only paper shows */
    if (diags_count(book->diags) > 0)
        return;
    book_write_site(book, set);
    write_tables(book, set);
    if (book->made_from)
        outset_write(set, MADE_FROM, book->made_from, strlen(book->made_from));
    book->set = NULL;
    outset_commit(set);
}
