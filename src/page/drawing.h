/* Marks put straight onto a sheet, where no text flows: cutting lines, bars, strips,
 * the words beside them. Points; x to the right, y downward. */
#ifndef PAGE_DRAWING_H
#define PAGE_DRAWING_H

#include "page/compose.h"
#include "page/flow.h"

struct drawing {
    struct arena *arena;
    const struct fonts *fonts;
    struct print *print;
    struct sheet *sheet; /* the last one, which is drawn on */
    int tag;             /* of the words; lines are decoration */
};

/* Adds a sheet and draws on it from now on. Under the document's tag, which is made
 * with the first sheet. */
void drawing_sheet(struct drawing *drawing, double width, double height, const char *label);

/* What is written from now on is of this kind, a child of the document. */
void drawing_tag(struct drawing *drawing, enum tag_kind kind);

void drawing_line(struct drawing *drawing, double x, double y, double width, double height,
                  double line);
void drawing_box(struct drawing *drawing, double x, double y, double width, double height,
                 double line);

/* One line of text, its baseline at y, its left end, middle or right end at x. */
void drawing_text(struct drawing *drawing, double x, double y, enum align align,
                  const struct text_style *style, const char *text);

/* Text in as many lines as it takes in the area; y: the top of the first. Gives the
 * y below the last. */
double drawing_words(struct drawing *drawing, struct area area, double y,
                     const struct text_style *style, const char *text);

/* A figure at its own size, its upper left corner at (x, y). */
void drawing_figure(struct drawing *drawing, const struct figure *figure, double x, double y);

/* A rectangle with round corners, as chords too short to be told from arcs. */
void drawing_rounded(struct drawing *drawing, double x, double y, double width, double height,
                     double radius, double line);

/* The book's notice, inputs and fingerprint at the foot of the sheet. */
void drawing_foot(struct drawing *drawing, const struct imprint *imprint, double margin);

#endif
