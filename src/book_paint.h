/* From prints to PDF files in a set of outputs. Part of book_compose(). */
#ifndef BOOK_PAINT_H
#define BOOK_PAINT_H

#include "book.h"
#include "paint/pdf.h"

/* One print's way into a file in reading order, into one folded, or both. */
struct book_files {
    struct sink reading, folded; /* with nothing behind them: no such file */
    struct pdf_painter *painter; /* NULL: nothing is painted */
};

/* Gives the painter; NULL without a set. Either name may be NULL. */
struct pdf_painter *book_files_open(struct book_files *files, struct book *book,
                                    struct outset *set, const char *reading,
                                    const char *folded);

/* Once all sheets were painted. Files with faults are left as they are: the set is not
 * going to be put in its place. */
void book_files_close(struct book_files *files, struct book *book, const struct print *print);

/* All at once. */
void book_paint(struct book *book, struct outset *set, const struct print *print,
                const char *reading, const char *folded);

#endif
