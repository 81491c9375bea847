/* What the bench page begins with: the settings as they were typed, then what the logs add. */
#ifndef BOOK_BENCH_H
#define BOOK_BENCH_H

#include "book/book.h"
#include "html/bench_page.h"

/* Only with a good shop. Owned by the book's arena. */
struct bench_setting *book_bench_settings(struct book *book, size_t *count);

#endif
