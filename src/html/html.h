/* The offline site: one HTML page for every content page, and some that the program makes
 * by itself; and the single file, which holds them all. */
#ifndef HTML_HTML_H
#define HTML_HTML_H

#include "base/buffer.h"
#include "base/diag.h"
#include "doc/tree.h"

/* templates/page.html, read and cut at its slots. */
struct html_template;

/* Reads a template, which is the arena's. A missing, doubled or unknown slot is a fault; then
 * NULL. */
struct html_template *html_template_read(struct arena *arena, struct diags *diags,
                                         const char *file);

struct html_site;

/* A page that the program makes by itself, behind the content pages. */
struct html_extra {
    const char *name;  /* of its files: "find" of find.html and find.css */
    const char *title; /* plain text */
    const char *brief; /* a word or two, for the top of every page */
    /* The HTML below its heading. */
    void (*paint)(struct buffer *out, const struct html_site *site, const void *with);
    const void *with;   /* is given to it */
    const char *script; /* what it runs, or NULL */
    const char *style;  /* text of a style sheet of its own, or NULL */
    bool has_engine;    /* the script asks the site's engine */
};

/* What the pages that ask an engine share. */
struct html_engine {
    const char *script; /* runs before theirs */
    const void *bytes;  /* WebAssembly */
    size_t length;
};

/* Pages are numbered through: those of the content, then the extras. */
struct html_site {
    const struct html_template *template;
    const struct page *const *pages; /* in order; the first is index.html */
    size_t page_count;
    const struct html_extra *extras; /* may be NULL */
    size_t extra_count;
    const struct html_engine *engine; /* or NULL */
    const char *style;                /* text of style.css: the single file carries it */
    const char *notice;               /* or NULL */
    const char *fingerprint;          /* of the settings, and the program that read them */
    const char *inputs;               /* one line: drum, cord, gauge, limits' source */
};

/* The last content page whose title stands on a page: before it is known, that page cannot be
 * painted. No more of others is needed than their titles and names. */
size_t html_last_title(const struct html_site *site, size_t index);

/* Name of a page's file, the arena's: index.html for the first, else NAME.html. */
const char *html_file_name(struct arena *arena, const struct html_site *site, size_t index);

/* The whole HTML of one page of the site. */
void html_paint(struct buffer *out, const struct html_site *site, size_t index);

/* All pages in one file, links between them become links within it. */
void html_paint_single(struct buffer *out, const struct html_site *site);

/* ---- the bench page ---- */

/* A setting as it is written in the settings file. */
struct bench_setting {
    const char *key, *text;
};

struct bench_parts {
    const char *html; /* of templates/bench.html */
    const struct bench_setting *settings;
    size_t setting_count;
    const char *fingerprint;
};

/* Paints the extra page (struct html_extra) of a struct bench_parts. */
void bench_page_paint(struct buffer *out, const struct html_site *site, const void *parts);

/* ---- the page of a card for one's own lathe ---- */

struct own_card_parts {
    const char *html;        /* of templates/own-card.html */
    const struct page *card; /* as it was read, its values and conditions still in braces */
};

/* Paints the extra page (struct html_extra) of a struct own_card_parts. */
void own_card_page_paint(struct buffer *out, const struct html_site *site, const void *parts);

#endif
