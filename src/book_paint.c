#include "book_paint.h"

struct pdf_painter *book_files_open(struct book_files *files, struct book *book,
                                    struct outset *set, const char *reading, const char *folded)
{
    *files = (struct book_files){0};
    if (!set)
        return NULL;
    if (reading)
        files->reading = outset_open(set, reading);
    if (folded)
        files->folded = outset_open(set, folded);
    files->painter = pdf_painter_new(book->fonts, reading ? &files->reading : NULL,
                                     folded ? &files->folded : NULL);
    return files->painter;
}

void book_files_close(struct book_files *files, struct book *book, const struct print *print)
{
    if (!files->painter)
        return;
    if (diags_count(book->diags) == 0)
        pdf_painter_end(files->painter, print);
    pdf_painter_free(files->painter);
    if (files->reading.take)
        outset_close(files->reading);
    if (files->folded.take)
        outset_close(files->folded);
}

void book_paint(struct book *book, struct outset *set, const struct print *print,
                const char *reading, const char *folded)
{
    struct book_files files;
    if (diags_count(book->diags) > 0)
        return;
    struct pdf_painter *painter = book_files_open(&files, book, set, reading, folded);
    for (size_t i = 0; painter && i < print->sheet_count; i++)
        pdf_painter_take(painter, print, i);
    book_files_close(&files, book, print);
}
