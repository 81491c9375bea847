/* Paper: how large a page is, what stays blank at its edges, and so where on a sheet the
 * column of text stands. In points. */
#ifndef LAYOUT_PAPER_H
#define LAYOUT_PAPER_H

#include "layout/compose.h"

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

/* A kind of sheet: the paper, and what stays blank at its edges. */
struct layout {
    double width, height; /* upright */
    struct margins margins;
    double give;  /* share of the gaps that may go where a sheet then holds more; 0: none */
    bool turning; /* a sheet may lie on its side */
};

/* Left edge of the column. Sheets of even index are right-hand pages, with the
 * fold at their left. */
double layout_left(const struct layout *layout, size_t sheet, bool sideways);

#endif
