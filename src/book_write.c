/* Paints everything and puts the set of outputs in its place. */
#include "book.h"

#include "base/outset.h"
#include "paint/csv.h"
#include "paint/pdf.h"

static void write_buffer(struct outset *set, const char *path, struct buffer *bytes)
{
    outset_write(set, path, bytes->bytes, bytes->length);
    buffer_free(bytes);
}

static void write_tables(struct book *book, struct outset *set)
{
    for (size_t i = 0; i < book->table_count; i++) {
        struct buffer csv = {0};
        csv_paint(&csv, book->tables[i]);
        write_buffer(set, arena_format(book->arena, "tables/%s.csv", book->tables[i]->name),
                     &csv);
    }
}

typedef void painter(struct buffer *out, const struct print *print, const struct fonts *fonts);

static void write_print(struct book *book, struct outset *set, const char *path, painter *paint,
                        const struct print *print)
{
    struct buffer pdf = {0};
    paint(&pdf, print, book->fonts);
    write_buffer(set, path, &pdf);
}

void book_write(struct book *book, const char *out)
{
    struct outset *set = outset_begin(book->arena, book->diags, out);
    if (!set)
        return;
    book_write_screen(book, set);
    write_tables(book, set);
    write_print(book, set, "booklet.pdf", pdf_paint, book->booklet);
    write_print(book, set, "booklet-fold.pdf", pdf_paint_folded, book->booklet);
    write_print(book, set, "booklet-trial.pdf", pdf_paint_folded, book->trial);
    write_print(book, set, "card.pdf", pdf_paint, book->card_print);
    write_print(book, set, "card-sheet.pdf", pdf_paint, book->card_sheet);
    write_print(book, set, "aids.pdf", pdf_paint, book->aids);
    outset_commit(set);
}
