/* What the files of the HTML painter share. */
#ifndef PAINT_HTML_PARTS_H
#define PAINT_HTML_PARTS_H

#include "paint/html.h"
#include "paint/template.h"

/* The page of the site that a link to a file means. */
struct file_link {
    const char *link; /* as html_link_to() writes it */
    size_t index;
};

/* One page while it is painted. Names made here hold a '_', which no name of a
 * heading or table can: so they never clash. */
struct html_page {
    struct buffer *out;
    const struct html_site *site;
    size_t index;
    bool single;                   /* one file holds all pages */
    const struct file_link *files; /* then: all pages in the order of their links */
    int caution_count;             /* so far; numbers the ids of their titles */
};

size_t html_page_count(const struct html_site *site);
const char *html_title(const struct html_site *site, size_t index);

/* The extra page at an index; NULL for a content page. */
const struct html_extra *html_extra_at(const struct html_site *site, size_t index);

/* The page's name as a link: its file, or its place in the single file. */
void html_link_to(struct html_page *page, size_t index);

/* A name within page `index`, as an id or behind '#' in a link: in the single file
 * with the page's own before it, so that no two are the same. */
void html_name(struct html_page *page, size_t index, const char *name);
void html_link_name(struct html_page *page, size_t index, const char *name);

/* For what is named by a title or caption: in the single file a blank and the name of
 * the page's own title, so that two alike are told apart; else nothing. */
void html_page_label(struct html_page *page);

/* In the single file the first page's title is the title of all: other pages' headings stand a
 * level lower. */
bool html_is_below_another(const struct html_page *page);

/* The page's title as a heading; everything below it. */
void html_paint_heading(struct html_page *page);
void html_paint_main(struct html_page *page);

/* Links to all pages; to the page before and the page behind. */
void html_paint_navigation(struct html_page *page);
void html_paint_shortcuts(struct html_page *page);
void html_paint_previous(struct html_page *page);
void html_paint_next(struct html_page *page);

/* Links to the page's second-level headings; nothing where there is none. */
void html_paint_contents(struct html_page *page);

/* Slots that say the same on every page: notice, inputs, fingerprint, book. */
void html_fill_common_slot(struct html_page *page, enum slot slot);

/* A node with everything below it. */
void html_paint_node(struct html_page *page, const struct node *top);

/* The text below a node without its links and marks. */
void html_paint_plain(struct buffer *out, const struct node *top);

void html_paint_table(struct html_page *page, const struct table *table);
void html_paint_figure(struct html_page *page, const struct figure *figure);
void html_paint_form(struct html_page *page, const struct form *form);

#endif
