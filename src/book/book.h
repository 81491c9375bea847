/* A book: everything that one run reads, works out and makes of one lathe. The fields stand
 * in the order in which a run fills them; see "A run" in DEVELOPERS.md. */
#ifndef BOOK_BOOK_H
#define BOOK_BOOK_H

#include "base/diag.h"
#include "base/fatal.h"
#include "base/outset.h"
#include "html/find.h"
#include "html/html.h"
#include "layout/fonts.h"
#include "layout/print.h"
#include "shop/shop.h"

/* The file in a set of outputs that says what it was made from. */
#define MADE_FROM ".made-from"

/* What is made; may be added up. */
enum book_part {
    PART_SITE = 1 << 0,    /* site/ */
    PART_SINGLE = 1 << 1,  /* spindlebook.html */
    PART_TABLES = 1 << 2,  /* tables/ */
    PART_BOOKLET = 1 << 3, /* booklet.pdf */
    PART_FOLD = 1 << 4,    /* booklet-fold.pdf, booklet-trial.pdf */
    PART_CARD = 1 << 5,    /* card.pdf, card-sheet.pdf */
    PART_AIDS = 1 << 6,    /* aids.pdf */
    PART_FORMS = 1 << 7,   /* forms.pdf */
    PART_DRUM = 1 << 8,    /* drum.stl, drum.3mf, drum.dxf, drum.svg */
    PART_RECORD = 1 << 9,  /* record.pdf */
    PARTS_ALL = (1 << 10) - 1
};

/* The parts as --only takes them, NULL-ended; the one of that name, 0 where there is none. */
extern const char *const book_part_names[];
unsigned book_part_named(const char *name);

/* Where the inputs are and where the outputs go. */
struct book_paths {
    const char *content, *templates, *fonts, *out;
    const char *pages;         /* their folder; that of the settings is content */
    const char *settings;      /* the settings' file; NULL: settings.yaml in content */
    const char *each;          /* a folder of lathes, for book_each(); or NULL */
    const char *made_from;     /* written into MADE_FROM; NULL: no such file */
    unsigned parts;            /* what is made: of enum book_part; 0: everything */
    const char *bench;         /* the bench page's engine; NULL: no bench page */
    const char *job;           /* whose record is shown; NULL: that of the last setting */
    const char **replacements; /* "key=value" of --set */
    size_t replacement_count;
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
enum { EXTRA_FIND, EXTRA_OWN_CARD, EXTRA_BENCH, EXTRA_PAGES };

struct results; /* judge/results.h */

struct book {
    unsigned parts;      /* what is made: of enum book_part */
    const char *out;     /* the folder that is made, NULL where none is */
    struct arena *arena; /* owns all that outlives a page */
    struct diags *diags; /* every fault of the run */
    struct shop shop;
    const struct results *results; /* of the shop; NULL where it was not read without a fault */
    bool shop_is_good;             /* and all that it says can be printed */
    bool drum_is_good;             /* the drum to make can be made */
    const char *inputs; /* one line: what they were worked out for; NULL without a good shop */
    const char *stamp;  /* what stands on every sheet: the settings' fingerprint, the program */

    struct page *listed;       /* the pages, to be filled while they are read */
    const struct page **pages; /* content/NN-*.md in order; the first is the title page */
    size_t page_count;
    const struct page *card; /* content/card.md, behind the booklet's; NULL where not there */
    const struct page
        *record; /* the page that is printed on a sheet of its own, too; or NULL */

    struct html_site site;
    struct html_extra extras[EXTRA_PAGES]; /* of the site */
    struct find *find;                     /* the index, filled while pages are read */
    struct fonts *fonts;                   /* NULL after a fault */

    struct table **tables; /* every computed table: as they stand, then the others */
    size_t table_count;
    struct placed_figure *figures;
    size_t figure_count;
    struct anchors *anchors; /* of each page */
    struct far_link *far_links;
    size_t far_link_count;

    struct outset *set; /* in the making; NULL before anything is written */
    struct buffer html; /* through which the site is written */
    size_t next_page;   /* of the site, to be written; the first is the last */

    /* On paper; NULL where the part is not made, the booklet and its trial also where nothing
     * is written. */
    const struct print *booklet, *card_print, *card_sheet, *trial, *aids;
    const struct print *forms;        /* NULL where no page is one */
    const struct print *record_print; /* NULL without such a page, or where no job is closed */
    const char *card_note; /* how well the card can be read; NULL without a table on it */
};

/* From now on the process can open nothing but settings and logs; with records it can make
 * files in their folder alone, or remove that where it is empty; with pages it can open what
 * they are made with, too; with outputs it can make files where those go; and with a lathe that
 * is begun its settings, too. As far as the kernel lets it (base/ground.h); once it has done
 * so, a second call changes nothing. */
enum touches {
    TOUCHES_SETTINGS,
    TOUCHES_RECORDS,
    TOUCHES_PAGES,
    TOUCHES_OUTPUTS,
    TOUCHES_BEGUN
};
void book_confine(const struct book_paths *paths, enum touches touches);

/* Reads, checks and composes everything, as far as there is no fault, and writes nothing.
 * Faults are in book->diags. book_free() in any case. */
void book_check(struct book *book, const struct book_paths *paths);

/* The same, and puts a whole set of outputs in the place of paths->out; after a fault, which
 * what stands there may be as well, nothing is changed. */
void book_make(struct book *book, const struct book_paths *paths);
void book_free(struct book *book);

/* Makes the outputs of every lathe in paths->each, NAME/settings.yaml or NAME.yaml, into a
 * folder of its name below paths->out. Those of a lathe with faults stay as they were, the
 * others are made; what is made from the same as before is left alone. On a terminal,
 * standard error shows how far the run is. */
enum status book_each(const struct book_paths *paths);

/* Reads settings and logs of every lathe there, and prints by lathe its faults and what gives
 * cause to look closer; then a line for each: verdict, last job, next check, the gauge's check,
 * how much is open. */
enum status check_each(const struct book_paths *paths);

#endif
