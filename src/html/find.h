/* The index of tables, figures and words: where everything of the book stands. */
#ifndef HTML_FIND_H
#define HTML_FIND_H

#include "html/html.h"

struct find;

struct find *find_new(void);
void find_free(struct find *find); /* NULL is allowed */

/* Takes note of what stands on a page; nothing of it is needed afterwards. Pages come in
 * order. */
void find_add(struct find *find, const struct page *page);

/* Paints the extra page (struct html_extra) of a struct find: all tables and figures in order;
 * headings and the row heads of hand-written tables from A to Z. Links name the pages' files.
 */
void find_paint(struct buffer *out, const struct html_site *site, const void *find);

#endif
