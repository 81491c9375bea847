/* From trees to printed pages. */
#ifndef LAYOUT_COMPOSE_H
#define LAYOUT_COMPOSE_H

#include "doc/tree.h"
#include "layout/fonts.h"
#include "layout/print.h"

/* What the sheets say of themselves. */
struct imprint {
    const char *title;       /* of the book */
    const char *notice;      /* on every sheet, such as "invented example"; or NULL */
    const char *fingerprint; /* of the settings, and the program that read them */
    const char *inputs;      /* one line: drum, cord, gauge, limits' source */
};

enum paper_size { PAPER_A6, PAPER_A5, PAPER_HALF_LETTER, PAPER_SIZES };

/* Every code point of every text of a page must be in the font: misses are faults at the
 * node's place. Call once for each page before composing. */
void compose_check(const struct page *page, const struct fonts *fonts, struct diags *diags);

/* The same of one text, which may be printed in any upright face. */
void text_check(const char *text, const struct fonts *fonts, struct place at,
                struct diags *diags);

/* The same of what sheets say of themselves. */
void imprint_check(const struct imprint *imprint, const struct fonts *fonts, struct place at,
                   struct diags *diags);

/* The booklet: title page (the first page's tree), contents, then every page of
 * the rest, each on a new sheet or below the short end of the one before (layout/cut.c). A
 * table that fits at no size is a fault. */
struct print *compose_booklet(struct arena *arena, const struct page *const *pages,
                              size_t count, const struct imprint *imprint,
                              const struct fonts *fonts, enum paper_size size,
                              struct diags *diags);

/* Looks for the same faults, and composes nothing. */
void booklet_check(struct arena *arena, const struct page *const *pages, size_t count,
                   const struct imprint *imprint, const struct fonts *fonts,
                   enum paper_size size, struct diags *diags);

/* The forms among the pages, each on one sheet of the paper that the booklet is printed
 * on. A form that fills more is a fault. */
struct print *compose_forms(struct arena *arena, const struct page *const *pages, size_t count,
                            const struct imprint *imprint, const struct fonts *fonts,
                            enum paper_size booklet, struct diags *diags);

/* The page of the record on a sheet of that paper, from its first table on: what stands before
 * is for who makes it. A long one goes on behind. */
struct print *compose_record(struct arena *arena, const struct page *page,
                             const struct imprint *imprint, const struct fonts *fonts,
                             enum paper_size booklet, struct diags *diags);

/* A state, and at which pulls it stands; "" where that is not said. */
struct state_cell {
    const char *words, *pulls;
};

/* A place on the card's scale: where it lies, and what is written there. */
struct scale_mark {
    double at;
    const char *number, *name;
};

/* What the card is for: the pulls that are good in the lathe's own band, as its gauge shows
 * them, and the limits around them. */
struct card_window {
    const char *head;           /* over the good pulls: the band */
    const char *good;           /* "14.80 to 21.80 N"; or that none is */
    double good_from, good_to;  /* on the scale; NAN where none is good */
    struct scale_mark marks[3]; /* low pull, aim, high pull; */
    size_t mark_count;          /* 0: there is no pull between the limits */
    const char *never;          /* the number never to go above; NULL: none */
};

/* What a card is to be like. Heights of capitals in points. */
struct card_ask {
    enum paper_size size;
    enum paper_size booklet;          /* the paper that the printer holds, as for the booklet */
    double least;                     /* of all that stands at the window, */
    double least_good;                /* and of the good pulls */
    const char *distance;             /* from which it is read, in words */
    double distance_mm;               /* the same */
    double hole;                      /* to hang it by: from its top edge; points, 0: none */
    struct place at;                  /* where that distance was set */
    const struct card_window *window; /* NULL without limits on file */
    const struct state_cell *key;     /* the states below it, from low to high */
    size_t key_count;
};

struct card_prints {
    struct print *card;  /* front and back, of the card's size */
    struct print *sheet; /* the same on paper as it is bought, to be cut out */
    double height;       /* of the smallest capital at the window; 0: there is none */
};

/* The card: what stands before the rule in front, the rest on the back, each in
 * the largest type that fits. A card that cannot be read is a fault. */
struct card_prints compose_card(struct arena *arena, const struct page *page,
                                const struct imprint *imprint, const struct fonts *fonts,
                                const struct card_ask *ask, struct diags *diags);

#endif
