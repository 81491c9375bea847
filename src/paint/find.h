/* The index of tables, figures and words: where everything of the book stands. */
#ifndef PAINT_FIND_H
#define PAINT_FIND_H

#include "paint/html.h"

/* The HTML of the index below its heading: all tables and figures in order; headings
 * and the row heads of hand-written tables from A to Z. Links name the pages' files. */
void find_paint(struct arena *arena, struct buffer *out, const struct html_site *site);

#endif
