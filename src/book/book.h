/* A whole run: read, check, compute, compose, paint. */
#ifndef BOOK_BOOK_H
#define BOOK_BOOK_H

#include "base/diag.h"
#include "base/outset.h"
#include "html/find.h"
#include "html/html.h"
#include "layout/fonts.h"
#include "layout/print.h"
#include "shop/shop.h"

/* The file in a set of outputs that says what it was made from. */
#define MADE_FROM ".made-from"

/* Where the inputs are and where the outputs go. */
struct book_paths {
    const char *content, *templates, *fonts, *out;
    const char *settings;            /* the settings' file; NULL: settings.yaml in content */
    const char *each;                /* a folder of lathes, see book/each.h; or NULL */
    const char *made_from;           /* written into MADE_FROM; NULL: no such file */
    unsigned parts;                  /* what is made: of enum book_part; 0: everything */
    const char *bench;               /* the bench page's engine; NULL: no bench page */
    const char **replacements; /* "key=value" of --set */
    size_t replacement_count;
};

/* What only the screen shows. The bench's parts are NULL where there is no engine. */
struct screen {
    const char *find_script, *find_style;
    const char *bench_html, *bench_script, *bench_style;
    const void *engine;
    size_t engine_length;
};

/* A figure that stands in the book. */
struct placed_figure {
    const char *name;
    struct place at;
};

/* What can be linked to on a page: its headings, tables and figures, in byte order. */
struct anchors {
    const char **texts;
    size_t count;
};

/* A link to a place on a page that is read later. */
struct far_link {
    struct place at;
    const struct page *to;
    const char *anchor;
};

/* The pages that the program makes by itself. */
enum { EXTRA_FIND, EXTRA_BENCH, EXTRA_PAGES };

struct book {
    unsigned parts;        /* what is made: of enum book_part */
    const char *made_from; /* or NULL */
    const char *out;       /* the folder that is made, NULL where none is */
    struct outset *set;    /* in the making; NULL before anything is written */
    struct arena *arena;
    struct diags *diags;
    struct shop shop;
    bool shop_is_good;         /* read without a fault: numbers can be worked out */
    struct page *listed;       /* the pages, to be filled while they are read */
    const struct page **pages; /* content/NN-*.md in order; the first is the title page */
    size_t page_count;
    const struct page *card; /* content/card.md, behind the booklet's; NULL where not there */
    struct table **tables;   /* every computed table, in the order of the registry */
    size_t table_count;
    struct placed_figure *figures;
    size_t figure_count;
    struct anchors *anchors; /* of each page */
    struct far_link *far_links;
    size_t far_link_count;
    struct fonts *fonts;
    struct html_template *page_template;
    const char *inputs; /* one line: what the numbers were worked out for */
    const char *style;  /* the style sheet's text */
    size_t style_length;
    struct screen screen;
    struct html_site site;
    struct html_extra extras[EXTRA_PAGES];
    struct find *find;
    struct buffer html; /* through which the site is written */
    size_t next_page;   /* of the site, to be written; the first is the last */
    /* What book_compose() made; NULL where the part is not made. */
    const struct print *booklet, *card_print, *card_sheet, *trial, *aids;
    const struct print *forms; /* NULL where no page is one */
    const char *card_note;     /* how well the card can be read; NULL without a table on it */
};

/* Reads and checks everything; faults are in book->diags. */
void book_read(struct book *book, const struct book_paths *paths);

/* May a page's file have this name? Part of book_read(). */
bool book_check_name(struct book *book, const char *folder, const char *file);

/* Lists the pages by their files' names; then reads and checks them all. Parts of
 * book_read(). */
void book_list_pages(struct book *book, const char *folder);
void book_read_pages(struct book *book);

/* Checks one page that was read: all that follows here, in this order. */
void book_check_page(struct book *book, const struct page *page);

/* Whether what belongs on forms stands nowhere else. */
void book_check_forms(struct book *book, const struct page *page);

/* Makes the page's computed tables; without a shop only looks at their names and options. */
void book_place_tables(struct book *book, const struct page *page);

/* Draws the page's figures; without a shop or fonts only looks at their names. */
void book_place_figures(struct book *book, const struct page *page);

/* Leaves out of forms and card what begins with a condition that does not hold. */
void book_keep_what_holds(struct book *book, const struct page *page, const struct shop *shop);

/* Fills the values in that forms carry, or without a shop only looks at their names. */
void book_fill_forms(struct book *book, const struct page *page, const struct shop *shop);

/* Finds the pages that the links within the book mean, and what can be linked to on this
 * one. */
void book_find_links(struct book *book, const struct page *page);

/* When all pages are read: makes the computed tables that none shows; looks for the places
 * of links that lead to later pages. */
void book_make_other_tables(struct book *book);
void book_check_links(struct book *book);

/* Is a page of this file's name a form? */
bool book_is_form(const char *file);

/* What would end a script's or a style sheet's element. */
#define SCRIPT_END "</script"
#define STYLE_END  "</style"

/* Reads the template of pages and their style. Part of book_read(). */
void book_read_templates(struct book *book, const char *folder);

/* Reads what the screen needs. Part of book_read(). */
void book_read_screen(struct book *book, const struct book_paths *paths);

/* Breaks everything into printed pages, and paints them into the set; without one (NULL)
 * nothing is written. Only without faults; may find some. */
void book_compose(struct book *book, struct outset *set);

/* What the numbers were worked out for, in a line. Only with a good shop. */
const char *book_inputs_text(struct book *book);

/* Writes the whole set of outputs. Only without faults; may find some while pages are broken,
 * and what stands in the place of the outputs may be one: then nothing is changed. */
void book_write(struct book *book);

/* What every page of the site says beside its own words. Only without faults. Part of
 * book_read(). */
void book_set_up_site(struct book *book);

/* A page's tree is no longer needed: frees it, unless all trees are kept. */
void book_drop_tree(struct book *book, struct page *page);

/* Reads, composes and writes, as far as there is no fault. */
void book_make(struct book *book, const struct book_paths *paths);
void book_free(struct book *book);

/* The outputs by name, so that a run may make some of them alone. */

/* May be added up. */
enum book_part {
    PART_SITE = 1 << 0,    /* site/ */
    PART_SINGLE = 1 << 1,  /* spindlebook.html */
    PART_TABLES = 1 << 2,  /* tables/ */
    PART_BOOKLET = 1 << 3, /* booklet.pdf */
    PART_FOLD = 1 << 4,    /* booklet-fold.pdf, booklet-trial.pdf */
    PART_CARD = 1 << 5,    /* card.pdf, card-sheet.pdf */
    PART_AIDS = 1 << 6,    /* aids.pdf */
    PART_FORMS = 1 << 7    /* forms.pdf */
};

enum { PARTS_ALL = (1 << 8) - 1 };

/* The part of that name as --only takes it; 0 where there is none. */
unsigned book_part_named(const char *name);

#endif
