/* What the files of the HTML painter share. */
#ifndef PAINT_HTML_PARTS_H
#define PAINT_HTML_PARTS_H

#include "paint/html.h"

/* One page while it is painted. Names made here hold a '_', which no name of a
 * heading or table can: so they never clash. */
struct html_page {
    struct buffer *out;
    const struct html_site *site;
    size_t index;
    int caution_count; /* so far; numbers the ids of their titles */
};

/* The name of a page's file, ready to stand in a link. */
void html_link_to(struct html_page *page, size_t index);

/* A node with everything below it. */
void html_paint_node(struct html_page *page, const struct node *top);

/* The text below a node without its links and marks. */
void html_paint_plain(struct buffer *out, const struct node *top);

void html_paint_table(struct buffer *out, const struct table *table);

#endif
