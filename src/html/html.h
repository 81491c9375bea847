/* The page template, cut at its slots: pieces of HTML with a slot behind each. */
#ifndef HTML_HTML_H
#define HTML_HTML_H

#include "base/buffer.h"
#include "base/diag.h"
#include "doc/tree.h"

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

/* The offline site: one HTML page for every content page. */

/* templates/page.html, read and cut at its slots. */
struct html_template;

/* Reads a template. A missing, doubled or unknown slot is a fault; then NULL. */
struct html_template *html_template_read(struct arena *arena, struct diags *diags,
                                         const char *file);

struct html_site;

/* A page that the program makes by itself, behind the content pages. */
struct html_extra {
    const char *file;  /* "find.html" */
    const char *title; /* plain text */
    const char *brief; /* a word or two, for the top of every page */
    /* The HTML below its heading. */
    void (*paint)(struct buffer *out, const struct html_site *site, const void *with);
    const void *with;       /* is given to it */
    const char *script;     /* what it runs, or NULL */
    const char *style;      /* text of a style sheet of its own, or NULL */
    const char *style_file; /* its name in the site */
    bool has_engine;        /* the script makes WebAssembly */
};

struct html_site {
    const struct html_template *template;
    const struct page *const *pages; /* in order; the first is index.html */
    size_t page_count;
    const struct html_extra *extras; /* may be NULL */
    size_t extra_count;
    const char *style;       /* text of style.css: the single file carries it */
    const char *notice;      /* or NULL */
    const char *fingerprint; /* of the settings */
    const char *inputs;      /* one line: drum, cord, gauge, limits' source */
};

/* The last page whose title stands on a page: before it is known, that page cannot be
 * painted. No more of others is needed than their titles and names. */
size_t html_last_title(const struct html_site *site, size_t index);

/* The whole HTML of one page of the site: the content pages, then the extras. */
void html_paint(struct buffer *out, const struct html_site *site, size_t page);

/* All pages in one file, links between them become links within it. */
void html_paint_single(struct buffer *out, const struct html_site *site);

/* Name of a page's file: index.html for the first, else NAME.html. */
const char *html_file_name(struct arena *arena, const struct html_site *site, size_t page);

/* What the files of the HTML painter share. */

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
void html_link_name(struct html_page *page, size_t index, const char *name);

/* The page's title as a heading; everything below it. */
void html_paint_heading(struct html_page *page);
void html_paint_main(struct html_page *page);
void html_paint_previous(struct html_page *page);
void html_paint_next(struct html_page *page);

/* Links to the page's second-level headings; nothing where there is none. */
void html_paint_contents(struct html_page *page);

/* Slots that say the same on every page: notice, inputs, fingerprint, book. */
void html_fill_common_slot(struct html_page *page, enum slot slot);

/* The text below a node without its links and marks. */
void html_paint_plain(struct buffer *out, const struct node *top);
void html_paint_form(struct html_page *page, const struct form *form);

/* User text made safe to stand in an HTML page or in a link. */

/* Text for an element or a quoted attribute: & < > " ' become references. */
void escape_text(struct buffer *out, const char *text);

/* A file's name as a relative link: every byte but ASCII letters, digits and
 * - . _ becomes %XX (RFC 3986), so that the result needs no escape_text(). */
void escape_link(struct buffer *out, const char *name);

#endif
