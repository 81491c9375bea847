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

/* A print of which one file is made or two; NULL for one that is not. */
struct files {
    const struct print *print;
    const char *reading, *folded;
};

static void write_print(struct book *book, struct outset *set, const struct files *files)
{
    struct sink reading = {0}, folded = {0};
    if (files->reading)
        reading = outset_open(set, files->reading);
    if (files->folded)
        folded = outset_open(set, files->folded);
    pdf_paint(files->print, book->fonts, files->reading ? &reading : NULL,
              files->folded ? &folded : NULL);
    if (files->reading)
        outset_close(reading);
    if (files->folded)
        outset_close(folded);
}

static void write_prints(struct book *book, struct outset *set)
{
    const bool booklet = book->parts & PART_BOOKLET, fold = book->parts & PART_FOLD;
    const struct files files[] = {
        {book->booklet, booklet ? "booklet.pdf" : NULL, fold ? "booklet-fold.pdf" : NULL},
        {book->trial, NULL, "booklet-trial.pdf"},
        {book->card_print, "card.pdf", NULL},
        {book->card_sheet, "card-sheet.pdf", NULL},
        {book->aids, "aids.pdf", NULL},
        {book->forms, "forms.pdf", NULL},
    };
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        if (files[i].print)
            write_print(book, set, &files[i]);
}

void book_write(struct book *book, const char *out)
{
    struct outset *set = outset_begin(book->arena, book->diags, out);
    if (!set)
        return;
    book_write_screen(book, set);
    write_tables(book, set);
    write_prints(book, set);
    if (book->made_from)
        outset_write(set, MADE_FROM, book->made_from, strlen(book->made_from));
    outset_commit(set);
}
