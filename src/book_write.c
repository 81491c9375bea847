/* Paints everything and puts the set of outputs in its place. */
#include "book.h"

#include "base/outset.h"
#include "base/side.h"
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

static bool has_forms(const struct book *book)
{
    for (size_t i = 0; i < book->page_count; i++)
        if (book->pages[i]->is_form)
            return true;
    return false;
}

/* The files of the processes below, in the order that the list of files always has. */
static void name_prints(struct book *book, struct outset *set)
{
    const struct {
        unsigned part;
        const char *path;
    } files[] = {{PART_BOOKLET, "booklet.pdf"},
                 {PART_FOLD, "booklet-fold.pdf"},
                 {PART_FOLD, "booklet-trial.pdf"},
                 {PART_CARD, "card.pdf"},
                 {PART_CARD, "card-sheet.pdf"},
                 {PART_AIDS, "aids.pdf"},
                 {PART_FORMS, has_forms(book) ? "forms.pdf" : NULL}};
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        if (book->parts & files[i].part && files[i].path)
            outset_name(set, files[i].path);
}

enum { NO_FAULTS, SOME_FAULTS };

static int work_answer(const struct book *book)
{
    return diags_count(book->diags) ? SOME_FAULTS : NO_FAULTS;
}

static int booklet_work(void *with)
{
    struct book *book = with;
    book_make_booklet(book, book->set);
    return work_answer(book);
}

static int sheets_work(void *with)
{
    struct book *book = with;
    book_make_sheets(book, book->set);
    return work_answer(book);
}

/* Nothing of the one depends on the other, and each writes files of its own. The booklet takes
 * as long as all the rest: a third process beside it would only take its processor from it
 * where there are two. Faults that a process found are found once more here, all in their
 * order. */
static void write_all(struct book *book, struct outset *set)
{
    name_prints(book, set);
    struct side *booklet = side_begin(book->arena, booklet_work, book);
    book_write_site(book, set);
    write_tables(book, set);
    struct side *sheets = side_begin(book->arena, sheets_work, book);
    int faults = side_end(booklet) == SOME_FAULTS;
    faults |= side_end(sheets) == SOME_FAULTS;
    if (faults && diags_count(book->diags) == 0)
        book_compose(book);
}

void book_write(struct book *book)
{
    struct outset *set = book_begin_set(book);
    if (set)
        write_all(book, set);
    if (diags_count(book->diags) > 0)
        return;
    if (book->made_from)
        outset_write(set, MADE_FROM, book->made_from, strlen(book->made_from));
    book->set = NULL;
    outset_commit(set);
}
