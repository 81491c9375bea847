/* The stages of a run, in the order in which book/book.c takes them. Each reads what those
 * before it left in the book; what they find wrong is in its diags. */
#ifndef BOOK_STAGES_H
#define BOOK_STAGES_H

#include "book/book.h"
#include "doc/canvas.h"
#include "layout/aids.h"

/* What the numbers are worked out for, in a line. Only with a good shop. */
const char *book_inputs_text(struct arena *arena, const struct results *results);

/* Lists the pages of the folder by their files' names. */
void book_list_pages(struct book *book, const char *folder);

/* Reads the templates, and says what every page of the site has beside its own words. */
void book_read_templates(struct book *book, const struct book_paths *paths);

/* Puts tables, figures and values into a page that was read, and looks at its links, forms
 * and characters. Without a good shop names and options are looked at alone. */
void book_resolve_page(struct book *book, const struct page *page);

/* When all pages are read: looks at links to later pages, and makes the computed tables that
 * none shows, so that every table has its CSV. */
void book_resolve_rest(struct book *book);

/* A page was read and resolved: writes the pages of the site for which enough is now known.
 * Drops the trees that nothing needs any more. */
void book_take_page(struct book *book, struct page *page);

/* Are parts made in the end that need all trees? Then these lie in the book's arena; else
 * each in one of its own, and goes with its page of the site. */
bool book_keeps_trees(const struct book *book);

/* A page's tree is no longer needed: frees it, unless all trees are kept. */
void book_drop_tree(struct book *book, struct page *page);

/* Breaks everything into printed pages, and paints them into the set that is written, if one
 * is. Only without faults; may find some. */
void book_compose(struct book *book);

/* The set that is written, begun when first asked for; NULL after a fault. */
struct outset *book_begin_set(struct book *book);

/* What of the site, the single file and the tables is not written yet. Only without faults. */
void book_write_rest(struct book *book);

/* The book's fonts, as figures ask them for the width of their texts. */
struct text_meter book_meter(const struct book *book);

/* What is printed to measure with and to work by: the tape for the drum, the strip for the
 * nut, a drum to make. Owned by the arena; *count of them. */
const struct aid *book_aids(struct arena *arena, const struct shop *shop,
                            const struct text_meter *meter, enum paper_size booklet,
                            size_t *count);

#endif
