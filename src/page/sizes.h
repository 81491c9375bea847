/* Paper: how large a page is and what stays blank at its edges. In points. */
#ifndef PAGE_SIZES_H
#define PAGE_SIZES_H

#include "page/compose.h"

struct margins {
    double top, bottom; /* bottom holds the running foot */
    double inner;       /* at the fold or the binder */
    double outer;       /* where a thumb lies */
};

struct paper {
    const char *name;
    double width, height; /* upright */
    struct margins booklet;
    double card_edge;  /* blank inside the cut of a card, for the film */
    double least_body; /* smallest body type of a card of this size */
    const char *pouch; /* to laminate a card of this size in */
};

const struct paper *paper_of(enum paper_size size);

/* A sheet as it is bought; upright, in points. */
struct stock {
    const char *name;
    double width, height;
};

/* What pages of this size are printed on, two beside each other: A4 or letter. */
const struct stock *stock_of(enum paper_size size);

#endif
