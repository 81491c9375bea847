/* Paints everything and puts the set of outputs in its place. */
#include "book.h"

#include "base/outset.h"
#include "paint/csv.h"
#include "paint/pdf.h"

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

typedef void painter(struct buffer *out, const struct print *print, const struct fonts *fonts);

static void write_print(struct book *book, struct outset *set, const char *path, painter *paint,
                        const struct print *print)
{
    struct buffer pdf = {0};
    paint(&pdf, print, book->fonts);
    write_buffer(set, path, &pdf);
}

static void write_prints(struct book *book, struct outset *set)
{
    const struct {
        const char *path;
        unsigned part;
        painter *paint;
        const struct print *print;
    } files[] = {
        {"booklet.pdf", PART_BOOKLET, pdf_paint, book->booklet},
        {"booklet-fold.pdf", PART_FOLD, pdf_paint_folded, book->booklet},
        {"booklet-trial.pdf", PART_FOLD, pdf_paint_folded, book->trial},
        {"card.pdf", PART_CARD, pdf_paint, book->card_print},
        {"card-sheet.pdf", PART_CARD, pdf_paint, book->card_sheet},
        {"aids.pdf", PART_AIDS, pdf_paint, book->aids},
        {"forms.pdf", PART_FORMS, pdf_paint, book->forms},
    };
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        if (book->parts & files[i].part && files[i].print)
            write_print(book, set, files[i].path, files[i].paint, files[i].print);
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
    if (!set)
        return;
    book_write_site(book, set);
    write_tables(book, set);
    write_prints(book, set);
    if (book->made_from)
        outset_write(set, MADE_FROM, book->made_from, strlen(book->made_from));
    outset_commit(set);
}
