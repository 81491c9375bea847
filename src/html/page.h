/* A page of the site while it is painted: what the files of this folder share. */
#ifndef HTML_PAGE_H
#define HTML_PAGE_H

#include "html/html.h"

enum slot {
    SLOT_POLICY,
    SLOT_STYLE,
    SLOT_SCRIPTS,
    SLOT_TITLE,
    SLOT_BOOK,
    SLOT_SHEET,
    SLOT_NOTICE,
    SLOT_SHORTCUTS,
    SLOT_HEADING,
    SLOT_CONTENTS,
    SLOT_MAIN,
    SLOT_PREVIOUS,
    SLOT_NEXT,
    SLOT_NAVIGATION,
    SLOT_INPUTS,
    SLOT_FINGERPRINT,
    SLOT_COUNT,
    SLOT_NONE = SLOT_COUNT
};

/* HTML to copy as it is, then the slot to fill; SLOT_NONE where nothing follows. */
struct template_piece {
    const char *bytes;
    size_t length;
    enum slot slot;
};

struct html_template {
    struct template_piece *pieces; /* owned by the arena */
    size_t count;
};

/* Names made here hold a '_', which no name of a heading or table can: so they never clash. */
struct html_page {
    struct buffer *out;
    const struct html_site *site;
    size_t index;                  /* of the page; of the first, in the single file's frame */
    bool single;                   /* one file holds all pages */
    const char *style;             /* then: all style sheets, else NULL */
    const struct file_link *files; /* then: all pages in the order of their links (html.c) */
    int caution_count;             /* so far; numbers the ids of their titles */
};

/* Of content pages and those that the program makes. */
size_t html_page_count(const struct html_site *site);

/* NULL for a content page. */
const struct html_extra *html_extra_at(const struct html_site *site, size_t index);

const char *html_title(const struct html_site *site, size_t index);

/* The heading that a content page begins with (doc/markdown.c sees to it). */
const struct node *html_title_heading(const struct html_page *page);

/* In the single file all but the first page's headings stand a level lower: 1, else 0. */
int html_lowered(const struct html_page *page);

/* Where a link leads: page `index`, or a name in it where that is not NULL. */
void html_put_link(struct html_page *page, size_t index, const char *name);

/* A name in this page, as an id, and what the program puts behind it: in the single file with
 * the page's own before it, so that no two are the same. */
void html_put_name(struct html_page *page, const char *name, const char *ending);

/* The attribute that names a part of this page by the element of that name. In the single
 * file the title of the page stands behind it, so that two alike are told apart. */
void html_put_label(struct html_page *page, const char *name, const char *ending);

/* A node with everything below it. */
void html_paint_node(struct html_page *page, const struct node *top);

/* The text below a node without its links and marks. */
void html_paint_plain(struct buffer *out, const struct node *top);

#endif
